using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>A candidate's disc against the ring of tissue about it.</summary>
internal static class DiscAndRing
{
    // With fewer ring pixels free of other specks the whole ring is taken.
    private const int EnoughFree = 10;

    /// <summary>Fills in the contrasts, the ring's spread and the network's means over disc and ring.</summary>
    public static void Read(SpeckCandidate c, TissueScores scores, ColourResponse response, Mat mask, Mat codes)
    {
        double radius = Math.Clamp(c.Mark.DiameterPx / 2, 1, 20);
        double inner = (radius * 1.25) + 1;
        double outer = (radius * 2) + 3;
        int reach = (int)Math.Ceiling(outer);
        (int x0, int x1) = (Math.Max(0, (int)c.Mark.X - reach), Math.Min(mask.Cols - 1, (int)c.Mark.X + reach + 1));
        (int y0, int y1) = (Math.Max(0, (int)c.Mark.Y - reach), Math.Min(mask.Rows - 1, (int)c.Mark.Y + reach + 1));
        Sum disc = default, ring = default, free = default;
        int coded = 0;
        for (int y = y0; y <= y1; y++)
        {
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            ReadOnlySpan<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<Vec3f> lab = response.Lab.AsRow<Vec3f>(y);
            ReadOnlySpan<float> strength = response.Strength.AsRow<float>(y);
            double dy = y - c.Mark.Y;
            for (int x = x0; x <= x1; x++)
            {
                double dx = x - c.Mark.X;
                double square = (dx * dx) + (dy * dy);
                if (inside[x] == 0 || square > outer * outer || (square > radius * radius && square < inner * inner))
                {
                    continue;
                }

                float lead = scores.Lead(TissueScores.Speck, x, y);
                if (square <= radius * radius)
                {
                    disc.Add(lab[x], strength[x], lead);
                    coded += code[x] == (byte)MaskCode.Speck ? 1 : 0;
                }
                else
                {
                    ring.Add(lab[x], strength[x], lead);
                    if (code[x] != (byte)MaskCode.Speck)
                    {
                        free.Add(lab[x], strength[x], lead);
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
        c[SpeckFeature.CodedShare] = (float)(coded / n);
    }

    private struct Sum
    {
        public int Count;
        public double L;
        public double LL;
        public double A;
        public double B;
        public double S;
        public double Lead;

        public void Add(Vec3f lab, float strength, float lead)
        {
            Count++;
            L += lab.Item0;
            LL += lab.Item0 * lab.Item0;
            A += lab.Item1;
            B += lab.Item2;
            S += strength;
            Lead += lead;
        }
    }
}
