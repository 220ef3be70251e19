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
        text.Append("| untreated plants | taps a visit | leaves | visits | works: right | wrong | quiet: rightly + for want of data | fails: right | wrong | quiet: rightly + for want of data | between: said working | said not working | of all \"working\", care failed | of all \"not working\", care worked |\n");
        text.Append("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (Design design in _cells.Keys.Select(key => key.Design).Distinct().OrderBy(d => d.HasChecks).ThenBy(d => d.HasTaps).ThenBy(d => d.Leaves).ThenBy(d => d.Visits))
        {
            (SeasonCell works, SeasonCell fails, SeasonCell between) = (Cell(design, CareTruth.Works), Cell(design, CareTruth.Fails), Cell(design, CareTruth.Between));
            int working = works.SaidWorking + fails.SaidWorking + between.SaidWorking;
            int notWorking = works.SaidNotWorking + fails.SaidNotWorking + between.SaidNotWorking;
            text.Append(CultureInfo.InvariantCulture,
                $"| {(design.HasChecks ? 2 : 0)} | {(design.HasTaps ? 3 : 0)} | {design.Leaves} | {design.Visits} | {Three(works)} | {Three(fails)} | {Share(between.SaidWorking, between.Seasons)} | {Share(between.SaidNotWorking, between.Seasons)} | {Share(fails.SaidWorking, working)} | {Share(works.SaidNotWorking, notWorking)} |\n");
        }

        text.Append("\n| no care: leaves | visits | damage came: right | wrong | quiet: rightly + for want of data | none came: right | wrong | quiet: rightly + for want of data |\n| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (Design design in _cells.Keys.Where(key => key.Truth is CareTruth.DamageCame or CareTruth.NoneCame).Select(key => key.Design).Distinct().OrderBy(d => d.Leaves).ThenBy(d => d.Visits))
        {
            text.Append(CultureInfo.InvariantCulture, $"| {design.Leaves} | {design.Visits} | {Three(Cell(design, CareTruth.DamageCame))} | {Three(Cell(design, CareTruth.NoneCame))} |\n");
        }

        return text.ToString();
    }

    /// <summary>The cell of a design and a truth; empty when no season had it.</summary>
    public SeasonCell Cell(Design design, CareTruth truth) => _cells.GetValueOrDefault((design, truth)) ?? new SeasonCell(0, 0, 0, 0, 0, 0, 0);

    private static string Three(SeasonCell cell)
        => $"{Share(cell.Right, cell.Seasons)} | {Share(cell.Wrong, cell.Seasons)} | {Share(cell.RightlyQuiet, cell.Seasons)} + {Share(cell.NeedlesslyQuiet, cell.Seasons)}";

    // Below 20 a share says nothing.
    private static string Share(int count, int of)
        => of < 20 ? "-" : (100.0 * count / of).ToString("0.0", CultureInfo.InvariantCulture);
}

/// <summary>The cell that is most often wrong.</summary>
/// <param name="Design">How it was looked at.</param>
/// <param name="Truth">What was so.</param>
/// <param name="Cell">The counts.</param>
public sealed record WorstCell(Design Design, CareTruth Truth, SeasonCell Cell);
