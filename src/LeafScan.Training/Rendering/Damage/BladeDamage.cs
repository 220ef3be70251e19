using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>
/// All damage of one blade as pictures of the size of its sheet: how strongly to colour (float, 0..1) and which pixels the
/// truth counts (8-bit, 255). Owns them.
/// </summary>
internal sealed class BladeDamage : IDisposable
{
    public BladeDamage(Size size)
    {
        Missing = Pixels.NewMask(size);
        Bleach = Pixels.NewFloat(size);
        SpeckMask = Pixels.NewMask(size);
        Yellow = Pixels.NewFloat(size);
        YellowMask = Pixels.NewMask(size);
        Brown = Pixels.NewFloat(size);
        BrownRim = Pixels.NewFloat(size);
        BrownMask = Pixels.NewMask(size);
        Dust = Pixels.NewFloat(size);
        Glint = Pixels.NewFloat(size);
    }

    /// <summary>255 where leaf was eaten.</summary>
    public Mat Missing { get; }

    /// <summary>How far tissue is bleached by feeding.</summary>
    public Mat Bleach { get; }

    /// <summary>255 inside a speck's half-height contour.</summary>
    public Mat SpeckMask { get; }

    /// <summary>How far tissue is diffusely yellow.</summary>
    public Mat Yellow { get; }

    /// <summary>255 where yellowing has at least half of its depth.</summary>
    public Mat YellowMask { get; }

    /// <summary>How far tissue is dead and brown.</summary>
    public Mat Brown { get; }

    /// <summary>How dark the rim of dead tissue is.</summary>
    public Mat BrownRim { get; }

    /// <summary>255 inside the half-height contour of dead tissue.</summary>
    public Mat BrownMask { get; }

    /// <summary>Cover of dust.</summary>
    public Mat Dust { get; }

    /// <summary>Strength of neutral glints, times the light.</summary>
    public Mat Glint { get; }

    /// <summary>The drawn specks, in sheet pixels.</summary>
    public List<Speck> Specks { get; } = [];

    /// <inheritdoc />
    public void Dispose()
    {
        foreach (Mat picture in (Mat[])[Missing, Bleach, SpeckMask, Yellow, YellowMask, Brown, BrownRim, BrownMask, Dust, Glint])
        {
            picture.Dispose();
        }
    }
}
