using System.Text.Json;
using System.Text.Json.Serialization;
using LeafScan.Leaves;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Bench;

/// <summary>The result of one bench run, as JSON holds it.</summary>
/// <param name="Schema">Name and number of the format.</param>
/// <param name="Tool">Version of the measuring tool.</param>
/// <param name="Options">Hash of the measuring options.</param>
/// <param name="Networks">Files of the networks that measured, each with the beginning of its SHA-256; empty when colour alone did.</param>
/// <param name="Groups">Figures by group; the first is all photos with full truth.</param>
/// <param name="SpeckSizes">Recall by size.</param>
/// <param name="Photos">One row per photo.</param>
public sealed record BenchDocument(
    string Schema, string Tool, string Options, IReadOnlyList<string> Networks, IReadOnlyList<FigureGroup> Groups, IReadOnlyList<SizeFigure> SpeckSizes, IReadOnlyList<PhotoRow> Photos)
{
    /// <summary>Current <see cref="Schema"/>.</summary>
    public const string CurrentSchema = "leafscan.accuracy/1";

    private const int BootstrapSeed = 20260702;

    private static readonly JsonSerializerOptions Readable = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        WriteIndented = true,
    };

    /// <summary>Recall by the share of a speck that other specks cover.</summary>
    public IReadOnlyList<SizeFigure> SpeckCovers { get; init; } = [];

    /// <summary>Makes all figures from rows.</summary>
    public static BenchDocument Of(IReadOnlyList<PhotoRow> rows, MeasureOptions options, string tool, IReadOnlyList<string>? networks = null)
    {
        List<FigureGroup> groups = [];
        PhotoRow[] full = [.. rows.Where(r => r.Kind == TruthKind.Full)];
        if (full.Length > 0)
        {
            groups.Add(Group("all with full truth", full));
        }

        groups.AddRange(rows.GroupBy(r => r.Set).Select(g => Group("set " + g.Key, [.. g])));
        groups.AddRange(full.GroupBy(r => r.Difficulty).Where(g => g.Key is not null).Select(g => Group("difficulty " + g.Key, [.. g])));
        groups.AddRange(full.GroupBy(r => r.Background).Where(g => g.Key is not null).Select(g => Group("background " + g.Key, [.. g])));
        return new BenchDocument(CurrentSchema, tool, options.Hash(), networks ?? [], groups, [.. Recall(full, CaseMeter.SizeClasses, r => r.SpecksBySize)], rows)
        {
            SpeckCovers = [.. Recall(full, SpeckCover.Classes, r => r.SpecksByCover)],
        };
    }

    /// <summary>The document as JSON.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, Readable);

    /// <summary>Reads what <see cref="ToJson"/> wrote.</summary>
    public static BenchDocument FromJson(string text)
        => JsonSerializer.Deserialize<BenchDocument>(text, Readable) ?? throw new JsonException("The document is empty.");

    private static FigureGroup Group(string name, PhotoRow[] rows)
        => new(name, rows.Length, [.. Metric.All.Select(m => Figure.Of(m, rows, BootstrapSeed)).Where(f => f.Photos > 0)]);

    private static IEnumerable<SizeFigure> Recall(PhotoRow[] rows, IReadOnlyList<(string Name, double Below)> names, Func<PhotoRow, IReadOnlyDictionary<string, SpeckClass>> counted)
    {
        foreach ((string name, _) in names)
        {
            SpeckClass[] classes = [.. rows.Where(r => r.Measured).Select(r => counted(r).GetValueOrDefault(name)).OfType<SpeckClass>()];
            int truth = classes.Sum(c => c.Truth);
            int matched = classes.Sum(c => c.Matched);
            if (truth > 0)
            {
                Interval interval = WilsonInterval.Of(matched, truth, 0.95);
                yield return new SizeFigure(name, truth, (double)matched / truth, interval.Low, interval.High);
            }
        }
    }
}
