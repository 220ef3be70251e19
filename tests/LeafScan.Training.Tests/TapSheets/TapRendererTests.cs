using System.Text.Json.Nodes;
using LeafScan.Frame;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;
using OpenCvSharp;

namespace LeafScan.Training.Tests.TapSheets;

public class TapRendererTests
{
    [Theory]
    [InlineData(3, Difficulty.Easy)]
    [InlineData(4, Difficulty.Hard)]
    public void The_same_seed_gives_the_same_bytes(int seed, Difficulty level)
    {
        RenderedTap first = TapRenderer.Render(TapChooser.Choose(seed, level, 600));
        RenderedTap second = TapRenderer.Render(TapChooser.Choose(seed, level, 600));
        Assert.True(first.First.Span.SequenceEqual(second.First.Span));
        Assert.True(first.Second.Span.SequenceEqual(second.Second.Span));
        Assert.Equal(TapWriter.Json(first.Spec).ToJsonString(), TapWriter.Json(second.Spec).ToJsonString());
    }

    [Fact]
    public void What_lies_still_is_where_the_alignment_says()
    {
        TapSpec spec = TapChooser.Choose(11, Difficulty.Hard, 800);
        JsonObject truth = TapWriter.Json(spec);
        PlaneMap alignment = new([.. truth["alignment"]!.AsArray().Select(v => v!.GetValue<double>())]);
        int still = 0;
        foreach (JsonNode? thing in truth["things"]!.AsArray())
        {
            if (thing!["movedMm"]!.GetValue<double>() == 0)
            {
                Point2d expected = alignment.Map(thing["a"]![0]!.GetValue<double>(), thing["a"]![1]!.GetValue<double>());
                Assert.Equal(expected.X, thing["b"]![0]!.GetValue<double>(), 0.01);
                Assert.Equal(expected.Y, thing["b"]![1]!.GetValue<double>(), 0.01);
                still++;
            }
        }

        Assert.True(still > 10);
    }

    [Fact]
    public void Things_are_seen_in_both_photos_where_the_truth_says()
    {
        // Centre of darkness, measured by OpenCV's moments in the finished photos, against the written place.
        TapThing[] mites = [.. Enumerable.Range(0, 12).Select(i => new TapThing
        {
            Kind = TapKind.Mite, Seed = i, X = -22 + (15 * (i % 4)), Y = -14 + (14 * (i / 4)), MoveX = 0.3 * i, MoveY = 2 - (0.3 * i),
            AngleDegrees = 30 * i, TurnDegrees = 5 * i, LengthMm = 0.45, WidthRatio = 0.65, Colour = new LabColour(35, 5, 12),
        })];
        TapSpec chosen = TapChooser.Choose(5, Difficulty.Medium, 1000);
        TapSpec spec = chosen with
        {
            Things = mites,
            PixelsPerMm = 14,
            SheetWidthMm = 400,
            SheetHeightMm = 400,
            Light = chosen.Light with { Hardness = 0.1 },
            First = chosen.First with { Shadow = 0 },
            Second = chosen.Second with { Shadow = 0, TurnDegrees = 2, ShiftXPx = 9, LeanX = 0.02 },
        };
        RenderedTap tap = TapRenderer.Render(spec);
        JsonArray things = TapWriter.Json(spec)["things"]!.AsArray();
        Assert.Equal(12, things.Count);
        foreach ((ReadOnlyMemory<byte> photo, string place) in new[] { (tap.First, "a"), (tap.Second, "b") })
        {
            using Mat grey = Cv2.ImDecode(photo.ToArray(), ImreadModes.Grayscale);
            foreach (JsonNode? thing in things)
            {
                double x = thing![place]![0]!.GetValue<double>();
                double y = thing[place]![1]!.GetValue<double>();
                Rect box = new((int)Math.Round(x) - 9, (int)Math.Round(y) - 9, 19, 19);
                using Mat part = new(grey, box);
                using Mat inverse = new();
                using Mat dark = new();
                Cv2.BitwiseNot(part, inverse);
                Cv2.Threshold(inverse, dark, 105, 0, ThresholdTypes.Tozero);
                Moments m = Cv2.Moments(dark);
                Assert.True(m.M00 > 0, "Nothing dark at the written place.");
                Assert.InRange((m.M10 / m.M00) + box.X - x, -0.6, 0.6);
                Assert.InRange((m.M01 / m.M00) + box.Y - y, -0.6, 0.6);
            }
        }
    }

    [Fact]
    public void Crawling_counts_mites_that_moved_and_not_predators_or_resting_ones()
    {
        TapThing mite = new() { Kind = TapKind.Mite, Seed = 1, X = 0, Y = 0, LengthMm = 0.4, WidthRatio = 0.6, Colour = new LabColour(40, 0, 10) };
        TapSpec chosen = TapChooser.Choose(5, Difficulty.Easy, 1000);
        TapSpec spec = chosen with
        {
            PixelsPerMm = 15,
            Things =
            [
                mite with { MoveX = 2 }, mite with { MoveX = 0.1 }, mite, mite with { X = 20, MoveX = 300 },
                mite with { Kind = TapKind.Predator, MoveY = 5 }, mite with { Kind = TapKind.Dust, MoveX = 1 },
            ],
        };
        JsonObject truth = TapWriter.Json(spec);
        Assert.Equal(1, truth["crawling"]!.GetValue<int>());
        Assert.Equal(1, truth["fastMovers"]!.GetValue<int>());
        Assert.Equal(6, truth["things"]!.AsArray().Count);
    }

    [Fact]
    public void Mites_have_the_size_and_the_pixels_that_their_level_promises()
    {
        // Plant mites are 0.15 to 0.5 mm long (PNW, Penn State, NC State AG-189, Clemson).
        List<TapSpec> specs = [.. Enumerable.Range(100, 40).Select(seed => TapChooser.Choose(seed, Difficulty.Medium))];
        TapThing[] mites = [.. specs.SelectMany(s => s.Things).Where(t => t.Kind == TapKind.Mite)];
        Assert.All(mites, mite => Assert.InRange(mite.LengthMm, 0.15, 0.5));
        Assert.All(specs, spec => Assert.InRange(spec.PixelsPerMm * 0.4, 4, 6));
        Assert.Contains(specs, spec => spec.Things.All(t => t.Kind != TapKind.Mite));
        Assert.InRange(mites.Count(m => m.WayMm == 0) / (double)mites.Length, 0.08, 0.3);
    }
}
