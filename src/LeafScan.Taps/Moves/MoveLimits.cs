namespace LeafScan.Taps.Moves;

/// <summary>What decides between still, crawling and too fast, in pixels of the first photo.</summary>
/// <param name="LeastPx">Ways shorter than this may be errors of lining up.</param>
/// <param name="MitePx">Farthest a plant-feeding mite walks between the photos; null when it must be judged by the speck's own size.</param>
/// <param name="PredatorPx">Farthest a predator walks; null likewise.</param>
/// <param name="MiteLengths">The same for a mite in lengths of its own body.</param>
/// <param name="PredatorLengths">The same for a predator.</param>
internal sealed record MoveLimits(double LeastPx, double? MitePx, double? PredatorPx, double MiteLengths, double PredatorLengths)
{
    /// <summary>Limits of a pair of photos.</summary>
    /// <param name="options">Speeds.</param>
    /// <param name="errorPx">Error of lining up.</param>
    /// <param name="seconds">Seconds between the photos.</param>
    /// <param name="pixelsPerMm">Scale, or null.</param>
    public static MoveLimits Of(TapOptions options, double errorPx, double seconds, double? pixelsPerMm)
    {
        double mite = options.MiteSpeedMmPerSecond * seconds;
        double predator = options.PredatorSpeedMmPerSecond * seconds;
        return new MoveLimits(
            Math.Max(1.2, 5 * errorPx), mite * pixelsPerMm, predator * pixelsPerMm, mite / options.UsualMiteMm, predator / options.UsualMiteMm);
    }

    /// <summary>Farthest walk of a mite as large as this.</summary>
    public double MiteReach(double diameterPx) => MitePx ?? (MiteLengths * Math.Max(3, diameterPx));

    /// <summary>Farthest walk of a predator as large as this.</summary>
    public double PredatorReach(double diameterPx) => PredatorPx ?? (PredatorLengths * Math.Max(3, diameterPx));
}
