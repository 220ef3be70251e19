namespace LeafScan.Taps;

/// <summary>How two photos of a tap sheet are read. The defaults suit a phone over an A4 or letter sheet.</summary>
public sealed record TapOptions
{
    /// <summary>
    /// Seconds between one photo and the next; null, the default, takes them from the cameras' clock. More than 0, at most 600.
    /// </summary>
    public double? SecondsBetween { get; init; }

    /// <summary>
    /// Seconds taken when nothing says them; 10 by default. Common practice, no source.
    /// </summary>
    public double SecondsAssumed { get; init; } = 10;

    /// <summary>
    /// Fastest walk of a plant-feeding mite, mm a second; 0.9 by default. Common practice, no source: no published speed was
    /// found, only that predators are faster (UC IPM on Phytoseiulus persimilis).
    /// </summary>
    public double MiteSpeedMmPerSecond { get; init; } = 0.9;

    /// <summary>Fastest walk of a predatory mite, mm a second; 4 by default. Common practice, no source.</summary>
    public double PredatorSpeedMmPerSecond { get; init; } = 4;

    /// <summary>
    /// Length of a usual mite in mm; 0.4 by default (adult twospotted mites are 0.25 to 0.5 mm long: PNW, Penn State,
    /// NC State AG-189). Without a scale, distances are taken in such lengths.
    /// </summary>
    public double UsualMiteMm { get; init; } = 0.4;

    /// <summary>Smallest mite that should be seen, mm; 0.2 by default (most plant mites are 0.15 to 0.3 mm long, larvae 0.2: Clemson, PNW).</summary>
    public double SmallestMiteMm { get; init; } = 0.2;

    /// <summary>Largest thing that may count as a mite, mm; 0.8 by default: a body of 0.5 mm, and legs.</summary>
    public double LargestMiteMm { get; init; } = 0.8;

    /// <summary>Fewest pixels for the smallest mite before the reading warns; 3 by default. Common practice, no source.</summary>
    public double PixelsPerMiteMin { get; init; } = 3;

    /// <summary>How far a speck must stand out of the paper's noise to be a speck, in standard deviations; 5 by default.</summary>
    public double SpeckNoise { get; init; } = 5;

    /// <summary>The same for a speck that is called crawling; 8 by default. Weaker ones flicker, as pieces of thin threads do.</summary>
    public double CrawlerNoise { get; init; } = 8;

    /// <summary>Least shade of a speck against its paper, 0..1; 0.035 by default.</summary>
    public double ShadeMin { get; init; } = 0.035;

    /// <summary>Least shade of a speck that is called crawling, 0..1; 0.045 by default.</summary>
    public double CrawlerShadeMin { get; init; } = 0.045;

    /// <summary>Least shade of a crawling speck on paper of this noise.</summary>
    internal double CrawlerShade(double noise) => Math.Max(CrawlerShadeMin, CrawlerNoise * noise);

    /// <summary>
    /// Where the sheet lies in each photo, in their order, when its printed marks were read; empty, the default, when they
    /// were not: the specks themselves line the photos up then, and there is no millimetre.
    /// </summary>
    public IReadOnlyList<SheetPlace> Sheets { get; init; } = [];
}
