using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.LookAlikes;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>
/// One blade, lit and damaged, flat on its sheet at <see cref="Finer"/> times the photo's resolution. Owns its pictures.
/// </summary>
internal sealed class Blade : IDisposable
{
    /// <summary>Sheet pixels per photo pixel along each axis.</summary>
    public const int Finer = 2;

    private Blade(BladeShape shape, Mat light, Mat whole, BladeDamage damage)
    {
        Shape = shape;
        Light = light;
        Whole = whole;
        Damage = damage;
        Present = new Mat();
        using Mat left = new();
        Cv2.BitwiseNot(damage.Missing, left);
        Cv2.BitwiseAnd(whole, left, Present);
    }

    public BladeShape Shape { get; }

    /// <summary>Light that reaches the lens, float B, G, R.</summary>
    public Mat Light { get; }

    /// <summary>255 inside the outline before chewing.</summary>
    public Mat Whole { get; }

    /// <summary>255 where leaf is left.</summary>
    public Mat Present { get; }

    public BladeDamage Damage { get; }

    public static Blade Grow(LeafSpec spec, Lighting light)
    {
        Host host = Hosts.ByName(spec.Host) ?? throw new ArgumentException($"There is no host \"{spec.Host}\".", nameof(spec));
        Random root = Chance.FromSeed(spec.Seed);
        Random outline = root.Split();
        Random vein = root.Split();
        Random surface = root.Split();
        Random tissue = root.Split();
        Random shine = root.Split();
        BladeShape shape = new(host, spec.LengthPx * Finer, spec.PixelsPerMm * Finer, outline);
        Mat whole = shape.Draw();
        using Venation veins = Venation.Grow(shape, host, vein);
        BladeDamage damage = DamagePainter.Paint(shape, veins, whole, spec.Damage);
        using BladeMarks? marks = spec.LookAlikes is { } alike ? BladeMarks.Paint(shape, whole, damage, alike) : null;
        using BladeRelief relief = BladeRelief.Build(shape, veins, whole, host, spec, surface);
        Mat colour = BladeColour.Paint(shape, veins, damage, host, spec, tissue);
        if (marks is not null)
        {
            MarkColour.Over(colour, marks, damage, spec, tissue);
        }

        BladeLight.Shine(colour, relief, shape, damage, host, spec, light, shine);
        if (marks is not null)
        {
            DropLight.Lay(colour, marks.Drops, spec, light);
        }

        Blade blade = new(shape, colour, whole, damage);
        blade.DryCutEdges();
        return blade;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Light.Dispose();
        Whole.Dispose();
        Present.Dispose();
        Damage.Dispose();
    }

    // Leaf dries out in a line of a fifth of a millimetre along a bite. Too thin to count as browned.
    private void DryCutEdges()
    {
        if (Cv2.CountNonZero(Damage.Missing) == 0)
        {
            return;
        }

        using Mat from = new();
        using Mat left = new();
        Cv2.BitwiseNot(Damage.Missing, left);
        Cv2.DistanceTransform(left, from, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        float reach = (float)Math.Max(1, 0.22 * Shape.PixelsPerMm);
        int rows = from.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(from, y);
            Span<float> c = Pixels.Floats(Light, y);
            for (int x = 0; x < row.Length; x++)
            {
                if (row[x] < 3 * reach)
                {
                    float dry = 0.75f * MathF.Exp(-row[x] / reach);
                    float grey = (c[3 * x] + c[(3 * x) + 1] + c[(3 * x) + 2]) / 3;
                    c[3 * x] += dry * ((0.45f * grey) - c[3 * x]);
                    c[(3 * x) + 1] += dry * ((0.85f * grey) - c[(3 * x) + 1]);
                    c[(3 * x) + 2] += dry * ((1.25f * grey) - c[(3 * x) + 2]);
                }
            }
        }
    }
}
