using OpenCvSharp;

namespace LeafScan.Frame.Tests;

public class PlaneMapTests
{
    private static readonly PlaneMap Some = PlaneMap.Shift(40, -12).After(PlaneMap.Lean(0.001, -0.0007)).After(PlaneMap.Turn(17, 9));

    [Fact]
    public void Places_go_where_OpenCV_sends_them()
    {
        // Outside check: perspectiveTransform of OpenCV with the same nine numbers.
        using Mat matrix = Some.ToMat();
        Point2d[] places = [new(0, 0), new(10, 3), new(-25, 18), new(31.5, -40.25)];
        using Mat from = Mat.FromArray(places.Select(p => new Vec2d(p.X, p.Y)).ToArray());
        using Mat to = new();
        Cv2.PerspectiveTransform(from, to, matrix);
        for (int i = 0; i < places.Length; i++)
        {
            Vec2d expected = to.At<Vec2d>(i);
            Point2d found = Some.Map(places[i].X, places[i].Y);
            Assert.Equal(expected.Item0, found.X, 6);
            Assert.Equal(expected.Item1, found.Y, 6);
        }
    }

    [Fact]
    public void The_map_back_is_the_one_that_OpenCV_inverts_to()
    {
        using Mat matrix = Some.ToMat();
        using Mat inverse = matrix.Inv();
        PlaneMap back = Some.Back();
        double last = inverse.At<double>(2, 2);
        for (int i = 0; i < 9; i++)
        {
            Assert.Equal(inverse.At<double>(i / 3, i % 3) / last, back.Values[i], 9);
        }

        Point2d there = Some.Map(12, -7);
        Point2d here = back.Map(there.X, there.Y);
        Assert.Equal(12, here.X, 8);
        Assert.Equal(-7, here.Y, 8);
    }
}
