namespace LeafScan.Records.Tests;

public sealed class LeafFromPathTests
{
    [Theory]
    [InlineData("B12/IMG_1.jpg", "B12", null, null)]
    [InlineData("B12/new-growth/IMG_1.jpg", "B12", LeafGrowth.New, null)]
    [InlineData("B12/Old Growth/IMG_1.jpg", "B12", LeafGrowth.Old, null)]
    [InlineData("B12/tagged-3/IMG_1.jpg", "B12", null, "3")]
    [InlineData("B12/tagged_A/new_growth_2.jpg", "B12", LeafGrowth.New, "a")]
    [InlineData("tagged-3/B12_IMG_1.jpg", "B12", null, "3")]
    [InlineData("B12_new-growth_1.jpg", "B12", LeafGrowth.New, null)]
    [InlineData("B12 tagged 7 old growth.jpg", "B12", LeafGrowth.Old, "7")]
    [InlineData("tagged-3.jpg", null, null, "3")]
    [InlineData("B12/tagged-3/x_tagged-4.jpg", "B12", null, "4")]
    [InlineData("B12/tagged/IMG 1.jpg", "B12", null, null)]
    [InlineData("growth/new.jpg", "growth", null, null)]
    public void Folder_and_file_name_tell_age_and_label_and_never_a_plant(string inside, string? plant, LeafGrowth? age, string? tag)
    {
        string path = Path.Combine("/walks/june", inside);
        Assert.Equal(new LeafWords(age, tag), LeafFromPath.Decide("/walks/june", path));
        Assert.Equal(plant, PlantFromPath.Decide("/walks/june", path).Code);
    }

    [Fact]
    public void A_photo_outside_the_walks_folder_is_judged_by_its_name_alone()
        => Assert.Equal(new LeafWords(null, null), LeafFromPath.Decide("/walks/june", "/walks/tagged-3/a.jpg"));
}
