using System.Security.Cryptography;
using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

public class SceneRendererTests
{
    [Theory]
    [InlineData(Difficulty.Easy)]
    [InlineData(Difficulty.Medium)]
    [InlineData(Difficulty.Hard)]
    public void The_same_seed_gives_the_same_bytes(Difficulty level)
    {
        using RenderedScene first = SceneRenderer.Render(SceneChooser.Choose(7, level, 500));
        using RenderedScene second = SceneRenderer.Render(SceneChooser.Choose(7, level, 500));
        Assert.Equal(SHA256.HashData(first.Jpeg.Span), SHA256.HashData(second.Jpeg.Span));
        Assert.Equal(SceneWriter.Json(first).ToJsonString(), SceneWriter.Json(second).ToJsonString());
        Assert.Equal(0, Cv2.Norm(first.Mask, second.Mask, NormTypes.L1));
    }

    [Fact]
    public void Another_seed_gives_another_picture()
    {
        using RenderedScene first = SceneRenderer.Render(SceneChooser.Choose(7, Difficulty.Easy, 500));
        using RenderedScene second = SceneRenderer.Render(SceneChooser.Choose(8, Difficulty.Easy, 500));
        Assert.NotEqual(SHA256.HashData(first.Jpeg.Span), SHA256.HashData(second.Jpeg.Span));
    }

    [Fact]
    public void The_shares_in_the_truth_are_those_of_the_written_mask()
    {
        foreach (int seed in (int[])[3, 4, 5, 6])
        {
            using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed, Difficulty.Medium, 600));
            int[] counts = Count(scene.Mask);
            double leaf = counts.Skip(1).Sum();
            TrueShares shares = scene.Truth.Total.Shares;
            Assert.Equal(leaf, scene.Truth.Total.LeafAreaPx);
            Assert.Equal(counts[(int)MaskCode.Speck] / leaf, shares.Stippled, 9);
            Assert.Equal(counts[(int)MaskCode.Yellowed] / leaf, shares.Yellowed, 9);
            Assert.Equal(counts[(int)MaskCode.Browned] / leaf, shares.Browned, 9);
            Assert.Equal(counts[(int)MaskCode.Chewed] / leaf, shares.Chewed, 9);
            Assert.Equal(1, shares.Stippled + shares.Yellowed + shares.Browned + shares.Chewed + (counts[(int)MaskCode.Sound] / leaf), 9);
        }
    }

    [Fact]
    public void The_leaves_of_a_scene_add_up_to_its_total()
    {
        SceneSpec many = Enumerable.Range(1, 200).Select(s => SceneChooser.Choose(s, Difficulty.Medium, 600)).First(s => s.Leaves.Count == 3);
        using RenderedScene scene = SceneRenderer.Render(many);
        Assert.Equal(3, scene.Truth.Leaves.Count);
        Assert.Equal(scene.Truth.Total.LeafAreaPx, scene.Truth.Leaves.Sum(l => l.LeafAreaPx));
        Assert.Equal(scene.Truth.Total.SpeckCount, scene.Truth.Leaves.Sum(l => l.SpeckCount));
        Assert.Equal(
            scene.Truth.Total.Shares.Chewed * scene.Truth.Total.LeafAreaPx,
            scene.Truth.Leaves.Sum(l => l.Shares.Chewed * l.LeafAreaPx),
            6);
    }

    [Fact]
    public void Single_specks_cover_as_many_mask_pixels_as_their_half_height_discs_do()
    {
        // Outside figure: area of a disc, pi d^2 / 4; pixels cut by the contour count when half covered.
        SceneSpec scene = Some.FlatLeaf(specks: 12, speckMm: 0.9);
        using RenderedScene rendered = SceneRenderer.Render(scene);
        int[] counts = Count(rendered.Mask);
        List<LeafScan.Training.Rendering.Damage.Speck> specks = [.. rendered.Truth.Total.Specks];
        double nearest = specks.SelectMany((a, i) => specks.Skip(i + 1).Select(b => Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2)) - ((a.DiameterPx + b.DiameterPx) / 2))).Min();
        double discs = specks.Sum(s => Math.PI / 4 * s.DiameterPx * s.DiameterPx);
        Assert.True(specks.Count >= 10);

        // Where discs touch the union is smaller; allow for it.
        double low = nearest > 1 ? 0.95 : 0.75;
        Assert.InRange(counts[(int)MaskCode.Speck] / discs, low, 1.05);
    }

    [Fact]
    public void More_specks_keep_those_that_were_there()
    {
        using RenderedScene few = SceneRenderer.Render(Some.FlatLeaf(specks: 30));
        using RenderedScene many = SceneRenderer.Render(Some.FlatLeaf(specks: 90));
        Assert.True(many.Truth.Total.SpeckCount > few.Truth.Total.SpeckCount);
        Assert.All(few.Truth.Total.Specks, s => Assert.Contains(s, many.Truth.Total.Specks));
    }

    [Fact]
    public void Asked_shares_of_yellow_and_of_bites_are_met()
    {
        SceneSpec scene = Some.FlatLeaf();
        scene = scene with { Leaves = [scene.Leaves[0] with { Damage = scene.Leaves[0].Damage with { YellowShare = 0.25, BittenShare = 0.1 } }] };
        using RenderedScene rendered = SceneRenderer.Render(scene);
        Assert.InRange(rendered.Truth.Total.Shares.Chewed, 0.06, 0.18);
        Assert.InRange(rendered.Truth.Total.Shares.Yellowed / (1 - rendered.Truth.Total.Shares.Chewed), 0.15, 0.35);
    }

    [Fact]
    public void Specks_are_paler_than_the_tissue_around_them()
    {
        using RenderedScene rendered = SceneRenderer.Render(Some.FlatLeaf(specks: 150, speckMm: 0.7));
        using Mat photo = Cv2.ImDecode(rendered.Jpeg.ToArray(), ImreadModes.Color);
        using Mat specks = new();
        using Mat sound = new();
        Cv2.InRange(rendered.Mask, Scalar.All(2), Scalar.All(2), specks);
        Cv2.InRange(rendered.Mask, Scalar.All(1), Scalar.All(1), sound);
        Scalar pale = Cv2.Mean(photo, specks);
        Scalar green = Cv2.Mean(photo, sound);
        Assert.True(pale.Val1 > green.Val1 + 12, $"specks {pale}, sound {green}");
        Assert.True(pale.Val2 - pale.Val1 > green.Val2 - green.Val1, "a speck is less green than sound tissue");
    }

    [Fact]
    public void The_kept_aside_seeds_are_those_of_the_docs()
    {
        Assert.True(KeptAside.Holds(900_000));
        Assert.True(KeptAside.Holds(999_999));
        Assert.False(KeptAside.Holds(899_999));
    }

    private static int[] Count(Mat mask)
    {
        var counts = new int[8];
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            foreach (byte code in Pixels.Bytes(mask, y))
            {
                counts[code]++;
            }
        }

        return counts;
    }
}
