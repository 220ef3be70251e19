using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Training.Bench;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

public class BenchPartsTests
{
    [Fact]
    public void Each_part_changes_the_options_and_no_two_are_alike()
    {
        MeasureOptions whole = new();
        string[] hashes = [whole.Hash(), .. MeasuringPart.All.Select(p => p.Without(whole).Hash())];
        Assert.Equal(hashes.Length, hashes.Distinct().Count());
        Assert.Null(MeasuringPart.Find("no such part"));
    }

    [Theory]
    [InlineData("case-007.jpg", PhotoNumbers.Odd, true)]
    [InlineData("case-007.jpg", PhotoNumbers.Even, false)]
    [InlineData("900010-hard.jpg", PhotoNumbers.Even, true)]
    [InlineData("leaf.jpg", PhotoNumbers.Even, false)]
    [InlineData("leaf.jpg", PhotoNumbers.All, true)]
    public void Photos_are_taken_by_the_last_number_in_their_name(string name, PhotoNumbers numbers, bool taken)
        => Assert.Equal(taken, numbers.Has(name));

    // By hand: ten pixels in a row with votes 0 0 0 1 1 2 2 3 3 3; read as browned: the last eight less the last one.
    [Fact]
    public void Marks_of_people_and_the_reading_overlap_as_counted_by_hand()
    {
        using Mat votes = new(1, 10, MatType.CV_8UC1, Scalar.All(0));
        using Mat codes = new(1, 10, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));
        ((byte[])[0, 0, 0, 85, 85, 170, 170, 255, 255, 255]).CopyTo(Pixels.Bytes(votes, 0));
        Pixels.Bytes(codes, 0)[2..9].Fill((byte)MaskCode.Browned);
        MarkOverlap marks = MarkOverlap.Of(votes, codes);
        Assert.Equal(new MarkOverlap(7, 7, 5, 3, 4), marks);
        Assert.Equal(4 / 8.0, marks.Ours, 12);
        Assert.Equal(5 / 7.0, marks.TwoWithAny, 12);
        Assert.Equal(3 / 5.0, marks.TwoWithAll, 12);
        Assert.Equal(2 / 5.0, marks.AreaError(marks.FoundPx), 12);
    }

    [Fact]
    public void The_worst_cases_are_those_with_the_largest_error_either_way()
    {
        PhotoRow[] rows = [Row("a", 0.1, 0.11), Row("b", 0.1, 0.02), Row("c", 0.1, 0.15), Row("d", 0.1, null)];
        Assert.Equal(["s/b", "s/c"], WorstCases.ByDamage(rows, 2).Select(r => r.Key));
        PhotoRow[] specks = [rows[0] with { SpecksTrue = 100, SpecksFound = 100, SpecksMatched = 50 }, rows[1] with { SpecksTrue = 0, SpecksFound = 30 }, rows[2] with { SpecksTrue = 3, SpecksFound = 0 }];
        Assert.Equal(["s/b", "s/a"], WorstCases.BySpecks(specks).Select(r => r.Key));
        Assert.Equal(0.5, WorstCases.SpeckF1(specks[0]), 12);
    }

    [Fact]
    public void The_ablation_table_has_a_line_for_each_part()
    {
        BenchDocument whole = BenchDocument.Of([.. Enumerable.Range(0, 10).Select(i => Row("p" + i, 0.03 * i, 0.03 * i))], new MeasureOptions(), "test");
        BenchDocument worse = BenchDocument.Of([.. Enumerable.Range(0, 10).Select(i => Row("p" + i, 0.03 * i, (0.03 * i) + 0.05))], new MeasureOptions(), "test");
        string table = new Ablation(whole, [(MeasuringPart.All[0], worse), (MeasuringPart.All[3], whole)]).Table();
        Assert.Contains("| with everything |", table, StringComparison.Ordinal);
        Assert.Contains(MeasuringPart.All[0].Words, table, StringComparison.Ordinal);
        Assert.Contains("5.00\\*", table, StringComparison.Ordinal);
        Assert.Contains($"{MeasuringPart.All[3].Words} | - | - | - | 1.000 | 0.00 |", table, StringComparison.Ordinal);
    }

    private static PhotoRow Row(string name, double truth, double? measured) => new()
    {
        Key = "s/" + name,
        Set = "s",
        Kind = TruthKind.Full,
        Refused = measured is null ? "No leaf was found." : null,
        Shares = new Dictionary<string, SharePair> { ["damage"] = new(truth, measured) },
    };
}
