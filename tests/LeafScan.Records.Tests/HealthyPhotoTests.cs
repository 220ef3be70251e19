using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;

namespace LeafScan.Records.Tests;

/// <summary>The sound colour that is kept of a plant.</summary>
public sealed class HealthyPhotoTests : IDisposable
{
    private static readonly HealthyOnRecord May = new("spruce-may.jpg", new HealthyColour
    {
        Sha256 = new string('b', 64),
        Kind = "twig",
        RedToGreen = -0.53,
        BlueToGreen = -1.4,
        Scatter = 0.11,
        LightKnown = true,
    });

    private readonly ScratchFolder _folder = new();
    private readonly RecordStore _store;
    private readonly long _plant;

    public HealthyPhotoTests()
    {
        _store = _folder.Open();
        _plant = _store.FindOrAddPlant(_store.FindOrAddPlace("Nursery").Id, "S4").Id;
    }

    [Fact]
    public void It_comes_back_as_it_was_and_one_undo_takes_it_away_by_the_name_of_its_photo()
    {
        _store.EditPlant(_plant, plant => plant with { Facts = plant.Facts with { Healthy = May } }, "healthy in May");
        Assert.Equal(May, _store.FindPlant(_plant)!.Facts.Healthy);
        UndoneChange undone = _store.UndoLastEdit()!;
        Assert.Contains("healthy photo is empty again, not “spruce-may.jpg”", Assert.Single(undone.Words), StringComparison.Ordinal);
        Assert.Null(_store.FindPlant(_plant)!.Facts.Healthy);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("{}")]
    [InlineData("[1,2]")]
    [InlineData("null")]
    [InlineData("no json")]
    [InlineData("{\"file\":\"a.jpg\",\"colour\":{\"sha256\":\"x\",\"kind\":\"twig\",\"redToGreen\":1e9,\"blueToGreen\":-1,\"scatter\":0.1,\"lightKnown\":true}}")]
    [InlineData("{\"file\":\"a.jpg\",\"colour\":{\"sha256\":\"x\",\"kind\":\"hedge\",\"redToGreen\":-0.5,\"blueToGreen\":-1,\"scatter\":0.1,\"lightKnown\":true}}")]
    public void A_text_from_elsewhere_that_is_no_colour_is_none(string? text) => Assert.Null(HealthyOnRecord.Read(text));

    [Fact]
    public void Readings_from_before_are_explained_without_it_and_later_ones_with_it()
    {
        _store.EditPlant(_plant, plant => plant with { Facts = plant.Facts with { Healthy = May } }, "healthy in May");
        Plant plant = _store.FindPlant(_plant)!;
        MeasureOptions usual = new();
        Assert.Equal(May.Colour, usual.For(plant).Healthy);
        Assert.Null(usual.For(null).Healthy);
        Assert.Null(usual.AsMeasured(plant, new ReadingOrigin("1", usual.Hash())).Healthy);
        Assert.Equal(May.Colour, usual.AsMeasured(plant, new ReadingOrigin("1", (usual.For(plant) with { Kind = "twig" }).Hash())).Healthy);
    }

    public void Dispose()
    {
        Assert.Empty(_store.CheckIntegrity());
        _store.Dispose();
        _folder.Dispose();
    }
}
