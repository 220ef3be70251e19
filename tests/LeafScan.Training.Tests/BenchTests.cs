using LeafScan.Leaves;
using LeafScan.Training.Bench;

namespace LeafScan.Training.Tests;

public class BenchTests
{
    [Fact]
    public void Perfect_rows_give_perfect_figures()
    {
        FigureGroup all = BenchDocument.Of([.. Rows(0)], new MeasureOptions(), "test").Groups[0];
        Assert.Equal(1, all["speckF1"]!.Value);
        Assert.Equal(1, all["damageCcc"]!.Value!.Value, 9);
        Assert.Equal(0, all["damageMae"]!.Value!.Value, 12);
        Assert.Equal(1, all["outlineIouP10"]!.Value);
        Assert.Equal(1, all["intervalCoverage"]!.Value);
    }

    // By hand from the definitions: 9 matched, 12 true, 10 found gives 0.9, 0.75 and 2*9/22.
    [Fact]
    public void Precision_recall_and_F1_follow_their_definitions()
    {
        PhotoRow row = Row("a", 0.1, 0.1) with { SpecksTrue = 12, SpecksFound = 10, SpecksMatched = 9 };
        FigureGroup all = BenchDocument.Of([row], new MeasureOptions(), "test").Groups[0];
        Assert.Equal(0.9, all["speckPrecision"]!.Value!.Value, 12);
        Assert.Equal(0.75, all["speckRecall"]!.Value!.Value, 12);
        Assert.Equal(18.0 / 22, all["speckF1"]!.Value!.Value, 12);
    }

    [Fact]
    public void A_refused_photo_counts_as_no_overlap_and_stays_out_of_the_shares()
    {
        PhotoRow refused = Row("r", 0.5, 0) with { Refused = "No leaf was found.", OutlineIou = 0, Shares = new Dictionary<string, SharePair> { ["damage"] = new(0.5, null) } };
        FigureGroup all = BenchDocument.Of([.. Rows(0), refused], new MeasureOptions(), "test").Groups[0];
        Assert.Equal(1 / 11.0, all["refused"]!.Value!.Value, 9);
        Assert.Equal(0, all["damageMae"]!.Value!.Value, 12);
        Assert.Equal(10, all["damageMae"]!.Photos);
    }

    [Fact]
    public void The_same_rows_give_the_same_intervals()
    {
        BenchDocument first = BenchDocument.Of([.. Rows(0.02)], new MeasureOptions(), "test");
        BenchDocument second = BenchDocument.Of([.. Rows(0.02)], new MeasureOptions(), "test");
        Assert.Equal(first.ToJson(), second.ToJson());
        Assert.True(first.Groups[0]["damageMae"]!.Low < first.Groups[0]["damageMae"]!.High);
    }

    [Fact]
    public void A_document_survives_JSON()
    {
        BenchDocument run = BenchDocument.Of([.. Rows(0.02)], new MeasureOptions(), "test");
        Assert.Equal(run.ToJson(), BenchDocument.FromJson(run.ToJson()).ToJson());
    }

    [Fact]
    public void A_worse_run_is_called_worse_and_the_same_run_alike()
    {
        BenchDocument good = BenchDocument.Of([.. Rows(0.01)], new MeasureOptions(), "test");
        BenchDocument bad = BenchDocument.Of([.. Rows(0.06)], new MeasureOptions(), "test");
        Assert.All(RunComparison.Of(good, good), c => Assert.Equal("alike", c.Verdict));
        Assert.Equal("worse", RunComparison.Of(good, bad).Single(c => c.Metric.Name == "damageMae").Verdict);
        Assert.Equal("better", RunComparison.Of(bad, good).Single(c => c.Metric.Name == "damageMae").Verdict);
        Assert.StartsWith("Got worse: ", ReportWriter.Comparison(RunComparison.Of(good, bad)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_report_replaces_only_what_lies_between_its_marks()
    {
        string once = ReportMarks.Figures.Into("# Title\n\nBefore\n\n" + ReportMarks.Figures.Start + "\nold\n" + ReportMarks.Figures.End + "\n\nAfter\n", "new");
        Assert.DoesNotContain("old", once, StringComparison.Ordinal);
        Assert.StartsWith("# Title\n\nBefore", once, StringComparison.Ordinal);
        Assert.EndsWith("After\n", once, StringComparison.Ordinal);
        Assert.Equal(once, ReportMarks.Figures.Into(once, "new"));
    }

    private static IEnumerable<PhotoRow> Rows(double error)
        => Enumerable.Range(0, 10).Select(i => Row($"p{i}", 0.03 * i, (0.03 * i) + (error * (1 + (0.2 * (i % 3))))));

    private static PhotoRow Row(string name, double truth, double measured) => new()
    {
        Key = "set/" + name,
        Set = "set",
        Kind = TruthKind.Full,
        Difficulty = "easy",
        Background = "sheet",
        OutlineIou = 1,
        LeavesTrue = 1,
        LeavesFound = 1,
        SpecksTrue = 10,
        SpecksFound = 10,
        SpecksMatched = 10,
        Shares = new Dictionary<string, SharePair> { ["damage"] = new(truth, measured) },
        DamageLow = measured - 0.01,
        DamageHigh = measured + 0.01,
    };
}
