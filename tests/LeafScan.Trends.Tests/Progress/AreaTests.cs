using LeafScan.Trends.Progress;

namespace LeafScan.Trends.Tests.Progress;

public sealed class AreaTests
{
    // Documentation of the package agricolae: AUDPS 1470 and 0.7 (seen), AUDPC 1015 and 0.725 (from memory); Simko and
    // Piepho 2012, Phytopathology 102:381-389.
    [Fact]
    public void Areas_of_agricolaes_example()
    {
        double[] days = [14, 21, 28];
        double[] severity = [40, 80, 90];

        Assert.Equal(1015, AreaUnderCurve.Of(days, severity)!.Value, 1e-9);
        Assert.Equal(0.725, AreaUnderCurve.Relative(days, severity, 100)!.Value, 1e-9);
        Assert.Equal(1470, AreaUnderCurve.Stairs(days, severity)!.Value, 1e-9);
        Assert.Equal(0.7, AreaUnderCurve.StairsRelative(days, severity, 100)!.Value, 1e-9);
    }

    // American Phytopathological Society, education centre, exercise in R (data seen, result computed).
    [Fact]
    public void Uneven_days()
    {
        double[] days = [0, 2, 5, 6];
        double[] severity = [1, 2, 7, 7.5];

        Assert.Equal([0, 3, 16.5, 23.75], AreaUnderCurve.Running(days, severity));
        Assert.Equal(23.75, AreaUnderCurve.Of(days, severity)!.Value, 1e-12);
        Assert.Equal(0.039583333, AreaUnderCurve.Relative(days, severity, 100)!.Value, 1e-8);
    }

    // Trapezoid rule; numbers ours.
    [Fact]
    public void Mite_days()
    {
        DateOnly first = new(2026, 7, 1);
        DateOnly[] days = [first, first.AddDays(7), first.AddDays(14), first.AddDays(21)];

        Assert.Equal(108.5, MiteDays.Of(days, [1, 4, 10, 2])!.Value, 1e-9);
        Assert.Equal([0, 17.5, 66.5, 108.5], MiteDays.Running(days, [1, 4, 10, 2]));
    }

    [Fact]
    public void One_visit_says_nothing_and_days_that_do_not_rise_are_refused()
    {
        Assert.Null(AreaUnderCurve.Of([1], [5]));
        Assert.Null(AreaUnderCurve.Relative([1], [5], 100));
        Assert.Null(AreaUnderCurve.StairsRelative([], [], 100));
        Assert.Throws<ArgumentException>(() => AreaUnderCurve.Of([1, 1], [5, 6]));
    }
}
