using System.Globalization;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Screen;

/// <summary>Readings for people: one line a photo.</summary>
internal static class MeasureTable
{
    /// <summary>Writes the table and a key to its doubts.</summary>
    public static void Write(TextWriter writer, IReadOnlyList<PhotoReading> photos)
    {
        string area = photos.Any(photo => photo.Kind is "twig" or "plant") ? "leaf or foliage" : "leaf";
        writer.WriteLine($"Shares of the {area} area in %; damage with its 90 % range is of the {area} that can be judged.");
        TextTable table = new(
            "photo", ">leaves", ">damage", "range", ">sound", ">stippled", ">yellowed", ">browned", ">chewed", ">not judged", ">specks", "doubts");
        SortedSet<string> doubts = new(StringComparer.Ordinal);
        foreach (PhotoReading photo in photos)
        {
            PhotoSummary sum = PhotoSummary.Of(photo);
            List<string> shown = [.. sum.Flags.Where(flag => flag != Flag.NoScale.Name)];
            doubts.UnionWith(shown);
            string about = sum.Flags.Contains(Flag.CountEstimated.Name) ? "~" : sum.Flags.Contains(Flag.CountIsLowerBound.Name) ? ">=" : string.Empty;
            table.Add(
                photo.File,
                sum.Leaves.ToString(CultureInfo.InvariantCulture),
                Words.Percent(sum.Damage),
                $"{Words.Percent(sum.DamageLow)} to {Words.Percent(sum.DamageHigh)}",
                Words.Percent(sum.Shares.Sound),
                Words.Percent(sum.Shares.Stippled),
                Words.Percent(sum.Shares.Yellowed),
                Words.Percent(sum.Shares.Browned),
                Words.Percent(sum.Shares.Chewed),
                Words.Percent(sum.Shares.Unassessed),
                about + sum.SpeckCount.ToString(CultureInfo.InvariantCulture),
                string.Join(' ', shown));
        }

        table.WriteTo(writer);
        foreach (PhotoReading photo in photos)
        {
            foreach (LeafReading twig in photo.Leaves.Where(leaf => leaf.SpecksPerCmOfNeedle is not null))
            {
                writer.WriteLine(Words.OneLine(string.Create(CultureInfo.InvariantCulture, $"{photo.File}: at least {twig.SpecksPerCmOfNeedle:0.0} specks per cm on {twig.NeedleLengthMm / 10:0.0} cm of needles in view.")));
            }
        }

        foreach (Flag flag in doubts.Where(Flag.All.ContainsKey).Select(name => Flag.All[name]))
        {
            writer.WriteLine($"{flag.Name}: {flag.Meaning} {flag.Advice}");
        }
    }
}
