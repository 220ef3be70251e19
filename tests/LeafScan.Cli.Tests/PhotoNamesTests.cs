using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Tests;

public class PhotoNamesTests
{
    [Theory]
    [InlineData("/a/IMG_1.jpg", "IMG_1")]
    [InlineData("/a/IMG_1.jpg /b/IMG_2.jpg", "IMG_1 IMG_2")]
    [InlineData("/w/a/IMG_1.jpg /w/b/IMG_1.jpg /w/IMG_2.jpg", "a/IMG_1 b/IMG_1 IMG_2")]
    [InlineData("/w/a/x/IMG_1.jpg /w/a/y/IMG_1.jpg", "x/IMG_1 y/IMG_1")]
    [InlineData("/w/IMG_1.jpg /w/IMG_1.png", "IMG_1.jpg IMG_1.png")]
    [InlineData("/w/IMG_1.jpg /w/img_1.JPG", "IMG_1.jpg img_1.JPG")]
    [InlineData("/IMG_1.jpg /w/IMG_1.jpg", "IMG_1 w/IMG_1")]
    [InlineData("/w/case.base.jpg /w/case.jpg", "case.base case")]
    public void Names_are_plain_until_they_would_clash(string paths, string names) =>
        Assert.Equal(names, string.Join(' ', PhotoNames.Give(paths.Split(' ')).Select(item => item.OutputName)));

    [Fact]
    public void No_two_of_many_files_share_a_name()
    {
        Random random = new(11);
        string[] parts = ["a", "b", "A", "c.d"];
        string[] paths = [.. Enumerable.Range(0, 400).Select(_ =>
            "/" + string.Join('/', Enumerable.Range(0, random.Next(1, 4)).Select(_ => parts[random.Next(4)])) + "/" + parts[random.Next(4)] + (random.Next(2) == 0 ? ".jpg" : ".png")).Distinct()];
        string[] names = [.. PhotoNames.Give(paths).Select(item => item.OutputName)];
        Assert.Equal(paths.Length, names.Distinct(StringComparer.Ordinal).Count());
    }
}
