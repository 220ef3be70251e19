namespace LeafScan.Frame.Sheets;

/// <summary>A paper size, upright.</summary>
/// <param name="Name">Lower-case name as typed on the command line.</param>
/// <param name="WidthMm">Short side in mm.</param>
/// <param name="HeightMm">Long side in mm.</param>
public sealed record PaperSize(string Name, double WidthMm, double HeightMm)
{
    /// <summary>ISO 216 A4.</summary>
    public static readonly PaperSize A4 = new("a4", 210, 297);

    /// <summary>US Letter, 8.5 by 11 inches.</summary>
    public static readonly PaperSize Letter = new("letter", 215.9, 279.4);

    /// <summary>The sizes that can be printed.</summary>
    public static IReadOnlyList<PaperSize> All { get; } = [A4, Letter];
}
