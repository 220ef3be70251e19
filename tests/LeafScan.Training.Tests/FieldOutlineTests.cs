using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Backgrounds;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

// Scenes of seeds that the outline network was neither trained on (40000 to 50161, 400000 and up) nor tuned on (7400s, 30400s, 30500s); the renderer is the same.
public class FieldOutlineTests
{
    [Fact]
    public void In_the_field_the_network_finds_leaves_better_than_colour_and_focus_alone()
    {
        Assert.NotNull(ModelFiles.Outline);
        List<double> seen = [];
        List<double> without = [];
        foreach (SceneSpec spec in FieldScenes(first: 31_500, count: 8))
        {
            using RenderedScene scene = SceneRenderer.Render(spec);
            using Mat photo = Cv2.ImDecode(scene.Jpeg.Span, ImreadModes.Color);
            seen.Add(OutlineOverlap.Of(photo, scene.Mask, ModelFiles.Outline));
            without.Add(OutlineOverlap.Of(photo, scene.Mask, null));
        }

        Assert.True(seen.Average() > 0.85, $"with: {string.Join(' ', seen)}");
        Assert.True(seen.Average() > without.Average(), $"with: {string.Join(' ', seen)}; without: {string.Join(' ', without)}");
    }

    [Fact]
    public void A_frame_without_any_leaf_gets_no_outline_from_the_network_either()
    {
        using Mat noise = new(480, 640, MatType.CV_8UC3);
        Cv2.SetTheRNG(5);
        Cv2.Randn(noise, new Scalar(70, 80, 110), new Scalar(25, 25, 25));
        using OutlineResult found = OutlineFinder.Find(noise, new OutlineOptions(), ModelFiles.Outline, CancellationToken.None);
        Assert.Empty(found.Leaves);
        Assert.False(string.IsNullOrWhiteSpace(found.Advice));
    }

    private static IEnumerable<SceneSpec> FieldScenes(int first, int count) =>
        Enumerable.Range(first, 200).Select(seed => SceneChooser.Choose(seed, Difficulty.Hard, 640)).Where(s => s.Background.Kind != BackgroundKind.Sheet).Take(count);
}
