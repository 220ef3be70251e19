using System.Diagnostics;
using LeafScan.Leaves;
using LeafScan.Leaves.Learned;
using LeafScan.Photos;

namespace LeafScan.Training.BlockBench;

/// <summary>What the reading of the same leaf costs at several sizes, and how near that comes to a straight line.</summary>
/// <param name="Points">Megapixels with median seconds of a reading.</param>
/// <param name="FixedSeconds">Seconds of the line at no pixels.</param>
/// <param name="SecondsPerMegapixel">Seconds more for each megapixel.</param>
/// <param name="RSquared">Share of the variance that the line tells, 0..1.</param>
/// <param name="LargestMiss">Largest distance of a point from the line, as a share of the point.</param>
internal sealed record SizeCost(IReadOnlyList<SizePoint> Points, double FixedSeconds, double SecondsPerMegapixel, double RSquared, double LargestMiss)
{
    /// <summary>Reads the photos in turn, round after round.</summary>
    /// <param name="paths">The same leaf at several sizes.</param>
    /// <param name="rounds">Rounds that count; one before them warms up.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static SizeCost Of(IReadOnlyList<string> paths, int rounds, CancellationToken cancel)
    {
        LearnedModels.ShareProcessors(1, Environment.ProcessorCount);
        List<(double Wall, double Work)>[] times = [.. paths.Select(_ => new List<(double, double)>())];
        double[] megapixels = new double[paths.Count];
        for (int round = 0; round <= rounds; round++)
        {
            for (int i = 0; i < paths.Count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                GC.Collect();
                TimeSpan work = Environment.CpuUsage.TotalTime;
                long start = Stopwatch.GetTimestamp();
                megapixels[i] = Read(paths[i]);
                if (round > 0)
                {
                    times[i].Add((Stopwatch.GetElapsedTime(start).TotalSeconds, (Environment.CpuUsage.TotalTime - work).TotalSeconds));
                }
            }
        }

        SizePoint[] points = [.. times.Select((all, i) => new SizePoint(megapixels[i], Median(all.Select(one => one.Wall)), Median(all.Select(one => one.Work))))];
        return Fit(points);
    }

    /// <summary>The straight line of least squares through processor seconds: what a busy machine changes least.</summary>
    public static SizeCost Fit(IReadOnlyList<SizePoint> points)
    {
        double x = points.Average(point => point.Megapixels), y = points.Average(point => point.ProcessorSeconds);
        double slope = points.Sum(point => (point.Megapixels - x) * (point.ProcessorSeconds - y)) / points.Sum(point => (point.Megapixels - x) * (point.Megapixels - x));
        double at0 = y - (slope * x);
        double left = points.Sum(point => Math.Pow(point.ProcessorSeconds - at0 - (slope * point.Megapixels), 2));
        double all = points.Sum(point => Math.Pow(point.ProcessorSeconds - y, 2));
        return new SizeCost(points, at0, slope, all == 0 ? 1 : 1 - (left / all), points.Max(point => Math.Abs(point.ProcessorSeconds - at0 - (slope * point.Megapixels)) / point.ProcessorSeconds));
    }

    private static double Read(string path)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        using LeafMeasurement measured = LeafMeter.Measure(outcome.Photo!, new MeasureOptions());
        return measured.Reading is not null ? outcome.Photo!.Facts.WidthPx * (double)outcome.Photo.Facts.HeightPx / 1e6
            : throw new InvalidOperationException($"{path} was refused, so its time means nothing: {measured.Refusal!.Reason}");
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}

/// <summary>One size.</summary>
/// <param name="Megapixels">Megapixels (10^6 pixels).</param>
/// <param name="Seconds">Median seconds on the clock.</param>
/// <param name="ProcessorSeconds">Median seconds of all processors together.</param>
internal sealed record SizePoint(double Megapixels, double Seconds, double ProcessorSeconds);
