using LeafScan.Frame.Sheets;
using LeafScan.Frame.Tags;

namespace LeafScan.Frame.Tests;

public sealed class ScaleSheetTests
{
    [Fact]
    public void Every_marker_tells_its_paper_and_side()
    {
        Assert.Equal(16, ScaleSheet.All.SelectMany(sheet => sheet.Markers).Select(marker => marker.Id).Distinct().Count());
        Assert.All(ScaleSheet.All, sheet => Assert.All(sheet.Markers, marker => Assert.Same(sheet, ScaleSheet.OfMarker(marker.Id))));
        Assert.Null(ScaleSheet.OfMarker(49));
    }

    [Fact]
    public void Everything_lies_on_the_paper_and_apart()
    {
        foreach (ScaleSheet sheet in ScaleSheet.All)
        {
            List<SheetArea> areas = [.. sheet.Markers.Select(m => m.Area), sheet.Field, .. sheet.GreySteps.Select(s => s.Area)];
            Assert.All(areas, a => Assert.True(a.LeftMm >= 8 && a.TopMm >= 8
                && a.LeftMm + a.WidthMm <= sheet.Paper.WidthMm - 8 && a.TopMm + a.HeightMm <= sheet.Paper.HeightMm - 8));
            Assert.All(areas, a => Assert.All(areas.Where(b => b != a), b => Assert.True(
                a.LeftMm + a.WidthMm <= b.LeftMm + 1e-9 || b.LeftMm + b.WidthMm <= a.LeftMm + 1e-9
                || a.TopMm + a.HeightMm <= b.TopMm + 1e-9 || b.TopMm + b.HeightMm <= a.TopMm + 1e-9)));
        }
    }

    [Theory]
    [InlineData("B12", 20, "LEAF1/200/B12")]
    [InlineData("row 3/7", 12.5, "LEAF1/125/row 3/7")]
    public void A_tag_says_its_plant_and_its_size(string code, double side, string text)
    {
        Assert.Equal(text, new TagText(code, side).Write());
        Assert.Equal(new TagText(code, side), TagText.Read(text));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("B12")]
    [InlineData("LEAF1/200/")]
    [InlineData("LEAF1/-5/B12")]
    [InlineData("LEAF1/0/B12")]
    [InlineData("WIFI:S:greenhouse;;")]
    public void A_code_of_somebody_else_is_no_tag(string? text) => Assert.Null(TagText.Read(text));
}
