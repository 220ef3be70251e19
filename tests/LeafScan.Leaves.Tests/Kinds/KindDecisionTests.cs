using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Kinds;

public class KindDecisionTests
{
    [Fact]
    public void A_tap_sheet_that_is_sure_is_refused_with_a_way_out()
    {
        KindDecision decision = KindDecision.From(Judged(PhotoKind.Tap, 0.81f), 0.8);
        Assert.Contains("the white sheet of a tap test", decision.Refusal!.Value.Reason, StringComparison.Ordinal);
        Assert.Contains("--kind leaf", decision.Refusal.Value.Advice, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(PhotoKind.Twig)]
    [InlineData(PhotoKind.Plant)]
    public void A_twig_or_plant_that_is_sure_is_measured_as_one(PhotoKind kind)
    {
        KindDecision decision = KindDecision.From(Judged(kind, 0.81f), 0.8);
        Assert.Null(decision.Refusal);
        Assert.Empty(decision.Flags);
        Assert.Equal(kind, decision.Kind);
    }

    [Theory]
    [InlineData(PhotoKind.Twig, 0.79f)]
    [InlineData(PhotoKind.Plant, 0.5f)]
    [InlineData(PhotoKind.Tap, 0.79f)]
    [InlineData(PhotoKind.Tag, 0.99f)]
    [InlineData(PhotoKind.Unusable, 0.99f)]
    public void A_doubtful_kind_is_measured_as_a_leaf_with_a_flag(PhotoKind kind, float chance)
    {
        KindDecision decision = KindDecision.From(Judged(kind, chance), 0.8);
        Assert.Null(decision.Refusal);
        Assert.Equal(PhotoKind.Leaf, decision.Kind);
        Assert.Equal([Flag.KindUnsure.Name], decision.Flags);
        Assert.Contains(Flag.KindUnsure.Name, Flag.All.Keys);
    }

    [Fact]
    public void The_likeliest_kind_being_leaf_is_enough()
    {
        KindDecision decision = KindDecision.From(Judged(PhotoKind.Leaf, 0.4f), 0.8);
        Assert.Null(decision.Refusal);
        Assert.Empty(decision.Flags);
    }

    [Fact]
    public void What_a_person_says_is_believed_whatever_the_model_thinks()
    {
        using Mat sheet = new(200, 300, MatType.CV_8UC3, Scalar.All(230));
        using KindModel model = KindModel.Load(KindModelTests.ModelFile);
        Assert.Equal(KindDecision.GoOn, KindDecision.For(sheet, new MeasureOptions { Kind = "leaf" }, model));
        Assert.Equal(PhotoKind.Twig, KindDecision.For(sheet, new MeasureOptions { Kind = "twig" }, model).Kind);
        Assert.Equal(PhotoKind.Plant, KindDecision.For(sheet, new MeasureOptions { Kind = "plant" }, model).Kind);
    }

    [Fact]
    public void Without_the_model_every_photo_counts_as_a_leaf()
    {
        using DrawnLeaf leaf = new();
        Assert.Equal(KindDecision.GoOn, KindDecision.For(leaf.Pixels, new MeasureOptions(), null));
    }

    [Fact]
    public void Kinds_keep_their_names()
    {
        Assert.Equal(["leaf", "twig", "plant", "tap", "tag", "unusable"], PhotoKinds.All.Select(kind => kind.Name()));
        Assert.All(PhotoKinds.All, kind => Assert.Equal(kind, PhotoKinds.Named(kind.Name())));
        Assert.Null(PhotoKinds.Named("tree"));
    }

    private static KindJudgement Judged(PhotoKind kind, float chance) =>
        new([.. PhotoKinds.All.Select(k => k == kind ? chance : (1 - chance) / 5)]);
}
