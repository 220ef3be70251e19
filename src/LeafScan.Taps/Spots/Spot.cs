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

    /// <summary>Diameter of a disc as dark and as large, pixels.</summary>
    public double DiameterPx => 2 * Math.Sqrt(Mass / (Math.PI * Math.Max(0.02, Darkness)));

    /// <summary>Estimated shade of the thing itself before smoothing spread it.</summary>
    private double Darkness
    {
        get
        {
            // A Gaussian spot loses height by smoothing in both directions; never darker than black.
            double wide = Math.Max(0.25, (Long * Short) - (Paper.ShadeMap.Smoothing * Paper.ShadeMap.Smoothing));
            return Math.Min(0.9, Peak * (Long * Short) / wide);
        }
    }

    /// <summary>True for threads and bits too long or too large for a mite: never counted, good for lining up.</summary>
    public required bool Coarse { get; init; }
}
