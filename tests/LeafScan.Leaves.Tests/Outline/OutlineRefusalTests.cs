using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

public class OutlineRefusalTests
{
    public static TheoryData<string, int, int, int, double, double> Scenes() => new()
    {
        { "white paper", 255, 255, 255, 0, 0 },
        { "black frame", 0, 0, 0, 0, 0 },
        { "grey paper with grain", 150, 150, 150, 4, 0 },
        { "grey noise", 128, 128, 128, 80, 0 },
        { "coarse grey noise", 150, 150, 150, 12, 6 },
        { "soil", 60, 80, 130, 25, 3 },
        { "sky", 235, 200, 140, 3, 0 },
        { "green wall", 110, 170, 120, 6, 2 },
    };

    [Theory]
    [MemberData(nameof(Scenes))]
    public void A_scene_without_a_leaf_gives_a_reason_and_advice(string scene, int b, int g, int r, double noise, double grainPx)
    {
        using Mat photo = new(600, 800, MatType.CV_8UC3, new Scalar(b, g, r));
        using Mat grain = new(photo.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG(3);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(noise * Math.Max(1, 3.5 * grainPx)));
        if (grainPx > 0)
        {
            Cv2.GaussianBlur(grain, grain, default, grainPx);
        }

        Cv2.Add(photo, grain, photo, null, (int)MatType.CV_8U);
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        Assert.True(found.Leaves.Count == 0, $"A leaf was found in {scene}.");
        Assert.EndsWith(".", found.WhyNone, StringComparison.Ordinal);
        Assert.EndsWith(".", found.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void A_shadow_on_paper_is_no_leaf()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 300, 400, 200, 20, DrawnSheet.White).Shadow(0, 0, 0, 1);
        using Mat dark = new();
        sheet.Truth.ConvertTo(dark, MatType.CV_8UC1, 0.6);
        Cv2.GaussianBlur(dark, dark, default, 6);
        using Mat three = new();
        Cv2.CvtColor(dark, three, ColorConversionCodes.GRAY2BGR);
        Cv2.Subtract(sheet.Pixels, three, sheet.Pixels);
        sheet.Photographed();
        using OutlineResult found = OutlineFinder.Find(sheet.Pixels, new OutlineOptions(), CancellationToken.None);
        Assert.Empty(found.Leaves);
        Assert.NotNull(found.WhyNone);
    }

    [Fact]
    public void A_photo_of_a_few_pixels_is_refused()
    {
        using Mat photo = new(12, 12, MatType.CV_8UC3, new Scalar(60, 130, 70));
        using OutlineResult found = OutlineFinder.Find(photo, new OutlineOptions(), CancellationToken.None);
        Assert.Empty(found.Leaves);
        Assert.Contains("too small", found.WhyNone, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stopped_search_throws()
    {
        using DrawnSheet sheet = new DrawnSheet().Leaf(450, 350, 600, 260, 25);
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => OutlineFinder.Find(sheet.Pixels, new OutlineOptions(), stop.Token));
    }
}
