using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Views;
using LeafScan.Leaves.WholePlant;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Views;

/// <summary>Drawn scenes, moved by a map that is known exactly.</summary>
public sealed class ViewComparisonTests
{
    private static readonly Size Frame = new(900, 700);

    // The check is the map itself: a turn by three degrees and a step nearer, by the textbook form of a similarity.
    [Fact]
    public void The_map_between_two_photos_is_found_to_a_pixel()
    {
        using Mat scene = Scene(5, brown: 0);
        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(450, 350), 3, 1.06);
        using Mat moved = new();
        Cv2.WarpAffine(scene, moved, turn, Frame, InterpolationFlags.Linear, BorderTypes.Reflect101);
        ViewMatch match = ViewMatch.Find(scene, moved);
        Assert.Null(match.Refusal);
        using Mat map = match.ToMat();
        Point2d[] corners = [new(200, 150), new(700, 150), new(700, 550), new(200, 550)];
        Point2f[] there = [.. corners.Select(p => On(turn, p))];
        Point2f[] back = Cv2.PerspectiveTransform(there, map);
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(corners[i].X, back[i].X, 1.0);
            Assert.Equal(corners[i].Y, back[i].Y, 1.0);
        }
    }

    [Fact]
    public void A_side_that_turned_brown_is_worse_and_the_other_the_same()
    {
        using PlantView first = View(Scene(5, brown: 0));
        using PlantView second = View(Moved(Scene(5, brown: 0.5)));
        using ViewComparison compared = ViewComparison.Of(first, second, ("June", "July"));
        PlantChange change = compared.Change!;
        Assert.Equal(6, change.Sectors.Count);
        Assert.All(change.Sectors.Where(s => s.Side == "left"), s => Assert.Equal("worse", s.Word));
        Assert.All(change.Sectors.Where(s => s.Side == "right"), s => Assert.Equal("same", s.Word));
        Assert.InRange(change.Discoloured!.Value, 0.35, 0.6);
        Assert.True(change.Greenness < 0);
        Assert.True(compared.Picture!.Cols > 600);

        // What is written over the photos stands on paper: light, whatever the photos show there.
        using Mat strip = compared.Picture.RowRange(0, 4);
        Assert.True(Cv2.Mean(strip).Val1 > 235);
    }

    [Fact]
    public void The_other_way_round_it_is_better()
    {
        using PlantView first = View(Scene(5, brown: 0.5));
        using PlantView second = View(Scene(5, brown: 0));
        using ViewComparison compared = ViewComparison.Of(first, second, ("June", "July"));
        Assert.All(compared.Change!.Sectors.Where(s => s.Side == "left"), s => Assert.Equal("better", s.Word));
    }

    [Fact]
    public void Warmer_light_alone_is_no_change()
    {
        using Mat warm = Scene(5, brown: 0);
        Cv2.Multiply(warm, new Scalar(0.9, 1, 1.08), warm);
        using PlantView first = View(Scene(5, brown: 0));
        using PlantView second = View(Moved(warm));
        using ViewComparison compared = ViewComparison.Of(first, second, ("June", "July"));
        Assert.All(compared.Change!.Sectors, s => Assert.Equal("same", s.Word));
        Assert.Equal(0, compared.Change.Greenness!.Value, 0.02);
    }

    [Fact]
    public void Another_plant_before_another_wall_is_refused_in_words()
    {
        using PlantView first = View(Scene(5, brown: 0));
        using PlantView second = View(Scene(6, brown: 0));
        using ViewComparison compared = ViewComparison.Of(first, second, ("June", "July"));
        Assert.Null(compared.Change);
        Assert.Null(compared.Picture);
        Assert.Contains("cannot be lined up", compared.Refusal!.Value.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(compared.Refusal.Value.Advice);
    }

    [Fact]
    public void The_plant_mirrored_as_from_behind_is_refused()
    {
        using Mat scene = Scene(5, brown: 0);
        using Mat mirrored = new();
        Cv2.Flip(scene, mirrored, FlipMode.Y);
        using PlantView first = View(Scene(5, brown: 0));
        using PlantView second = View(mirrored);
        using ViewComparison compared = ViewComparison.Of(first, second, ("June", "July"));
        Assert.NotNull(compared.Refusal);
    }

    [Fact]
    public void Photos_without_any_detail_are_refused_and_never_throw()
    {
        using Mat flat = new(Frame, MatType.CV_8UC3, Scalar.All(120));
        Assert.NotNull(ViewMatch.Find(flat, flat).Refusal);
    }

    private static Point2f On(Mat affine, Point2d p) => new(
        (float)((affine.Get<double>(0, 0) * p.X) + (affine.Get<double>(0, 1) * p.Y) + affine.Get<double>(0, 2)),
        (float)((affine.Get<double>(1, 0) * p.X) + (affine.Get<double>(1, 1) * p.Y) + affine.Get<double>(1, 2)));

    private static Mat Moved(Mat scene)
    {
        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(450, 350), -3, 0.95);
        Mat moved = new();
        Cv2.WarpAffine(scene, moved, turn, Frame, InterpolationFlags.Linear, BorderTypes.Reflect101);
        scene.Dispose();
        return moved;
    }

    // By the colour way: these scenes look like nothing the network has learned, and lining up is what is tried here.
    private static PlantView View(Mat scene)
    {
        using KindMeasurement measured = CrownMeter.Measure(scene, new CrownOptions { UseNetwork = false }, null, default);
        LeafReading reading = measured.Reading ?? throw new InvalidOperationException(measured.Refusal!.Value.Reason);
        PlantView view = PlantView.Of(scene, measured.Mask!, reading);
        scene.Dispose();
        return view;
    }

    // Tufts over a rough wall; the left half brown as far as asked.
    private static Mat Scene(int seed, double brown)
    {
        Random random = new(seed);
        Mat scene = new(Frame, MatType.CV_8UC3, new Scalar(196, 200, 206));
        for (int i = 0; i < 4000; i++)
        {
            int tone = random.Next(165, 225);
            Cv2.Circle(scene, new Point(random.Next(900), random.Next(700)), random.Next(1, 4), new Scalar(tone - 6, tone, tone + 4), -1);
        }

        for (int i = 0; i < 9000; i++)
        {
            double angle = random.NextDouble() * 2 * Math.PI;
            double out_ = Math.Sqrt(random.NextDouble());
            Point at = new((int)(450 + (220 * out_ * Math.Cos(angle))), (int)(350 + (220 * out_ * Math.Sin(angle))));
            double shade = 0.75 + (0.4 * random.NextDouble());
            double end = random.NextDouble() * Math.PI;
            bool isBrown = at.X < 450 && random.NextDouble() < 2 * brown;
            Scalar colour = isBrown ? new Scalar(45 * shade, 80 * shade, 130 * shade) : new Scalar(45 * shade, 110 * shade, 60 * shade);
            Cv2.Line(scene, at, new Point(at.X + (int)(9 * Math.Cos(end)), at.Y + (int)(9 * Math.Sin(end))), colour, 3, LineTypes.AntiAlias);
        }

        return scene;
    }
}
