using System.Text.Json;
using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Tests.Reading;

public class ReadingJsonTests
{
    [Fact]
    public void Property_names_and_their_order_are_those_of_the_fixed_format()
    {
        using JsonDocument json = JsonDocument.Parse(ReadingJson.Write(SomeReading.Document()));
        JsonElement photo = json.RootElement.GetProperty("photos")[0];
        JsonElement leaf = photo.GetProperty("leaves")[0];

        Assert.Equal("schema tool photos refused", Names(json.RootElement));
        Assert.Equal("file sha256 width height taken kind plant pixelsPerMm flags leaves", Names(photo));
        Assert.Equal(
            "outline areaPx areaMm2 shares damage damageLow damageHigh speckCount speckDensityPerCm2 speckDiameterMedianPx speckCentres causes flags",
            Names(leaf));
        Assert.Equal("sound stippled yellowed browned chewed unassessed", Names(leaf.GetProperty("shares")));
        Assert.Equal("cause score because", Names(leaf.GetProperty("causes")[0]));
        Assert.Equal("file reason advice", Names(json.RootElement.GetProperty("refused")[0]));
        Assert.Equal("leafscan.reading/1", json.RootElement.GetProperty("schema").GetString());
    }

    [Fact]
    public void Coordinates_are_short_arrays_on_one_line()
    {
        string json = ReadingJson.Write(SomeReading.Document());
        Assert.Contains("\"outline\": [[10, 10], [90, 10], [90, 70], [10, 70]]", json, StringComparison.Ordinal);
        Assert.Contains("\"speckCentres\": [[20.3, 30, 7.13], [40, 50.5, 7]]", json, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_unknown_is_null_and_not_left_out()
    {
        using JsonDocument json = JsonDocument.Parse(ReadingJson.Write(SomeReading.Document()));
        JsonElement photo = json.RootElement.GetProperty("photos")[0];
        Assert.Equal(JsonValueKind.Null, photo.GetProperty("plant").ValueKind);
        Assert.Equal(JsonValueKind.Null, photo.GetProperty("pixelsPerMm").ValueKind);
        Assert.Equal(JsonValueKind.Null, photo.GetProperty("leaves")[0].GetProperty("areaMm2").ValueKind);
    }

    [Fact]
    public void A_document_comes_back_as_it_was_written()
    {
        string written = ReadingJson.Write(SomeReading.Document());
        Assert.Equal(written, ReadingJson.Write(ReadingJson.Read(written)));
    }

    [Fact]
    public void A_leaf_without_specks_has_an_empty_list()
    {
        LeafReading leaf = SomeReading.Leaf() with { SpeckCount = 0, SpeckCentres = [], SpeckDiameterMedianPx = 0 };
        string written = ReadingJson.Write(SomeReading.Document(SomeReading.Photo(leaf)));
        Assert.Contains("\"speckCentres\": []", written, StringComparison.Ordinal);
        Assert.Empty(ReadingJson.Read(written).Photos[0].Leaves[0].SpeckCentres);
    }

    [Fact]
    public void Names_in_other_letters_are_written_as_themselves() =>
        Assert.Contains("Rose “Åse” 1.jpg", ReadingJson.Write(SomeReading.Document()), StringComparison.Ordinal);

    [Fact]
    public void Another_schema_is_refused_with_its_name()
    {
        string other = ReadingJson.Write(SomeReading.Document()).Replace("reading/1", "reading/9", StringComparison.Ordinal);
        JsonException error = Assert.Throws<JsonException>(() => ReadingJson.Read(other));
        Assert.Contains("leafscan.reading/9", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[[1, 2, 3]]")]
    [InlineData("[[1]]")]
    [InlineData("[1, 2]")]
    [InlineData("[[1, \"2\"]]")]
    public void An_outline_that_is_not_pairs_of_numbers_is_refused(string outline)
    {
        string bad = ReadingJson.Write(SomeReading.Document())
            .Replace("[[10, 10], [90, 10], [90, 70], [10, 70]]", outline, StringComparison.Ordinal);
        Assert.Throws<JsonException>(() => ReadingJson.Read(bad));
    }

    [Fact]
    public void A_number_that_is_none_is_never_written()
    {
        LeafReading leaf = SomeReading.Leaf() with { SpeckCentres = [new SpeckMark(double.NaN, 1, 1)] };
        Assert.ThrowsAny<ArgumentException>(() => ReadingJson.Write(SomeReading.Document(SomeReading.Photo(leaf))));
    }

    private static string Names(JsonElement element) => string.Join(' ', element.EnumerateObject().Select(property => property.Name));
}
