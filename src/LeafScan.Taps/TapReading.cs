namespace LeafScan.Taps;

/// <summary>What two or more photos of a tap sheet say. With one photo there are candidates and no count.</summary>
public sealed record TapReading
{
    /// <summary>
    /// Which of the photos handed in is the first that was read, from 0: places are in its pixels. Not 0 only when the first
    /// of several photos was left out.
    /// </summary>
    public int FirstPhoto { get; init; }

    /// <summary>Specks that crawled as mites do; null with one photo.</summary>
    public int? Crawling { get; init; }

    /// <summary>Lower end of the 90 % interval of <see cref="Crawling"/>.</summary>
    public int? CrawlingLow { get; init; }

    /// <summary>Upper end of the 90 % interval of <see cref="Crawling"/>.</summary>
    public int? CrawlingHigh { get; init; }

    /// <summary>Specks that lay still or were blown; null with one photo.</summary>
    public int? Debris { get; init; }

    /// <summary>Specks that moved faster than a plant-feeding mite walks; null with one photo.</summary>
    public int? PossiblePredators { get; init; }

    /// <summary>Mite-like specks that came or went without a partner: walkers that were lost may be among them; null with one photo.</summary>
    public int? SeenOnce { get; init; }

    /// <summary>Specks of the first photo that may be mites by size and shape; dust among them.</summary>
    public int Candidates { get; init; }

    /// <summary>Typical error (root mean square) of lining the photos up, in pixels of the first photo; null with one photo.</summary>
    public double? AlignmentErrorPx { get; init; }

    /// <summary>
    /// Homography from pixels of each photo to the next, for what did not move: nine numbers a pair, row by row; empty
    /// with one photo.
    /// </summary>
    public IReadOnlyList<IReadOnlyList<double>> Alignments { get; init; } = [];

    /// <summary>Pixels per mm in the middle of the first photo; null without a scale.</summary>
    public double? PixelsPerMm { get; init; }

    /// <summary>Seconds between the first photo and the second; null when nothing says them.</summary>
    public double? Seconds { get; init; }

    /// <summary>Diameter of the smallest dark thing that stands out of blur and noise, in pixels.</summary>
    public double SmallestVisiblePx { get; init; }

    /// <summary>The same in mm; null without a scale.</summary>
    public double? SmallestVisibleMm { get; init; }

    /// <summary>Share of the photo that is sheet and could be judged in every photo, 0..1.</summary>
    public double JudgedShare { get; init; }

    /// <summary>Names from <see cref="Photos.Flag"/>.</summary>
    public IReadOnlyList<string> Flags { get; init; } = [];

    /// <summary>Every speck.</summary>
    public IReadOnlyList<TapSpeck> Specks { get; init; } = [];
}

/// <summary>Why photos of a sheet could not be read together.</summary>
/// <param name="Reason">What happened, one sentence.</param>
/// <param name="Advice">What to do next, one sentence.</param>
public sealed record TapRefusal(string Reason, string Advice);

/// <summary>One of several photos that was not used while the others were.</summary>
/// <param name="Number">Which of the photos handed in, from 0.</param>
/// <param name="Why">What is wrong with it and what to do.</param>
public sealed record TapLeftOut(int Number, TapRefusal Why);

/// <summary>What reading gave: exactly one of the two.</summary>
/// <param name="Reading">The reading, or null.</param>
/// <param name="Refusal">Why not, or null.</param>
public sealed record TapOutcome(TapReading? Reading, TapRefusal? Refusal)
{
    /// <summary>Photos of a burst that were left out, in their order; empty when all were used or none.</summary>
    public IReadOnlyList<TapLeftOut> LeftOut { get; init; } = [];

    internal static TapOutcome Refused(string reason, string advice) => new(null, new TapRefusal(reason, advice));
}
