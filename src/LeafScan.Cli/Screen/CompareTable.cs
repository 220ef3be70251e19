using System.Globalization;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Cli.Screen;

/// <summary>Two months side by side for people: one line a plant, then what each answer does not prove.</summary>
internal static class CompareTable
{
    /// <summary>Writes the table.</summary>
    public static void Write(TextWriter writer, Month from, Month to, IReadOnlyList<(Plant Plant, MonthComparison Months)> plants)
    {
        if (plants.Count == 0)
        {
            writer.WriteLine($"No plant has a measured leaf in {from} or {to}. All walks of a plant: leafscan series PLANT");
            return;
        }

        writer.WriteLine("Mean damage over leaves in %, with 90 % ranges.");
        TextTable table = new("plant", "place", $">{from}", "range", ">leaves", $">{to}", "range", ">leaves", ">change", "range", "damage is");
        foreach ((Plant plant, MonthComparison months) in plants)
        {
            table.Add(
                plant.Code,
                plant.PlaceName,
                Damage(months.Earlier),
                FigureDocument.Range(months.Earlier.DamageInterval),
                Words.Number(months.Earlier.LeafCount),
                Damage(months.Later),
                FigureDocument.Range(months.Later.DamageInterval),
                Words.Number(months.Later.LeafCount),
                months.Difference is { } difference ? Signed(difference) : "-",
                months.DifferenceInterval is { } range ? $"{Signed(range.Low)} to {Signed(range.High)}" : string.Empty,
                WordOf(months.Word));
        }

        table.WriteTo(writer);
        foreach (string because in plants.Where(pair => pair.Months.Word == ChangeWord.CannotTell).Select(pair => $"{pair.Plant.Code}: {pair.Months.Because}"))
        {
            writer.WriteLine(Words.OneLine(because));
        }

        foreach (string caution in plants.Select(pair => pair.Months.Caution).Distinct())
        {
            writer.WriteLine(caution);
        }
    }

    /// <summary>The answer as a name in documents: better, worse, same, cannotTell.</summary>
    public static string NameOf(ChangeWord word) => word switch
    {
        ChangeWord.Better => "better",
        ChangeWord.Worse => "worse",
        ChangeWord.Same => "same",
        _ => "cannotTell",
    };

    // "Better" would sound like healing; what is seen is less or more damage on the leaves of the photos.
    private static string WordOf(ChangeWord word) => word switch
    {
        ChangeWord.Better => "less",
        ChangeWord.Worse => "more",
        ChangeWord.Same => "the same",
        _ => "can't tell",
    };

    private static string Damage(LeafFigures figures) => figures.Damage is { } damage ? Words.Percent(damage) : "-";

    private static string Signed(double share) => (Math.Round(share * 100, 1) + 0.0).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);
}
