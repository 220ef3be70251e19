using System.Globalization;
using LeafScan.Photos.Colour;

namespace LeafScan.Photos.Tests.Colour;

public class LabColourTests
{
    /// <summary>Source: IEC 61966-2-1 sRGB and CIE 1976 L*a*b* with D65, computed from the published matrices; red, green, blue and yellow as printed in colour tables.</summary>
    [Fact]
    public void Srgb_colours_have_the_published_lab_values()
    {
        foreach (string[] row in Rows("srgb-to-lab.csv"))
        {
            LabColour lab = LabColour.FromSrgb(byte.Parse(row[1], CultureInfo.InvariantCulture), byte.Parse(row[2], CultureInfo.InvariantCulture), byte.Parse(row[3], CultureInfo.InvariantCulture));
            Assert.True(Math.Abs(lab.L - Number(row[4])) < 0.05, $"{row[0]} L {lab.L}");
            Assert.True(Math.Abs(lab.A - Number(row[5])) < 0.05, $"{row[0]} a {lab.A}");
            Assert.True(Math.Abs(lab.B - Number(row[6])) < 0.05, $"{row[0]} b {lab.B}");
        }
    }

    /// <summary>Source: the 34 test pairs of Sharma, Wu and Dalal 2005, Color Research and Application 30:21.</summary>
    [Fact]
    public void Colour_differences_equal_the_published_pairs()
    {
        List<string[]> rows = Rows("ciede2000-pairs.csv");
        Assert.Equal(34, rows.Count);
        foreach (string[] row in rows)
        {
            double[] n = row.Select(Number).ToArray();
            double difference = LabColour.Difference(new LabColour(n[1], n[2], n[3]), new LabColour(n[4], n[5], n[6]));
            Assert.True(Math.Abs(difference - n[7]) < 1e-4, $"pair {row[0]}: {difference}");
            Assert.Equal(difference, LabColour.Difference(new LabColour(n[4], n[5], n[6]), new LabColour(n[1], n[2], n[3])), 10);
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static List<string[]> Rows(string file)
        => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Data", file)).Skip(1).Select(line => line.Split(',')).ToList();
}
