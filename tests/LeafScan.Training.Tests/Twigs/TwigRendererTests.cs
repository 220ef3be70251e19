using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Twigs;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Twigs;

public class TwigRendererTests
{
    [Theory]
    [InlineData(1, Difficulty.Easy)]
    [InlineData(2, Difficulty.Medium)]
    [InlineData(8, Difficulty.Hard)]
    public void The_same_seed_gives_the_same_bytes(int seed, Difficulty level)
    {
        using RenderedTwig first = TwigRenderer.Render(TwigChooser.Choose(seed, level, 480));
        using RenderedTwig second = TwigRenderer.Render(TwigChooser.Choose(seed, level, 480));
        Assert.True(first.Jpeg.Span.SequenceEqual(second.Jpeg.Span));
        Assert.Equal(TwigWriter.Json(first).ToJsonString(), TwigWriter.Json(second).ToJsonString());
        using Mat difference = new();
        Cv2.Absdiff(first.Mask, second.Mask, difference);
        Assert.Equal(0, Cv2.CountNonZero(difference));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(20)]
    public void Shares_in_the_truth_are_those_counted_in_the_mask(int seed)
    {
        using RenderedTwig twig = TwigRenderer.Render(TwigChooser.Choose(seed, Difficulty.Medium, 640));
        double area = Cv2.CountNonZero(twig.Mask);
        Assert.Equal(twig.Truth.Foliage.LeafAreaPx, area);
        Assert.Equal(twig.Truth.Foliage.Shares.Stippled, Count(twig.Mask, MaskCode.Speck) / area, 9);
        Assert.Equal(twig.Truth.Foliage.Shares.Yellowed, Count(twig.Mask, MaskCode.Yellowed) / area, 9);
        Assert.Equal(twig.Truth.Foliage.Shares.Browned, Count(twig.Mask, MaskCode.Browned) / area, 9);
        double known = new[] { MaskCode.Sound, MaskCode.Speck, MaskCode.Yellowed, MaskCode.Browned }.Sum(code => Count(twig.Mask, code));
        Assert.Equal(area, known);
        Assert.Equal(twig.Truth.Foliage.SpeckCount, twig.Truth.Foliage.Specks.Count);
    }

    [Fact]
    public void A_sound_twig_has_no_damage_and_nothing_fallen()
    {
        using RenderedTwig twig = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5 }));
        Assert.Equal(twig.Truth.Foliage.LeafAreaPx, Count(twig.Mask, MaskCode.Sound));
        Assert.Equal(0, twig.Truth.Foliage.SpeckCount);
        Assert.Equal(0, twig.Truth.Fallen);
    }

    [Fact]
    public void The_whole_twig_lies_in_the_frame()
    {
        foreach (int seed in Enumerable.Range(40, 12))
        {
            using RenderedTwig twig = TwigRenderer.Render(TwigChooser.Choose(seed, Difficulty.Easy, 480));
            using Mat inner = new(twig.Mask, new Rect(1, 1, twig.Mask.Cols - 2, twig.Mask.Rows - 2));
            Assert.Equal(Cv2.CountNonZero(twig.Mask), Cv2.CountNonZero(inner));
            Assert.True(twig.Truth.Foliage.LeafAreaPx > 5000);
        }
    }

    [Fact]
    public void The_same_twig_with_more_damage_keeps_its_shape_and_its_old_damage()
    {
        using RenderedTwig before = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5, BrownShare = 0.1, SpecksPerMm = 0.3 }));
        using RenderedTwig after = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5, BrownShare = 0.3, SpecksPerMm = 0.9 }));

        // Marks that touch a leaf's margin are drawn up to half a fine pixel beyond it.
        Assert.InRange((double)after.Truth.Foliage.LeafAreaPx / before.Truth.Foliage.LeafAreaPx, 0.997, 1.003);
        Assert.True(after.Truth.Foliage.SpeckCount > 1.5 * before.Truth.Foliage.SpeckCount);
        using Mat brownBefore = new();
        using Mat brownAfter = new();
        Cv2.Compare(before.Mask, Scalar.All((int)MaskCode.Browned), brownBefore, CmpTypes.EQ);
        Cv2.Compare(after.Mask, Scalar.All((int)MaskCode.Browned), brownAfter, CmpTypes.EQ);
        using Mat lost = new();
        Cv2.Subtract(brownBefore, brownAfter, lost);
        Assert.True(Cv2.CountNonZero(lost) <= 0.01 * Cv2.CountNonZero(brownBefore), $"{Cv2.CountNonZero(lost)} of {Cv2.CountNonZero(brownBefore)}");
        Assert.True(Cv2.CountNonZero(brownAfter) > 1.5 * Cv2.CountNonZero(brownBefore));
    }

    [Fact]
    public void Fallen_leaves_leave_less_foliage()
    {
        using RenderedTwig full = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5 }));
        using RenderedTwig thin = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5, LostShare = 0.3 }));
        Assert.InRange(thin.Truth.Fallen, 0.22, 0.38);
        Assert.True(thin.Truth.Foliage.LeafAreaPx < 0.95 * full.Truth.Foliage.LeafAreaPx);
    }

    [Fact]
    public void Each_reported_speck_is_marked_at_its_centre()
    {
        using RenderedTwig twig = TwigRenderer.Render(Plain(new TwigDamage { Seed = 5, SpecksPerMm = 0.8, SpeckMm = 0.4 }) with { PixelsPerMm = 22 });
        Assert.True(twig.Truth.Foliage.SpeckCount > 300);
        int marked = twig.Truth.Foliage.Specks.Count(s => twig.Mask.At<byte>((int)Math.Round(s.Y), (int)Math.Round(s.X)) == (byte)MaskCode.Speck);
        Assert.True(marked >= 0.97 * twig.Truth.Foliage.SpeckCount, $"{marked} of {twig.Truth.Foliage.SpeckCount}");
    }

    [Fact]
    public void A_speck_is_drawn_with_the_area_of_its_diameter()
    {
        TwigLeaf leaf = new() { At = default, Angle = 0.4, LengthMm = 8, WidthMm = 1, Depth = 1, Age = 0, FromEndMm = 5, Kind = FoliageKind.Needle, Tone = 0 };
        LeafOutline outline = new(leaf, new Point2d(100, 100), 0.4, 40);
        foreach (double stretch in (double[])[1, 1.5, 1.9])
        {
            Point2d[] corners = outline.Disc(new LeafSpeck(0.5, 0.1, 0.3, stretch, 1));
            double twice = 0;
            for (int i = 0; i < corners.Length; i++)
            {
                Point2d next = corners[(i + 1) % corners.Length];
                twice += (corners[i].X * next.Y) - (next.X * corners[i].Y);
            }

            double expected = Math.PI / 4 * Math.Pow(0.3 * 40, 2);
            Assert.InRange(Math.Abs(twice) / 2 / expected, 0.995, 1.005);
        }
    }

    [Fact]
    public void An_unknown_conifer_is_refused_with_the_known_names()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => Conifers.Named("oak"));
        Assert.Contains("dwarfAlbertaSpruce", error.Message, StringComparison.Ordinal);
    }

    private static TwigSpec Plain(TwigDamage damage) => TwigChooser.Choose(1, Difficulty.Easy, 640) with { Damage = damage };

    private static int Count(Mat mask, MaskCode code)
    {
        using Mat same = new();
        Cv2.Compare(mask, Scalar.All((int)code), same, CmpTypes.EQ);
        return Cv2.CountNonZero(same);
    }
}
