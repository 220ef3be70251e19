namespace LeafScan.Leaves.WholePlant;

/// <summary>By how much two halves of a plant differ in harm, and how sure that is.</summary>
/// <param name="Left">Harm of the left half, share of its full outline, 0..1.</param>
/// <param name="Right">Harm of the right half.</param>
/// <param name="Error">Standard error of the difference.</param>
internal readonly record struct SideDifference(double Left, double Right, double Error)
{
    // One side of 90 %.
    private const double Sure = 1.645;

    // Less than this of the outline, or of what the worse side has, is of no use to anyone even where it is sure.
    private const double LeastDifference = 0.037;
    private const double LeastShareOfWorse = 0.5;

    /// <summary>left, right, or none where the difference is small or within its own error.</summary>
    public string Worst
    {
        get
        {
            double difference = Math.Abs(Left - Right);
            bool stands = difference >= LeastDifference && difference >= LeastShareOfWorse * Math.Max(Left, Right) && difference > Sure * Error;
            return !stands ? "none" : Left > Right ? "left" : "right";
        }
    }

    /// <summary>
    /// Compares the halves strip by strip, from the top to the ground: damage in one patch makes the strips unlike, and the
    /// difference of the halves as unsure as that.
    /// </summary>
    /// <param name="strips">Harm of both halves of each strip, and its full area; strips without area are left out.</param>
    public static SideDifference Of(IReadOnlyList<(double Left, double Right, double Area)> strips)
    {
        (double Left, double Right, double Area)[] some = [.. strips.Where(s => s.Area > 0)];
        double area = some.Sum(s => s.Area);
        if (some.Length < 2)
        {
            return new SideDifference(some.Sum(s => s.Left), some.Sum(s => s.Right), double.PositiveInfinity);
        }

        double left = some.Sum(s => s.Left * s.Area) / area;
        double right = some.Sum(s => s.Right * s.Area) / area;
        double squares = some.Sum(s => Math.Pow(s.Area * (s.Left - s.Right - left + right), 2));
        return new SideDifference(left, right, Math.Sqrt(squares * some.Length / (some.Length - 1.0)) / area);
    }
}
