using LeafScan.Photos.Tests.Support;

namespace LeafScan.Photos.Tests;

public class PhotoFolderTests
{
    [Fact]
    public void Names_are_ordered_as_people_count()
    {
        string[] sorted = new[] { "IMG_10.jpg", "IMG_2.jpg", "img_1.jpg", "IMG_02.jpg" }.Order(NaturalOrder.Comparer).ToArray();
        Assert.Equal(["img_1.jpg", "IMG_02.jpg", "IMG_2.jpg", "IMG_10.jpg"], sorted);
    }

    [Fact]
    public void Notes_beside_photos_and_hidden_files_are_passed_over_with_a_reason()
    {
        using TempFolder folder = new();
        foreach (string name in new[] { "b.jpg", "a.jpg", ".hidden.jpg", "a.AAE", "Thumbs.db", "sub/c.png", ".trash/d.jpg" })
        {
            Directory.CreateDirectory(Path.GetDirectoryName(folder.File(name))!);
            File.WriteAllText(folder.File(name), "x");
        }

        PhotoListing listing = PhotoFolder.List(folder.Path, DateTimeOffset.UtcNow.AddMinutes(1));
        Assert.Equal(["a.jpg", "b.jpg", "c.png"], listing.Files.Select(Path.GetFileName));
        Assert.Equal(4, listing.Skipped.Count);
        Assert.All(listing.Skipped, s => Assert.NotEmpty(s.Why));
        Assert.Null(listing.Problem);
    }

    [Fact]
    public void A_place_that_is_not_there_is_one_clear_sentence()
        => Assert.Contains("check the name", PhotoFolder.List("/no/such/place", DateTimeOffset.UtcNow).Problem, StringComparison.Ordinal);
}
