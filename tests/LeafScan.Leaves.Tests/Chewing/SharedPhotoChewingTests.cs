using System.Globalization;
using System.Text.Json;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Chewing;

/// <summary>
/// Real leaves: with painted bites and holes whose area is exact, and sound ones in which nothing may be missing. Only photos
/// with an even number, as the limits were set on the odd ones.
/// </summary>
public class SharedPhotoChewingTests
{
    [SharedPhotosFact]
    public void Painted_bites_and_holes_are_measured_within_a_point()
    {
        List<double> errors = [];
        foreach (string truth in Even("implants", "case-*.truth.json"))
        {
            using JsonDocument json = JsonDocument.Parse(File.ReadAllText(truth));
            double share = json.RootElement.GetProperty("shares").GetProperty("chewed").GetDouble();
            errors.Add(Math.Abs(share - Chewed(truth.Replace(".truth.json", ".jpg", StringComparison.Ordinal))));
        }

        Assert.InRange(errors.Average(), 0, 0.01);
    }

    [SharedPhotosFact]
    public void The_same_leaves_before_painting_have_nothing_missing()
    {
        List<double> shares = Even("implants", "case-*.base.jpg").ConvertAll(Chewed);
        Assert.InRange(shares.Max(), 0, 0.005);
    }

    [SharedPhotosTheory]
    [InlineData("strawberry-leaves")]
    [InlineData("tomato-leaves")]
    [InlineData("chilli-field")]
    [InlineData("bean-field")]
    [InlineData("citrus-white-sheet")]
    public void Sound_leaves_have_hardly_anything_missing(string set)
    {
        List<double> shares = Even(Path.Combine("photos", set), "healthy-*")
            .Where(f => !f.Contains("cutout", StringComparison.Ordinal))
            .Select(Chewed)
            .Order()
            .ToList();
        Assert.InRange(shares[shares.Count / 2], 0, 0.005);
        Assert.InRange(shares[(int)(0.9 * (shares.Count - 1))], 0, 0.02);
    }

    private static List<string> Even(string folder, string pattern)
        => [.. Directory.GetFiles(Path.Combine(SharedPhotos.Folder!, folder), pattern).Where(IsEven).Order(StringComparer.Ordinal)];

    private static bool IsEven(string file)
    {
        string name = Path.GetFileName(file);
        string digits = new([.. name.Where(char.IsAsciiDigit)]);
        return int.Parse(digits, CultureInfo.InvariantCulture) % 2 == 0;
    }

    private static double Chewed(string file)
    {
        using PhotoOutcome opened = PhotoReader.Open(file, new PhotoLimits());
        Assert.NotNull(opened.Photo);
        using OutlineResult found = OutlineFinder.Find(opened.Photo.Pixels, new OutlineOptions(), CancellationToken.None);
        double missing = 0;
        double leaf = 0;
        foreach (FoundLeaf one in found.Leaves)
        {
            using ChewMap map = ChewFinder.Find(one.Mask, new ChewOptions());
            missing += Cv2.CountNonZero(map.Missing);
            leaf += Cv2.CountNonZero(one.Mask);
        }

        return missing / Math.Max(1, missing + leaf);
    }
}
