using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>A candidate's disc against the ring of tissue about it.</summary>
/// <param name="response">The colour way's response.</param>
/// <param name="patch">The leaf.</param>
/// <param name="codes">Mask codes from the network.</param>
internal sealed class DiscAndRing(ColourResponse response, LeafPatch patch, Mat codes)
{
    // With fewer ring pixels free of other specks the whole ring is taken.
    private const int EnoughFree = 10;

    // Nine pixels.
    private const double MiddleSquare = 2;

    // IEC 61966-2-1.
    private static readonly float[] Linear = [.. Enumerable.Range(0, 256).Select(i => i / 255.0)
        .Select(v => (float)(v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4)))];

    private readonly PixelRows<byte> _mask = new(patch.Mask);
    private readonly PixelRows<Vec3b> _bgr = new(patch.Bgr);
    private readonly PixelRows<byte> _codes = new(codes);
    private readonly PixelRows<Vec3f> _lab = new(response.Lab);
    private readonly PixelRows<float> _strength = new(response.Strength);

    /// <summary>Fills in the contrasts, the ring's spread and the network's means over disc and ring.</summary>
    public void Read(SpeckCandidate c, TissueScores scores)
    {
        double radius = Math.Clamp(c.Mark.DiameterPx / 2, 1, 20);
        double inner = (radius * 1.25) + 1;
        double outer = (radius * 2) + 3;
        int reach = (int)Math.Ceiling(outer);
        (int x0, int x1) = (Math.Max(0, (int)c.Mark.X - reach), Math.Min(_mask.Cols - 1, (int)c.Mark.X + reach + 1));
        (int y0, int y1) = (Math.Max(0, (int)c.Mark.Y - reach), Math.Min(_mask.Rows - 1, (int)c.Mark.Y + reach + 1));
        ReadOnlySpan<float> speck = scores.Plane(TissueScores.Speck), sound = scores.Plane(TissueScores.Sound);
        Sum disc = default, middle = default, ring = default, free = default;
        int coded = 0;
        for (int y = y0; y <= y1; y++)
        {
            ReadOnlySpan<byte> inside = _mask[y];
            ReadOnlySpan<byte> code = _codes[y];
            ReadOnlySpan<Vec3f> lab = _lab[y];
            ReadOnlySpan<Vec3b> colour = _bgr[y];
            ReadOnlySpan<float> strength = _strength[y];
            double dy = y - c.Mark.Y;
            int row = scores.At(0, y);
            for (int x = x0; x <= x1; x++)
            {
                double dx = x - c.Mark.X;
                double square = (dx * dx) + (dy * dy);
                if (inside[x] == 0 || square > outer * outer || (square > radius * radius && square < inner * inner))
                {
                    continue;
                }

                float lead = speck[row + x] - sound[row + x];
                if (square <= radius * radius)
                {
                    disc.Add(lab[x], colour[x], strength[x], lead);
                    if (square <= MiddleSquare)
                    {
                        middle.Add(lab[x], colour[x], strength[x], lead);
                    }

                    coded += code[x] == (byte)MaskCode.Speck ? 1 : 0;
                }
                else
                {
                    ring.Add(lab[x], colour[x], strength[x], lead);
                    if (code[x] != (byte)MaskCode.Speck)
                    {
                        free.Add(lab[x], colour[x], strength[x], lead);
                    }
                }
            }
        }

        Sum around = free.Count >= EnoughFree ? free : ring;
        if (disc.Count == 0 || around.Count == 0)
        {
            return;
        }

        (double n, double m) = (disc.Count, around.Count);
        double light = (disc.L / n) - (around.L / m);
        double spread = Math.Sqrt(Math.Max(0, (around.LL / m) - (around.L / m * (around.L / m))));
        c[SpeckFeature.LightnessContrast] = (float)light;
        c[SpeckFeature.RedContrast] = (float)((disc.A / n) - (around.A / m));
        c[SpeckFeature.YellowContrast] = (float)((disc.B / n) - (around.B / m));
        c[SpeckFeature.StrengthContrast] = (float)((disc.S / n) - (around.S / m));
        c[SpeckFeature.DiscLightness] = (float)(disc.L / n);
        c[SpeckFeature.DiscChroma] = (float)(Math.Sqrt((disc.A * disc.A) + (disc.B * disc.B)) / n);
        c[SpeckFeature.RingSpread] = (float)spread;
        c[SpeckFeature.LightnessToSpread] = (float)(light / Math.Max(0.5, spread));
        c[SpeckFeature.SpeckLeadDisc] = (float)(disc.Lead / n);
        c[SpeckFeature.SpeckLeadRing] = (float)(ring.Count == 0 ? 0 : ring.Lead / ring.Count);
        Colour(c, middle.Count == 0 ? disc : middle, disc, around);
        c[SpeckFeature.CodedShare] = (float)(coded / n);
    }

    // Light mixed over the leaf moves red, green and blue in the proportion of its own colour, however much there is of it.
    private static void Colour(SpeckCandidate c, Sum middle, Sum disc, Sum around)
    {
        (double n, double m, double k) = (disc.Count, around.Count, middle.Count);
        c[SpeckFeature.RedLight] = (float)((disc.Red / n) - (around.Red / m));
        (c[SpeckFeature.GreenToRed], c[SpeckFeature.BlueToRed]) = ToRed(disc, around);
        (c[SpeckFeature.CentreGreenToRed], c[SpeckFeature.CentreBlueToRed]) = ToRed(middle, around);
        c[SpeckFeature.CentreLightness] = (float)(middle.L / k);
        c[SpeckFeature.CentreChroma] = (float)(Math.Sqrt((middle.A * middle.A) + (middle.B * middle.B)) / k);
    }

    private static (float Green, float Blue) ToRed(Sum of, Sum around)
    {
        (double n, double m) = (of.Count, around.Count);
        double red = Math.Max(0.004, (of.Red / n) - (around.Red / m));
        return ((float)Math.Clamp(((of.Green / n) - (around.Green / m)) / red, -3, 3), (float)Math.Clamp(((of.Blue / n) - (around.Blue / m)) / red, -3, 3));
    }

    private struct Sum
    {
        public int Count;
        public double L;
        public double LL;
        public double A;
        public double B;
        public double Red;
        public double Green;
        public double Blue;
        public double S;
        public double Lead;

        public void Add(Vec3f lab, Vec3b colour, float strength, float lead)
        {
            Count++;
            L += lab.Item0;
            LL += lab.Item0 * lab.Item0;
            A += lab.Item1;
            B += lab.Item2;
            Red += Linear[colour.Item2];
            Green += Linear[colour.Item1];
            Blue += Linear[colour.Item0];
            S += strength;
            Lead += lead;
        }
    }
}
