using LeafScan.Frame;
using LeafScan.Training.Bench.Repeat;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Repeat;

public class ShotGeometryTests
{
    private static readonly Size Photo = new(801, 601);

    [Fact]
    public void A_shot_that_changes_nothing_leaves_every_place_where_it_is()
    {
        ShotGeometry same = ShotGeometry.Of(Photo, new ShotSpec(), default);
        Assert.Equal(Photo, same.Size);
        Point2d place = same.Map.Map(123, 456);
        Assert.Equal(123, place.X, 9);
        Assert.Equal(456, place.Y, 9);
    }

    [Fact]
    public void From_twice_the_distance_the_leaf_has_half_as_many_pixels_across()
    {
        ShotGeometry far = ShotGeometry.Of(Photo, new ShotSpec { Distance = 2 }, default);
        Assert.Equal(new Size(401, 301), far.Size);
        Assert.Equal(100, Far(far, (300, 300), (500, 300)), 9);
    }

    // By hand: focal length 0.75 * 801 = 600.75; 300 pixels from the axis at 15 degrees lies at 300 * 0.9659258 = 289.7777
    // and 300 * 0.2588190 = 77.6457 deeper, so that it is seen at 289.7777 / (1 + 77.6457 / 600.75) = 256.6119.
    [Fact]
    public void A_tilt_shortens_what_lies_behind_as_the_pinhole_camera_does()
    {
        ShotGeometry tilted = ShotGeometry.Of(Photo, new ShotSpec { TiltDegrees = 15 }, default);
        Assert.Equal(256.61, Far(tilted, (400, 300), (700, 300)), 2);
        Assert.True(Far(tilted, (400, 300), (100, 300)) > 300, "What comes nearer must look larger.");
        Assert.Equal(200, Far(tilted, (400, 200), (400, 400)), 9);
    }

    // Checked against OpenCV's own projection of points in space (cv::projectPoints) with the leaf turned by Rodrigues' formula.
    [Theory]
    [InlineData(15, 0, 1)]
    [InlineData(12, 70, 0.7)]
    [InlineData(9, 200, 1.3)]
    public void Places_go_where_an_independent_camera_model_puts_them(double tilt, double towards, double distance)
    {
        ShotGeometry shot = ShotGeometry.Of(Photo, new ShotSpec { TiltDegrees = tilt, TiltTowardsDegrees = towards, Distance = distance }, default);
        (int X, int Y)[] places = [(400, 300), (0, 0), (800, 0), (800, 600), (150, 520)];
        double focal = ShotGeometry.FocalToLongSide * 801;

        // What lies towards the tilt goes away from the camera: a turn about the axis square to it in the picture.
        double angle = tilt * Math.PI / 180;
        double way = towards * Math.PI / 180;
        double[] turn = [angle * Math.Sin(way), -angle * Math.Cos(way), 0];
        Cv2.ProjectPoints(
            [.. places.Select(p => new Point3f(p.X - 400, p.Y - 300, 0))],
            turn,
            [0, 0, focal * distance],
            new double[,] { { focal, 0, 0 }, { 0, focal, 0 }, { 0, 0, 1 } },
            [0, 0, 0, 0],
            out Point2f[] seen,
            out _);
        Point2d middle = shot.Map.Map(400, 300);
        for (int i = 0; i < places.Length; i++)
        {
            Point2d mine = shot.Map.Map(places[i].X, places[i].Y);
            Assert.Equal(seen[i].X, mine.X - middle.X, 2);
            Assert.Equal(seen[i].Y, mine.Y - middle.Y, 2);
        }
    }

    [Fact]
    public void A_shot_shows_nothing_that_the_photo_did_not_show()
    {
        ShotGeometry shot = ShotGeometry.Of(Photo, new ShotSpec { TiltDegrees = 15, TiltTowardsDegrees = 40, Distance = 0.8 }, new Rect(300, 200, 200, 200));
        PlaneMap back = shot.Map.Back();
        foreach ((int x, int y) in ((int, int)[])[(0, 0), (shot.Size.Width - 1, 0), (0, shot.Size.Height - 1), (shot.Size.Width - 1, shot.Size.Height - 1)])
        {
            Point2d from = back.Map(x, y);
            Assert.InRange(from.X, -1e-6, 800 + 1e-6);
            Assert.InRange(from.Y, -1e-6, 600 + 1e-6);
        }
    }

    [Fact]
    public void A_leaf_at_the_edge_of_the_photo_stays_in_the_shot()
    {
        ShotGeometry shot = ShotGeometry.Of(Photo, new ShotSpec { TiltDegrees = 15, TiltTowardsDegrees = 40 }, new Rect(0, 0, 801, 601));
        foreach ((int x, int y) in ((int, int)[])[(0, 0), (800, 0), (0, 600), (800, 600)])
        {
            Point2d at = shot.Map.Map(x, y);
            Assert.InRange(at.X, -1e-6, shot.Size.Width - 1 + 1e-6);
            Assert.InRange(at.Y, -1e-6, shot.Size.Height - 1 + 1e-6);
        }
    }

    private static double Far(ShotGeometry shot, (int X, int Y) a, (int X, int Y) b)
    {
        Point2d from = shot.Map.Map(a.X, a.Y);
        Point2d to = shot.Map.Map(b.X, b.Y);
        return Math.Sqrt(Math.Pow(from.X - to.X, 2) + Math.Pow(from.Y - to.Y, 2));
    }
}
