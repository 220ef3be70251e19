using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>One dark thing on the paper of one photo, in pixels of that photo.</summary>
internal sealed record Spot
{
    /// <summary>Middle, weighted by shade.</summary>
    public required double X { get; init; }

    /// <summary>Middle, weighted by shade.</summary>
    public required double Y { get; init; }

    /// <summary>Its darkest pixel: of a bent thread, the middle may lie beside it.</summary>
    public required int PeakX { get; init; }

    /// <summary>Its darkest pixel.</summary>
    public required int PeakY { get; init; }

    /// <summary>Darkest smoothed shade, 0..1.</summary>
    public required double Peak { get; init; }

    /// <summary>Sum of shade over its pixels: what blur leaves alone.</summary>
    public required double Mass { get; init; }

    /// <summary>Spread along its long axis, pixels (standard deviation, smoothing included).</summary>
    public required double Long { get; init; }

    /// <summary>Spread across it.</summary>
    public required double Short { get; init; }

    /// <summary>
    /// How much longer than wide it is and which way, pixels squared: variance to the right less that downwards, and twice
    /// their covariance. What a shaken hand adds is the same for every speck of a photo.
    /// </summary>
    public required Point2d Stretch { get; init; }

    /// <summary>Area it is spread over as the photo shows it, a shaken hand's smear included: <see cref="Long"/> times <see cref="Short"/> there.</summary>
    public required double Spread { get; init; }

    /// <summary>Diameter of a disc as dark and as large, pixels.</summary>
    public double DiameterPx => 2 * Math.Sqrt(Mass / (Math.PI * Math.Max(0.02, Darkness)));

    /// <summary>Estimated shade of the thing itself before smoothing spread it.</summary>
    private double Darkness
    {
        get
        {
            // A Gaussian spot loses height by smoothing in both directions; never darker than black.
            double wide = Math.Max(0.25, (Long * Short) - (Paper.ShadeMap.Smoothing * Paper.ShadeMap.Smoothing));
            return Math.Min(0.9, Peak * Spread / wide);
        }
    }

    /// <summary>True for threads and bits too long or too large for a mite: never counted, good for lining up.</summary>
    public required bool Coarse { get; init; }

    /// <summary>Longer than any mite whatever its shape.</summary>
    public required bool Large { get; init; }

    /// <summary>True for what is too long or too large for a mite.</summary>
    /// <param name="along">Spread along its long axis.</param>
    /// <param name="across">Spread across it.</param>
    /// <param name="largestPx">Longest thing that may be a mite, pixels.</param>
    // A solid bar as long as the limit has a spread of its length over the root of twelve.
    public static bool IsCoarse(double along, double across, double largestPx) => along > (largestPx / Math.Sqrt(12)) + 1.5 || (along > 3 && along > 3.2 * across);

    /// <summary>The same spot as a steady hand would have shown it: its shape without the smear. Peak and mass stay.</summary>
    /// <param name="shake">The smear of the photo.</param>
    /// <param name="largestPx">Longest thing that may be a mite, pixels.</param>
    public Spot Steadied(Shake shake, double largestPx)
    {
        double smear = Math.Sqrt((shake.Stretch.X * shake.Stretch.X) + (shake.Stretch.Y * shake.Stretch.Y));
        Point2d own = Stretch - shake.Stretch;
        double off = Math.Sqrt((own.X * own.X) + (own.Y * own.Y)) / 2;

        // Of the smear's variance half goes to the mean of both directions.
        double mean = Math.Max(1, ((Long * Long) + (Short * Short) - smear) / 2);
        double along = Math.Sqrt(mean + off);
        double across = Math.Sqrt(Math.Max(0.5, mean - off));
        return this with { Long = along, Short = across, Coarse = Large || IsCoarse(along, across, largestPx) };
    }
}
