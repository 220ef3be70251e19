namespace LeafScan.Leaves.FineTexture;

/// <summary>
/// What the fine texture of a small leaf says. Brightness misleads: glints on hairs in hard sun are brighter than specks.
/// Colour separates them: a speck has lost chlorophyll, so it is yellower and fuller in colour than the tissue about it, a
/// glint is nearer to neutral, the rim of a brown spot is redder and darker.
/// </summary>
internal sealed record TextureFeatures
{
    /// <summary>Mean over the blade of the fine rise of ln(R/G) where it is lighter and bluer light falls: pale marks of any shape.</summary>
    public required double PaleEnergy { get; init; }

    /// <summary>The part of <see cref="PaleEnergy"/> that lies in dots; ridges such as veins do not count.</summary>
    public required double DotEnergy { get; init; }

    /// <summary>
    /// Share of the blade that the pale marks cover if they were all alike, 0..1: squared mean over mean square. Glints are
    /// few and sharp, a stippled blade is strewn with marks.
    /// </summary>
    public required double PaleCover { get; init; }

    /// <summary>Correlation, -1..1, of chroma with yellowness of hue at the size of specks: up for bleaching, down for glints and brown.</summary>
    public required double YellowerIsFuller { get; init; }

    /// <summary>Correlation, -1..1, of ln(R/G) with lightness at the size of specks: down where red goes with dark, as in brown spots.</summary>
    public required double RedderIsLighter { get; init; }

    /// <summary>
    /// Median ln(R/G) of the blade. Stippling bronzes the blade as a whole; deep green with yellow between the veins does not.
    /// </summary>
    public required double RedToGreen { get; init; }

    /// <summary>
    /// ln of the spread of ln(R/G) in blotches (four to sixteen pixels) over that in specks (one to four). High for blotchy
    /// yellowing, which is smooth within.
    /// </summary>
    public required double Coarseness { get; init; }

    /// <summary>Share of the blade that is glints, 0..1: fine marks that are lighter and less coloured than what is about them.</summary>
    public required double GlintShare { get; init; }

    /// <summary>How well the texture fits many fine feeding marks, 0..1: every one of the signs must agree.</summary>
    public double StippleFit
        => Step(YellowerIsFuller, 0.25, 0.08) * Step(RedToGreen, -0.58, 0.04) * Step(RedderIsLighter, 0.42, 0.06)
            * Step(Math.Log(PaleCover + 1e-6), Math.Log(0.026), 0.15) * (1 - Step(Coarseness, 0.25, 0.06));

    /// <summary>How surely there are pale marks at all, 0..1, against plain sound texture.</summary>
    public double PaleMarks => Step(Math.Log(PaleEnergy + 1e-6), Math.Log(0.0011), 0.2);

    /// <summary>How well the texture fits small brown spots with pale rims, 0..1: marks whose red goes with dark and with dull colour.</summary>
    public double SpotFit => PaleMarks * (1 - Step(YellowerIsFuller, 0.1, 0.06)) * (1 - Step(RedderIsLighter, 0.5, 0.06));

    /// <summary>How well the texture fits yellow patches or green veins in a pale blade, 0..1: strong pale marks that fit neither specks nor spots.</summary>
    public double MottleFit
        => Step(Math.Log(PaleEnergy + 1e-6), Math.Log(0.003), 0.2) * (1 - StippleFit) * Step(YellowerIsFuller, 0.1, 0.06) * Step(RedderIsLighter, 0.3, 0.06);

    // A soft step (logistic curve): 0.5 at the middle. Middles and widths are set by hand on odd-numbered photos.
    private static double Step(double value, double middle, double width) => 1 / (1 + Math.Exp(-(value - middle) / width));
}
