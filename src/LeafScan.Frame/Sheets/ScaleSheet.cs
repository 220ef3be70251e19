namespace LeafScan.Frame.Sheets;

/// <summary>
/// The printed sheet that scouts lay leaves on or tap branches over: where everything on it lies, in millimetres.
/// The one description that the printing and the reading of a sheet share.
/// </summary>
/// <remarks>
/// The origin is the paper's upper left corner; x to the right, y down. Sizes are those of a sheet printed true to size;
/// what a printer made of them is <see cref="PrintedScale"/>.
/// </remarks>
public sealed record ScaleSheet
{
    /// <summary>Side of a corner marker in mm, its black border included: at 12 megapixels some 300 pixels, at arm's length still 40.</summary>
    public const double MarkerSideMm = 24;

    /// <summary>From the paper's edge to a marker: more than any common printer leaves blank, and white enough around it to be found.</summary>
    public const double MarkerEdgeMm = 9;

    /// <summary>Length of the bar by which the printed size is checked, in mm.</summary>
    public const double RulerMm = 100;

    private const double StripMm = MarkerEdgeMm + MarkerSideMm + 5;
    private const double StepSideMm = 16;

    private ScaleSheet(PaperSize paper, SheetSide side)
    {
        Paper = paper;
        Side = side;
        double right = paper.WidthMm - MarkerEdgeMm - MarkerSideMm;
        double bottom = paper.HeightMm - MarkerEdgeMm - MarkerSideMm;
        int first = FirstId(paper, side);
        Markers =
        [
            new(first, new(MarkerEdgeMm, MarkerEdgeMm, MarkerSideMm, MarkerSideMm)),
            new(first + 1, new(right, MarkerEdgeMm, MarkerSideMm, MarkerSideMm)),
            new(first + 2, new(right, bottom, MarkerSideMm, MarkerSideMm)),
            new(first + 3, new(MarkerEdgeMm, bottom, MarkerSideMm, MarkerSideMm)),
        ];
        Field = new(MarkerEdgeMm, StripMm, paper.WidthMm - 2 * MarkerEdgeMm, paper.HeightMm - 2 * StripMm);
        RulerStartMm = new((paper.WidthMm - RulerMm) / 2, MarkerEdgeMm + 12);
        double stepTop = paper.HeightMm - MarkerEdgeMm - MarkerSideMm + 4;
        double stepLeft = paper.WidthMm / 2 - 3 * StepSideMm;
        GreySteps = side == SheetSide.Leaf
            ? [.. Lightness.Select((lightness, i) => new GreyStep(new(stepLeft + i * StepSideMm, stepTop, StepSideMm, StepSideMm), lightness))]
            : [];
    }

    /// <summary>CIE L* of the grey steps from dark to light; the last one is the bare paper.</summary>
    private static IReadOnlyList<double?> Lightness { get; } = [20, 35, 50, 65, 80, null];

    /// <summary>The paper.</summary>
    public PaperSize Paper { get; }

    /// <summary>Which of the two printed sides.</summary>
    public SheetSide Side { get; }

    /// <summary>The four corner markers: upper left, upper right, lower right, lower left.</summary>
    public IReadOnlyList<SheetMarker> Markers { get; }

    /// <summary>Where leaves are laid or mites fall.</summary>
    public SheetArea Field { get; }

    /// <summary>Left end of the horizontal ruler of <see cref="RulerMm"/>.</summary>
    public SheetPoint RulerStartMm { get; }

    /// <summary>The neutral steps, dark to light; none on the tap side, where every mark could hide a mite.</summary>
    public IReadOnlyList<GreyStep> GreySteps { get; }

    /// <summary>Every sheet there is.</summary>
    public static IReadOnlyList<ScaleSheet> All { get; } =
        [.. PaperSize.All.SelectMany(paper => Enum.GetValues<SheetSide>().Select(side => new ScaleSheet(paper, side)))];

    /// <summary>The sheet of a paper and side.</summary>
    public static ScaleSheet Of(PaperSize paper, SheetSide side) => All.Single(sheet => sheet.Paper == paper && sheet.Side == side);

    /// <summary>The sheet a marker belongs to, or null for a marker that is not ours.</summary>
    /// <param name="id">Number of the marker in the dictionary of <see cref="SheetMarker"/>.</param>
    public static ScaleSheet? OfMarker(int id) => All.FirstOrDefault(sheet => sheet.Markers.Any(marker => marker.Id == id));

    private static int FirstId(PaperSize paper, SheetSide side) =>
        4 * (Enum.GetValues<SheetSide>().Length * PaperSize.All.ToList().IndexOf(paper) + (int)side);
}
