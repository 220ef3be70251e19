using System.Security.Cryptography;
using LeafScan.Leaves.Reading;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Hands;
using LeafScan.Training.Rendering.LookAlikes;
using LeafScan.Training.Rendering.Shade;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

/// <summary>What is drawn here is checked against the truth's own codes: a look-alike shows in the photo and not in the shares.</summary>
public class LookAlikeTests
{
    private static readonly LabColour Skin = new(64, 14, 20);

    [Fact]
    public void Water_drops_show_in_the_photo_and_leave_the_truth_as_it_was()
        => ShowsButIsNothing(Marked(new LookAlikeSpec { Seed = 5, Drops = 25, DropMm = 1.2 }, specks: 60), Some.FlatLeaf(specks: 60), least: 400);

    [Fact]
    public void The_plants_own_pale_marks_show_and_are_sound()
    {
        foreach (LookAlikeSpec own in (LookAlikeSpec[])[new() { Seed = 5, PaleDots = 60 }, new() { Seed = 5, HairBaseGapMm = 1.2 }, new() { Seed = 5, Marbling = 0.6 }])
        {
            ShowsButIsNothing(Marked(own, specks: 60), Some.FlatLeaf(specks: 60), least: 150);
        }
    }

    [Fact]
    public void Shadow_bands_darken_leaf_and_ground_and_leave_the_truth_as_it_was()
    {
        SceneSpec plain = Some.FlatLeaf(specks: 60);
        SceneSpec shaded = plain with { Shadows = new ShadowBandSpec { Seed = 3, Count = 3, WidthMm = 10, AngleDegrees = 80, Darkness = 0.5 } };
        ShowsButIsNothing(shaded, plain, least: 20_000);
        using RenderedScene dark = SceneRenderer.Render(shaded);
        using RenderedScene light = SceneRenderer.Render(plain);
        foreach (MaskCode code in (MaskCode[])[MaskCode.Sound, MaskCode.Background])
        {
            Assert.True(Mean(dark, code).Val1 < Mean(light, code).Val1 - 3, $"{code}: {Mean(dark, code).Val1:F1} in shadow, {Mean(light, code).Val1:F1} without");
        }
    }

    [Fact]
    public void The_dead_part_of_a_mine_is_browned_and_the_pale_part_is_sound()
    {
        using RenderedScene plain = SceneRenderer.Render(Some.FlatLeaf());
        using RenderedScene pale = SceneRenderer.Render(Marked(new LookAlikeSpec { Seed = 6, Mines = 2, MineBrown = 0 }));
        using RenderedScene half = SceneRenderer.Render(Marked(new LookAlikeSpec { Seed = 6, Mines = 2, MineBrown = 0.6 }));
        Assert.Equal(plain.Truth.Total.Shares, pale.Truth.Total.Shares);
        Assert.InRange(half.Truth.Total.Shares.Browned, 0.004, 0.1);
        Assert.Equal(0, half.Truth.Total.SpeckCount);
        Assert.True(Changed(plain, pale) > 1500, "a pale mine is seen");
    }

    [Fact]
    public void Mites_leave_no_specks_in_a_mine()
    {
        using RenderedScene without = SceneRenderer.Render(Some.FlatLeaf(specks: 400));
        using RenderedScene with = SceneRenderer.Render(Marked(new LookAlikeSpec { Seed = 6, Mines = 3, MineMm = 2.5, MineBrown = 0 }, specks: 400));
        Assert.True(with.Truth.Total.SpeckCount < without.Truth.Total.SpeckCount);
        Assert.True(with.Truth.Total.Shares.Stippled < without.Truth.Total.Shares.Stippled);
        Assert.Equal(0, with.Truth.Total.Shares.Browned);
    }

    [Fact]
    public void Droppings_are_dark_and_never_specks()
    {
        using RenderedScene without = SceneRenderer.Render(Some.FlatLeaf());
        using RenderedScene with = SceneRenderer.Render(Marked(new LookAlikeSpec { Seed = 7, Droppings = 150 }));
        Assert.Equal(without.Truth.Total.Shares, with.Truth.Total.Shares);
        Assert.Equal(0, with.Truth.Total.SpeckCount);
        int dark = DarkerThan(without, with, 20);
        Assert.True(dark > 150, $"only {dark} pixels are darker");
    }

    [Fact]
    public void A_dropping_on_a_speck_hides_it()
    {
        using RenderedScene without = SceneRenderer.Render(Lace(droppings: 0));
        using RenderedScene with = SceneRenderer.Render(Lace(droppings: 200));
        Assert.True(with.Truth.Total.SpeckCount < without.Truth.Total.SpeckCount);
        Assert.True(with.Truth.Total.Shares.Stippled < without.Truth.Total.Shares.Stippled);
        Assert.Equal(without.Truth.Total.LeafAreaPx, with.Truth.Total.LeafAreaPx);
        Assert.True(with.Truth.Total.Shares.Stippled > 0.8 * without.Truth.Total.Shares.Stippled, "most of the stipple is still there");
    }

    [Fact]
    public void Stipple_of_lace_bugs_is_stipple_and_the_description_names_them()
    {
        using RenderedScene scene = SceneRenderer.Render(Lace(droppings: 20));
        Assert.True(scene.Truth.Total.SpeckCount > 100);
        string written = SceneWriter.Json(scene).ToJsonString();
        Assert.Contains("\"speckCause\":\"laceBug\"", written, StringComparison.Ordinal);
        using RenderedScene mites = SceneRenderer.Render(Some.FlatLeaf(specks: 20));
        Assert.DoesNotContain("laceBug", SceneWriter.Json(mites).ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Silvery_specks_have_less_colour_and_the_same_truth()
    {
        SceneSpec plain = Some.FlatLeaf(specks: 200, speckMm: 0.8);
        SceneSpec silvery = plain with { Leaves = [plain.Leaves[0] with { Damage = plain.Leaves[0].Damage with { SpeckSilver = 1 } }] };
        using RenderedScene yellowish = SceneRenderer.Render(plain);
        using RenderedScene silver = SceneRenderer.Render(silvery);
        Assert.Equal(yellowish.Truth.Total.Shares, silver.Truth.Total.Shares);
        Scalar before = Mean(yellowish, MaskCode.Speck);
        Scalar after = Mean(silver, MaskCode.Speck);
        Assert.True(after.Val1 - after.Val0 < before.Val1 - before.Val0 - 8, $"yellowish {before}, silvery {after}");
    }

    [Fact]
    public void A_hand_behind_the_leaf_is_background()
    {
        SceneSpec plain = Some.FlatLeaf(specks: 60);
        SceneSpec held = plain with { Hand = new HandSpec { Seed = 8, Skin = Skin, Hold = HandHold.Behind } };
        ShowsButIsNothing(held, plain, least: 20_000);
    }

    [Fact]
    public void What_the_thumb_covers_is_background_and_only_that()
    {
        SceneSpec plain = Some.FlatLeaf(specks: 300);
        using RenderedScene free = SceneRenderer.Render(plain);
        using RenderedScene held = SceneRenderer.Render(plain with { Hand = new HandSpec { Seed = 8, Skin = Skin, Over = 0.15 } });
        Assert.InRange((double)held.Truth.Total.LeafAreaPx / free.Truth.Total.LeafAreaPx, 0.8, 0.995);
        using Mat differs = new();
        Cv2.Compare(free.Mask, held.Mask, differs, CmpTypes.NE);
        Assert.Equal(free.Truth.Total.LeafAreaPx - held.Truth.Total.LeafAreaPx, Cv2.CountNonZero(differs));
        using Mat left = new();
        held.Mask.CopyTo(left, differs);
        Assert.Equal(0, Cv2.CountNonZero(left));
        Assert.All(held.Truth.Total.Specks, speck => Assert.Contains(speck, free.Truth.Total.Specks));
    }

    [Fact]
    public void With_everything_on_it_the_same_seed_gives_the_same_bytes()
    {
        LookAlikeSpec all = new() { Seed = 9, Drops = 12, Mines = 1, Droppings = 30, PaleDots = 20, HairBaseGapMm = 1.3, Marbling = 0.4 };
        SceneSpec scene = Marked(all, specks: 90) with
        {
            Hand = new HandSpec { Seed = 8, Skin = Skin },
            Shadows = new ShadowBandSpec { Seed = 3, Count = 2 },
        };
        using RenderedScene first = SceneRenderer.Render(scene);
        using RenderedScene second = SceneRenderer.Render(scene);
        Assert.Equal(SHA256.HashData(first.Jpeg.Span), SHA256.HashData(second.Jpeg.Span));
        Assert.Equal(SceneWriter.Json(first).ToJsonString(), SceneWriter.Json(second).ToJsonString());
        Assert.Equal(0, Cv2.Norm(first.Mask, second.Mask, NormTypes.L1));
    }

    [Fact]
    public void Chosen_scenes_bring_every_look_alike_and_easy_ones_neither_water_nor_hands()
    {
        List<SceneSpec> hard = [.. Enumerable.Range(1, 300).Select(seed => SceneChooser.Choose(seed, Difficulty.Hard, 600))];
        List<LookAlikeSpec> marks = [.. hard.SelectMany(scene => scene.Leaves).Select(leaf => leaf.LookAlikes).OfType<LookAlikeSpec>()];
        Assert.Contains(marks, m => m.Drops > 0);
        Assert.Contains(marks, m => m.Mines > 0);
        Assert.Contains(marks, m => m.Droppings > 0);
        Assert.Contains(marks, m => m.PaleDots > 0);
        Assert.Contains(marks, m => m.HairBaseGapMm > 0);
        Assert.Contains(marks, m => m.Marbling > 0);
        Assert.Contains(hard, scene => scene.Hand?.Hold == HandHold.Pinch);
        Assert.Contains(hard, scene => scene.Hand?.Hold == HandHold.Behind);
        Assert.Contains(hard, scene => scene.Shadows is not null);
        Assert.Contains(hard, scene => scene.Leaves.Any(leaf => leaf.Damage is { SpeckCause: SpeckCause.LaceBug, Specks: > 0 }));
        Assert.Contains(hard, scene => scene.Leaves.Any(leaf => leaf.Damage is { SpeckSilver: > 0, Specks: > 0 }));
        Assert.All(Enumerable.Range(1, 100).Select(seed => SceneChooser.Choose(seed, Difficulty.Easy, 600)), scene =>
        {
            Assert.Null(scene.Hand);
            Assert.Null(scene.Shadows);
            Assert.All(scene.Leaves, leaf => Assert.Equal(0, leaf.LookAlikes?.Drops ?? 0));
        });
    }

    private static SceneSpec Marked(LookAlikeSpec marks, int specks = 0)
    {
        SceneSpec scene = Some.FlatLeaf(specks);
        return scene with { Leaves = [scene.Leaves[0] with { LookAlikes = marks }] };
    }

    private static SceneSpec Lace(int droppings)
    {
        SceneSpec scene = Marked(new LookAlikeSpec { Seed = 7, Droppings = droppings }, specks: 500);
        return scene with { Leaves = [scene.Leaves[0] with { Damage = scene.Leaves[0].Damage with { SpeckCause = SpeckCause.LaceBug } }] };
    }

    private static void ShowsButIsNothing(SceneSpec with, SceneSpec without, int least)
    {
        using RenderedScene marked = SceneRenderer.Render(with);
        using RenderedScene plain = SceneRenderer.Render(without);
        Assert.Equal(0, Cv2.Norm(plain.Mask, marked.Mask, NormTypes.L1));
        Assert.Equal(plain.Truth.Total.Shares, marked.Truth.Total.Shares);
        Assert.Equal(plain.Truth.Total.Specks, marked.Truth.Total.Specks);
        int changed = Changed(plain, marked);
        Assert.True(changed >= least, $"only {changed} pixels changed");
    }

    /// <summary>Pixels whose grey differs by more than 8 of 255.</summary>
    private static int Changed(RenderedScene one, RenderedScene other) => DarkerThan(one, other, 8) + DarkerThan(other, one, 8);

    private static int DarkerThan(RenderedScene bright, RenderedScene dark, int steps)
    {
        using Mat a = Cv2.ImDecode(bright.Jpeg.ToArray(), ImreadModes.Grayscale);
        using Mat b = Cv2.ImDecode(dark.Jpeg.ToArray(), ImreadModes.Grayscale);
        using Mat fall = new();
        Cv2.Subtract(a, b, fall);
        using Mat over = new();
        Cv2.Compare(fall, Scalar.All(steps), over, CmpTypes.GT);
        return Cv2.CountNonZero(over);
    }

    private static Scalar Mean(RenderedScene scene, MaskCode code)
    {
        using Mat photo = Cv2.ImDecode(scene.Jpeg.ToArray(), ImreadModes.Color);
        using Mat there = new();
        Cv2.Compare(scene.Mask, Scalar.All((int)code), there, CmpTypes.EQ);
        return Cv2.Mean(photo, there);
    }
}
