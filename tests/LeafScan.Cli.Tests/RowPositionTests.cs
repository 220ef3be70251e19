using LeafScan.Records;
using LeafScan.Walks.Blocks;

namespace LeafScan.Cli.Tests;

public sealed class RowPositionTests
{
    [Theory]
    [InlineData("R2-P14.jpg", "R2-P14")]
    [InlineData("r02p014 leaf 3.jpg", "R2-P14")]
    [InlineData("R2/P14/IMG_0001.jpg", "R2-P14")]
    [InlineData("row 2/position 14/IMG_0001.jpg", "R2-P14")]
    [InlineData("100ABCDE/R2_P14.jpg", "R2-P14")]
    [InlineData("B7/IMG_0001.jpg", "B7")]
    [InlineData("Miller's hedge/R.jpg", "Miller's hedge")]
    public void Row_and_position_are_read_from_names_and_else_the_plant_as_on_any_walk(string path, string code)
        => Assert.Equal(code, RowPosition.Decide("/walk", "/walk/" + path).Code);

    [Theory]
    [InlineData("R0-P1.jpg")]
    [InlineData("R2-P14a.jpg")]
    [InlineData("PR2-P14.jpg")]
    [InlineData("R2-P.jpg")]
    [InlineData("R2345-P1.jpg")]
    public void What_only_looks_like_row_and_position_is_none(string name) => Assert.Null(RowPosition.OfPath("/walk", "/walk/" + name));

    [Fact]
    public void A_file_name_is_the_source_where_the_folder_tells_nothing()
    {
        Assert.Equal(PlantSource.ByFileName, RowPosition.Decide("/walk", "/walk/R1-P1.jpg").Source);
        Assert.Equal(PlantSource.ByFolder, RowPosition.Decide("/walk", "/walk/R1-P1/a.jpg").Source);
    }
}
