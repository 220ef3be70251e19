using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Overlay;

/// <summary>
/// Look of one kind of tissue: a colour and a pattern. The pattern alone tells the kinds apart when the picture is
/// printed in grey or seen by somebody who does not see the colour (WCAG 2.2, 1.4.1).
/// </summary>
/// <param name="Code">Kind of tissue.</param>
/// <param name="Word">The word in the legend.</param>
/// <param name="Colour">From the palette of M. Okabe and K. Ito, "Color Universal Design" (2008).</param>
/// <param name="Pattern">Lines that are drawn over the tissue.</param>
/// <param name="Tint">How much of the colour lies between the lines, 0..1.</param>
internal sealed record OverlayStyle(MaskCode Code, string Word, Scalar Colour, HatchPattern Pattern, double Tint)
{
    /// <summary>All kinds that are drawn, in the order of the legend. Sound tissue stays as it was photographed.</summary>
    public static IReadOnlyList<OverlayStyle> All { get; } =
    [
        new(MaskCode.Speck, "stippled", Bgr(86, 180, 233), HatchPattern.Ring, 0.30),
        new(MaskCode.Yellowed, "yellowed", Bgr(240, 228, 66), HatchPattern.Rising, 0.20),
        new(MaskCode.Browned, "browned", Bgr(213, 94, 0), HatchPattern.Crossed, 0.25),
        new(MaskCode.Chewed, "chewed away", Bgr(204, 121, 167), HatchPattern.Level, 0.45),
        new(MaskCode.Unassessed, "not judged", Bgr(220, 220, 220), HatchPattern.Dotted, 0.25),
    ];

    private static Scalar Bgr(int red, int green, int blue) => new(blue, green, red);
}

/// <summary>Patterns that stay apart in grey print.</summary>
internal enum HatchPattern
{
    /// <summary>A ring around each patch; nothing inside.</summary>
    Ring,

    /// <summary>Lines rising to the right.</summary>
    Rising,

    /// <summary>Lines both ways.</summary>
    Crossed,

    /// <summary>Level lines.</summary>
    Level,

    /// <summary>A grid of dots.</summary>
    Dotted,
}
