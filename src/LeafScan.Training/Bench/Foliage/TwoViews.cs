using LeafScan.Leaves;
using LeafScan.Leaves.Views;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Foliage;

/// <summary>A rendered plant twice, the second time from a slightly other place: what lining up says of it, beside the truth.</summary>
/// <param name="Changed">Its damage was another one the second time.</param>
/// <param name="Comparison">What lining up gave; null when one photo was refused.</param>
/// <param name="Truth">True change of what is discoloured and missing in each sector.</param>
internal sealed record TwoViews(bool Changed, ViewComparison? Comparison, IReadOnlyList<SectorChange> Truth) : IDisposable
{
    /// <summary>Renders and compares.</summary>
    /// <param name="seed">Seed of the plant.</param>
    /// <param name="level">How hard the photos are.</param>
    /// <param name="changes">Whether its damage changes.</param>
    /// <param name="longSidePx">Long side of the photos.</param>
    /// <param name="folder">Folder for the photos.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static TwoViews Make(int seed, Difficulty level, bool changes, int longSidePx, string folder, CancellationToken cancel)
    {
        PlantSpec drawn = PlantChooser.Choose(seed, level, longSidePx) with { FallShare = 0, Flush = 0 };
        Random random = new(seed ^ 0x71e35);
        PlantDamage before = new() { Seed = drawn.Damage.Seed, YellowShare = random.Between(0, 0.15), BrownShare = random.Between(0, 0.1), LowStrength = drawn.Damage.LowStrength };
        PlantDamage after = before with
        {
            YellowShare = before.YellowShare + random.Between(0, 0.2),
            BrownShare = before.BrownShare + random.Between(0, 0.2),
            LostShare = random.Between(0, 0.35),
            Side = random.Pick([PlantSide.None, PlantSide.Left, PlantSide.Right]),
            SideStrength = random.Between(0.3, 1),
        };
        using RenderedPlant first = PlantRenderer.Render(drawn with { Name = drawn.Name + "-first", Damage = before });
        using RenderedPlant second = PlantRenderer.Render(drawn with
        {
            Name = drawn.Name + "-second",
            Damage = changes ? after : before,
            Camera = drawn.Camera with { Seed = random.Next(), Exposure = drawn.Camera.Exposure * random.Between(0.9, 1.1), Red = drawn.Camera.Red * random.Between(0.96, 1.04), Blue = drawn.Camera.Blue * random.Between(0.96, 1.04) },
        });
        Directory.CreateDirectory(folder);
        string earlier = Path.Combine(folder, first.Spec.Name + ".jpg");
        string later = Path.Combine(folder, second.Spec.Name + ".jpg");
        File.WriteAllBytes(earlier, first.Jpeg.Span);
        Moved(second.Jpeg, later, random);
        using PlantView? one = View(earlier, cancel);
        using PlantView? other = View(later, cancel);
        return new TwoViews(
            changes,
            one is null || other is null ? null : ViewComparison.Of(one, other, ("earlier", "later")),
            [.. first.Truth.Sectors.Join(
                second.Truth.Sectors, a => (a.Side, a.Height), b => (b.Side, b.Height), (a, b) => new SectorChange(a.Side, a.Height, b.Discoloured - a.Discoloured, b.Thinned - a.Thinned, null))]);
    }

    /// <summary>A measured photo as it is compared; null when it was refused.</summary>
    public static PlantView? View(string path, CancellationToken cancel)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits(), cancel);
        using LeafMeasurement measured = LeafMeter.Measure(outcome.Photo!, new MeasureOptions { Kind = "plant" }, cancel);
        return PlantView.Of(outcome.Photo!, measured);
    }

    /// <inheritdoc />
    public void Dispose() => Comparison?.Dispose();

    // A step nearer or farther, a few degrees of turn, a little aside, a little tilt.
    private static void Moved(ReadOnlyMemory<byte> jpeg, string path, Random random)
    {
        using Mat picture = Cv2.ImDecode(jpeg.Span.ToArray(), ImreadModes.Color);
        (float w, float h) = (picture.Cols, picture.Rows);
        using Mat turn = Cv2.GetRotationMatrix2D(new Point2f(w / 2, h / 2), random.Between(-4, 4), random.Between(0.88, 1.1));
        turn.Set(0, 2, turn.Get<double>(0, 2) + (w * random.Between(-0.04, 0.04)));
        turn.Set(1, 2, turn.Get<double>(1, 2) + (h * random.Between(-0.03, 0.03)));
        using Mat map = new(3, 3, MatType.CV_64FC1, Scalar.All(1));
        for (int i = 0; i < 6; i++)
        {
            map.Set(i / 3, i % 3, turn.Get<double>(i / 3, i % 3));
        }

        map.Set(2, 0, random.Between(-2e-5, 2e-5));
        map.Set(2, 1, random.Between(-2e-5, 2e-5));
        using Mat moved = new();
        Cv2.WarpPerspective(picture, moved, map, picture.Size(), InterpolationFlags.Cubic, BorderTypes.Reflect101);
        PictureWriter.WriteJpeg(moved, path);
    }
}
