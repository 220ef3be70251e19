using System.Globalization;
using System.Text;

namespace LeafScan.Training.Seasons;

/// <summary>The table of how often the verdict is right.</summary>
public sealed class SeasonTable
{
    private readonly Dictionary<(Design Design, CareTruth Truth), SeasonCell> _cells;

    /// <summary>Counts trials by design and truth.</summary>
    public SeasonTable(IEnumerable<SeasonTrial> trials)
        => _cells = trials.GroupBy(trial => (trial.Design, trial.Truth)).ToDictionary(cell => cell.Key, SeasonCell.Of);

    /// <summary>All cells.</summary>
    public IReadOnlyDictionary<(Design Design, CareTruth Truth), SeasonCell> Cells => _cells;

    /// <summary>The cell with the largest share of plainly wrong words among those with at least 50 seasons; null when there is none.</summary>
    public WorstCell? Worst => _cells.Where(cell => cell.Value.Seasons >= 50)
        .Select(cell => new WorstCell(cell.Key.Design, cell.Key.Truth, cell.Value)).MaxBy(cell => cell.Cell.WrongShare);

    /// <summary>Writes it as Markdown.</summary>
    public string Markdown()
    {
        StringBuilder text = new();
        text.Append("| untreated plants | taps | leaves | visits | works: right | wrong | quiet: rightly + for want of data | fails: right | wrong | quiet | between: said working | said not working |\n");
        text.Append("| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (Design design in _cells.Keys.Select(key => key.Design).Distinct().OrderBy(d => d.HasChecks).ThenBy(d => d.HasTaps).ThenBy(d => d.Leaves).ThenBy(d => d.Visits))
        {
            SeasonCell between = Cell(design, CareTruth.Between);
            text.Append(CultureInfo.InvariantCulture,
                $"| {(design.HasChecks ? "2" : "none")} | {(design.HasTaps ? "3 a visit" : "none")} | {design.Leaves} | {design.Visits} | {Three(Cell(design, CareTruth.Works))} | {Three(Cell(design, CareTruth.Fails))} | {Share(between.SaidWorking, between)} | {Share(between.SaidNotWorking, between)} |\n");
        }

        text.Append("\n| no care: leaves | visits | damage came: right | wrong | quiet | none came: right | wrong | quiet |\n| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (Design design in _cells.Keys.Where(key => key.Truth is CareTruth.DamageCame or CareTruth.NoneCame).Select(key => key.Design).Distinct().OrderBy(d => d.Leaves).ThenBy(d => d.Visits))
        {
            text.Append(CultureInfo.InvariantCulture, $"| {design.Leaves} | {design.Visits} | {Three(Cell(design, CareTruth.DamageCame))} | {Three(Cell(design, CareTruth.NoneCame))} |\n");
        }

        return text.ToString();
    }

    /// <summary>The cell of a design and a truth; empty when no season had it.</summary>
    public SeasonCell Cell(Design design, CareTruth truth) => _cells.GetValueOrDefault((design, truth)) ?? new SeasonCell(0, 0, 0, 0, 0, 0, 0);

    private static string Three(SeasonCell cell)
        => $"{Share(cell.Right, cell)} | {Share(cell.Wrong, cell)} | {Share(cell.RightlyQuiet, cell)} + {Share(cell.NeedlesslyQuiet, cell)}";

    private static string Share(int count, SeasonCell cell)
        => cell.Seasons == 0 ? "-" : (100.0 * count / cell.Seasons).ToString("0.0", CultureInfo.InvariantCulture);
}

/// <summary>The cell that is most often wrong.</summary>
/// <param name="Design">How it was looked at.</param>
/// <param name="Truth">What was so.</param>
/// <param name="Cell">The counts.</param>
public sealed record WorstCell(Design Design, CareTruth Truth, SeasonCell Cell);
