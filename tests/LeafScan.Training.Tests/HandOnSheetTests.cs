using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Hands;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

// Skin tones from memory, none from a table; the scenes' seeds served for nothing else.
public class HandOnSheetTests
{
    public static TheoryData<HandHold, double, double, double> Hands => new()
    {
        { HandHold.Behind, 30, 9, 12 },
        { HandHold.Behind, 48, 11, 18 },
        { HandHold.Behind, 68, 12, 16 },
        { HandHold.Pinch, 30, 10, 13 },
        { HandHold.Pinch, 50, 12, 19 },
        { HandHold.Pinch, 70, 11, 15 },
    };

    [Theory]
    [MemberData(nameof(Hands))]
    public void A_hand_that_holds_a_leaf_before_a_sheet_is_no_leaf(HandHold hold, double l, double a, double b)
    {
        SceneSpec spec = OnSheet(61_000) with { Hand = new HandSpec { Seed = 5, Hold = hold, Skin = new LabColour(l, a, b) } };
        using RenderedScene scene = SceneRenderer.Render(spec);
        using Mat photo = Cv2.ImDecode(scene.Jpeg.Span, ImreadModes.Color);
        Assert.InRange(OutlineOverlap.Of(photo, scene.Mask, ModelFiles.Outline), 0.95, 1);
    }

    [Fact]
    public void A_brown_leaf_that_runs_out_of_the_frame_is_not_taken_for_a_hand()
    {
        using Mat photo = new(480, 640, MatType.CV_8UC3, new Scalar(235, 238, 240));
        Cv2.Ellipse(photo, new Point(330, 0), new Size(120, 260), 0, 0, 360, new Scalar(50, 110, 70), -1);
        Cv2.Ellipse(photo, new Point(330, 0), new Size(60, 120), 0, 0, 360, new Scalar(55, 85, 130), -1);
        using ColourPlanes planes = ColourPlanes.Of(photo);
        using Mat mask = new();
        using Mat grey = new();
        Cv2.CvtColor(photo, grey, ColorConversionCodes.BGR2GRAY);
        Cv2.Compare(grey, new Scalar(200), mask, CmpTypes.LT);
        int before = Cv2.CountNonZero(mask);
        HandCutter.CutOff(mask, planes);
        Assert.Equal(before, Cv2.CountNonZero(mask));
    }

    [Fact]
    public void Ground_is_rougher_than_any_sheet()
    {
        double Roughness(SceneSpec spec)
        {
            using RenderedScene scene = SceneRenderer.Render(spec);
            using Mat photo = Cv2.ImDecode(scene.Jpeg.Span, ImreadModes.Color);
            using ColourPlanes planes = ColourPlanes.Of(photo);
            return SheetRoughness.Of(planes);
        }

        SceneSpec sheet = OnSheet(61_100);
        Assert.InRange(Roughness(sheet), 0, SheetRoughness.MayBeGround);
        Assert.True(Roughness(sheet with { Background = sheet.Background with { Kind = BackgroundKind.Gravel } }) > SheetRoughness.MayBeGround);
    }

    private static SceneSpec OnSheet(int first) =>
        Enumerable.Range(first, 50).Select(seed => SceneChooser.Choose(seed, Difficulty.Easy, 640)).First(s => s.Background.Kind == BackgroundKind.Sheet && s.Leaves.Count == 1);
}
