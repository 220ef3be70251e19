using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Photos;
using LeafScan.Taps;

namespace LeafScan.Cli.Taps;

/// <summary>A tap for people: what crawled, what lay still, and the doubts.</summary>
internal static class TapWords
{
    /// <summary>Writes the result.</summary>
    public static void Write(TextWriter writer, TapReading reading)
    {
        if (reading.Crawling is { } crawling)
        {
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"crawling            {crawling}  ({reading.CrawlingLow} to {reading.CrawlingHigh})"));
            writer.WriteLine($"possible predators  {reading.PossiblePredators}");
            writer.WriteLine($"debris              {reading.Debris}");
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"lined up within     {reading.AlignmentErrorPx:0.0} pixels"));
        }
        else
        {
            writer.WriteLine($"candidates  {reading.Candidates}  (mites and dust of their size; no count)");
        }

        string smallest = reading.SmallestVisibleMm is { } mm
            ? string.Create(CultureInfo.InvariantCulture, $"{mm:0.00} mm ({reading.SmallestVisiblePx:0.0} pixels)")
            : string.Create(CultureInfo.InvariantCulture, $"{reading.SmallestVisiblePx:0.0} pixels (no scale in the photo, so no millimetres)");
        writer.WriteLine($"smallest visible    {smallest}");
        foreach (string name in reading.Flags.Where(name => name != Flag.NoScale.Name))
        {
            Flag flag = Flag.All[name];
            writer.WriteLine(Words.OneLine($"{flag.Name}: {flag.Meaning} {flag.Advice}"));
        }
    }
}
