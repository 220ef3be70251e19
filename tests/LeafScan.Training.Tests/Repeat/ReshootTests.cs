using LeafScan.Leaves;
using LeafScan.Training.Bench;
using LeafScan.Training.Bench.Repeat;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Repeat;

public class ReshootTests
{
    [Fact]
    public void A_shot_that_changes_nothing_gives_the_same_pixels()
    {
        using Mat photo = Ramp();
        using Mat again = Reshoot.Pixels(photo, new ShotSpec(), default);
        Assert.Equal(0, Cv2.Norm(photo, again, NormTypes.INF));
    }

    // By IEC 61966-2-1: level 118 is 0.1812 of full light, twice that is level 161 (0.3624; 160.99 before rounding).
    [Fact]
    public void One_stop_more_doubles_the_light()
    {
        using Mat photo = new(40, 40, MatType.CV_8UC3, Scalar.All(118));
        using Mat again = Reshoot.Pixels(photo, new ShotSpec { ExposureStops = 1 }, default);
        Assert.InRange(Cv2.Mean(again).Val0, 160, 162);
    }

    [Fact]
    public void Warmer_light_changes_red_and_leaves_green()
    {
        using Mat photo = new(40, 40, MatType.CV_8UC3, Scalar.All(118));
        using Mat again = Reshoot.Pixels(photo, new ShotSpec { Red = 1.09, Blue = 0.92 }, default);
        Scalar mean = Cv2.Mean(again);
        Assert.True(mean.Val0 < 118 && mean.Val1 == 118 && mean.Val2 > 118, mean.ToString());
    }

    // The spread asked for at mid grey, in linear light: 0.18 * 1 share plus the floor of 0.09 gives 0.01 * sqrt(1.09).
    [Fact]
    public void Noise_has_the_strength_asked_for()
    {
        byte mid = 118;
        using Mat photo = new(300, 300, MatType.CV_8UC3, Scalar.All(mid));
        using Mat again = Reshoot.Pixels(photo, new ShotSpec { Seed = 5, Noise = 0.01 }, default);
        Cv2.MeanStdDev(again, out _, out Scalar spread);
        double levelsPerLight = (161 - 118) / 0.1812 * 1.29;
        Assert.InRange(spread.Val1, 0.8 * 0.01 * Math.Sqrt(1.09) * levelsPerLight, 1.2 * 0.01 * Math.Sqrt(1.09) * levelsPerLight);
    }

    [Fact]
    public void Damage_shown_is_what_is_hurt_over_what_can_be_judged()
    {
        using Mat codes = new(1, 7, MatType.CV_8UC1);
        for (int x = 0; x < 7; x++)
        {
            Pixels.Bytes(codes, 0)[x] = (byte)x;
        }

        // Codes 0 to 6 once each: speck, yellowed and browned are hurt, with sound they are what can be judged.
        Assert.Equal(0.75, RepeatRun.Shown(codes), 12);
    }

    // Pinhole camera: at a place x of a plane tilted by t, seen at focal length f, area shrinks as (1 + x sin t / f) to the power of
    // -3. Integrated from -150 to 0 and from -150 to 150 with t = 12 degrees and f = 0.75 * 401, the nearer half takes 0.578.
    [Fact]
    public void From_a_tilted_camera_damage_at_the_nearer_end_takes_more_of_the_leaf()
    {
        using Mat codes = new(401, 401, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(codes, new Rect(50, 150, 301, 101), Scalar.All(1), -1);
        Cv2.Rectangle(codes, new Rect(50, 150, 150, 101), Scalar.All(3), -1);
        using Mat seen = Reshoot.Codes(codes, new ShotSpec { TiltDegrees = 12, TiltTowardsDegrees = 0 }, new Rect(50, 150, 301, 101));
        Assert.InRange(RepeatRun.Shown(seen), 0.57, 0.585);
    }

    // A disc of radius 60 seen from 1.25 times the distance and tilted by 12 degrees: area 60^2 pi / 1.25^2 * cos 12, to
    // first order (perspective adds terms of the second order only).
    [Fact]
    public void A_disc_keeps_the_area_that_geometry_gives_it()
    {
        using Mat photo = new(401, 401, MatType.CV_8UC3, Scalar.All(30));
        Cv2.Circle(photo, 200, 200, 60, Scalar.All(220), -1);
        using Mat again = Reshoot.Pixels(photo, new ShotSpec { Distance = 1.25, TiltDegrees = 12, TiltTowardsDegrees = 30 }, default);
        using Mat grey = new();
        Cv2.CvtColor(again, grey, ColorConversionCodes.BGR2GRAY);
        Cv2.Threshold(grey, grey, 165, 255, ThresholdTypes.Binary);
        double expected = Math.PI * 60 * 60 / (1.25 * 1.25) * Math.Cos(12 * Math.PI / 180);
        Assert.InRange(Cv2.CountNonZero(grey) / expected, 0.97, 1.03);
    }

    [Fact]
    public void The_truth_moves_with_the_photo()
    {
        using Mat photo = new(401, 401, MatType.CV_8UC3, Scalar.All(30));
        using Mat codes = new(401, 401, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Circle(photo, 120, 260, 60, Scalar.All(220), -1);
        Cv2.Circle(codes, 120, 260, 60, Scalar.All(1), -1);
        ShotSpec shot = new() { Distance = 0.8, TiltDegrees = 14, TiltTowardsDegrees = 250 };
        using Mat again = Reshoot.Pixels(photo, shot, default);
        using Mat seen = Reshoot.Codes(codes, shot, default);
        using Mat grey = new();
        Cv2.CvtColor(again, grey, ColorConversionCodes.BGR2GRAY);
        Cv2.Threshold(grey, grey, 165, 1, ThresholdTypes.Binary);
        Assert.True(Cv2.Norm(grey, seen, NormTypes.L1) < 0.02 * Cv2.CountNonZero(seen), "Photo and truth must lie on each other.");
    }

    [Fact]
    public void The_same_seed_chooses_the_same_shots_within_their_ranges()
    {
        Random random = Chance.FromSeed(3);
        ShotSpec[] first = [.. Enumerable.Range(0, 200).Select(_ => ShotSpec.Choose(random))];
        Assert.Equal(first[0], ShotSpec.Choose(Chance.FromSeed(3)));
        Assert.All(first, s =>
        {
            Assert.InRange(s.TiltDegrees, 0, 15);
            Assert.InRange(s.Distance, 0.7, 1.3);
            Assert.InRange(s.JpegQuality, 75, 95);
        });
        Assert.True(first.Max(s => s.TiltDegrees) > 13 && first.Min(s => s.Distance) < 0.75 && first.Max(s => s.Distance) > 1.2, "The ranges must be used.");
    }

    [Fact]
    public void Shots_that_change_almost_nothing_read_almost_the_same()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("leafscan-test");
        try
        {
            using RenderedScene scene = SceneRenderer.Render(Some.FlatLeaf(60, 1.2));
            SceneWriter.Write(scene, folder.FullName);
            TruthCase one = TruthFolder.List(folder.FullName).Single();
            MeasureOptions colour = new() { Tissue = new() { Learned = false } };
            ShotSpec same = new() { JpegQuality = 100 };
            LeafRepeat leaf = RepeatRun.Leaf(one, [same, same], colour, folder.FullName, CancellationToken.None);
            Assert.Equal(0, leaf.DamageSd);
            Assert.Equal(0, leaf.Refused);
            Assert.InRange(leaf.DamageMean - leaf.Itself!.Damage, -0.002, 0.002);
            Assert.All(leaf.Shots, s => Assert.InRange(s.OutlineIou, 0.9, 1));
        }
        finally
        {
            folder.Delete(true);
        }
    }

    private static Mat Ramp()
    {
        Mat photo = new(16, 256, MatType.CV_8UC3);
        for (int y = 0; y < 16; y++)
        {
            Span<byte> row = Pixels.Bytes(photo, y);
            for (int x = 0; x < 256; x++)
            {
                (row[3 * x], row[(3 * x) + 1], row[(3 * x) + 2]) = ((byte)x, (byte)(255 - x), (byte)(x / 2));
            }
        }

        return photo;
    }
}
