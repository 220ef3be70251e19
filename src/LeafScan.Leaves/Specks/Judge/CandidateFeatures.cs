using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>Reads the features of all candidates of a leaf: each one's own, its neighbours', then the leaf's.</summary>
/// <param name="patch">The leaf.</param>
/// <param name="colour">What colour sees on it.</param>
/// <param name="codes">Mask codes from the network.</param>
internal sealed class CandidateFeatures(LeafPatch patch, ColourFinding colour, Mat codes)
{
    // Farthest that a next candidate is told of, in diameters.
    private const double FarDiameters = 9;

    // Candidates that one processor takes at a time.
    private const int AtOnce = 128;

    private readonly ColourResponse _response = colour.Response;
    private readonly PixelRows<float> _signalToNoise = new(colour.Response.SignalToNoise);
    private readonly PixelRows<byte> _level = new(colour.Response.Level);
    private readonly PixelRows<float> _strength = new(colour.Response.Strength);
    private readonly PixelRows<Vec3f> _lab = new(colour.Response.Lab);

    /// <summary>Fills in the features.</summary>
    public void Read(List<SpeckCandidate> all, TissueScores scores)
    {
        PixelRows<float> deep = new(colour.ToMargin);
        DiscAndRing around = new(_response, patch, codes);
        double side = Math.Sqrt(Math.Max(1, patch.AreaPx));
        Bands.Each((all.Count + AtOnce - 1) / AtOnce, part => Own(all, part * AtOnce, Math.Min(all.Count, (part + 1) * AtOnce), scores, deep, around, side));
        Neighbours(all);
        LeafValues.Read(all, patch, colour.MeanLab, codes);
    }

    // Each one's own values: none hangs on another candidate's.
    private void Own(List<SpeckCandidate> all, int first, int end, TissueScores scores, PixelRows<float> deep, DiscAndRing around, double side)
    {
        for (int i = first; i < end; i++)
        {
            SpeckCandidate c = all[i];
            (int x, int y) = ((int)Math.Round(c.Mark.X), (int)Math.Round(c.Mark.Y));
            c[SpeckFeature.CentreScore] = (float)c.CentreScore;
            c[SpeckFeature.SpeckLead] = scores.Lead(TissueScores.Speck, x, y);
            c[SpeckFeature.YellowLead] = scores.Lead(TissueScores.Yellowed, x, y);
            c[SpeckFeature.BrownLead] = scores.Lead(TissueScores.Browned, x, y);
            c[SpeckFeature.BackgroundLead] = scores.Lead(TissueScores.Background, x, y);
            c[SpeckFeature.Diameter] = (float)c.Mark.DiameterPx;
            c[SpeckFeature.Source] = (c.ByNetwork ? 1 : 0) + (c.ByColour ? 2 : 0);
            c[SpeckFeature.ToMargin] = deep[y][x];
            c[SpeckFeature.ToMarginOfLeaf] = (float)(deep[y][x] / side);
            around.Read(c, scores);
            Answer(c, x, y);
            Fall(c, x, y);
        }
    }

    private void Answer(SpeckCandidate c, int x, int y)
    {
        float most = -1;
        int level = 0;
        (int lastY, int lastX) = (Math.Min(_level.Rows - 1, y + 1), Math.Min(_level.Cols - 1, x + 1));
        for (int j = Math.Max(0, y - 1); j <= lastY; j++)
        {
            ReadOnlySpan<float> ratio = _signalToNoise[j];
            for (int i = Math.Max(0, x - 1); i <= lastX; i++)
            {
                if (ratio[i] > most)
                {
                    (most, level) = (ratio[i], _level[j][i]);
                }
            }
        }

        c[SpeckFeature.SignalToNoise] = most;
        c[SpeckFeature.Amplitude] = _response.Amplitude(most, level);
        c[SpeckFeature.FilterDiameter] = (float)ColourResponse.DiameterPx(level);
        c[SpeckFeature.Strength] = _strength[y][x];
    }

    // A dot falls off on all sides, a vein along two only: three pixels across the middle against both ends of four lines.
    private void Fall(SpeckCandidate c, int x, int y)
    {
        double reach = Math.Clamp(c.Mark.DiameterPx * 0.85, 2, 16);
        ReadOnlySpan<(double X, double Y)> ways = [(1, 0), (0.7071, 0.7071), (0, 1), (-0.7071, 0.7071)];
        (float strength, float light) = Mean(x, y);
        (float least, float most, float leastLight, float mostLight) = (float.MaxValue, float.MinValue, float.MaxValue, float.MinValue);
        foreach ((double wx, double wy) in ways)
        {
            (float s1, float l1) = Mean((int)Math.Round(x + (wx * reach)), (int)Math.Round(y + (wy * reach)));
            (float s2, float l2) = Mean((int)Math.Round(x - (wx * reach)), (int)Math.Round(y - (wy * reach)));
            float fall = strength - ((s1 + s2) / 2);
            float fallLight = light - ((l1 + l2) / 2);
            (least, most) = (Math.Min(least, fall), Math.Max(most, fall));
            (leastLight, mostLight) = (Math.Min(leastLight, fallLight), Math.Max(mostLight, fallLight));
        }

        c[SpeckFeature.Roundness] = most > 1e-3f ? Math.Clamp(least / most, -1, 1) : -1;
        c[SpeckFeature.LightnessRoundness] = mostLight > 0.1f ? Math.Clamp(leastLight / mostLight, -1, 1) : -1;
        c[SpeckFeature.LeastFall] = leastLight;
    }

    // Mean of 3 x 3 pixels, kept inside the picture.
    private (float Strength, float Lightness) Mean(int x, int y)
    {
        x = Math.Clamp(x, 1, _level.Cols - 2);
        y = Math.Clamp(y, 1, _level.Rows - 2);
        float strength = 0, light = 0;
        for (int j = y - 1; j <= y + 1; j++)
        {
            ReadOnlySpan<float> s = _strength[j];
            ReadOnlySpan<Vec3f> l = _lab[j];
            for (int i = x - 1; i <= x + 1; i++)
            {
                strength += s[i];
                light += l[i].Item0;
            }
        }

        return (strength / 9, light / 9);
    }

    private static void Neighbours(List<SpeckCandidate> all)
    {
        CandidateGrid grid = new(all);
        foreach (SpeckCandidate c in all)
        {
            double next = double.MaxValue, stronger = double.MaxValue, sum = 0;
            int near = 0;
            foreach ((SpeckCandidate other, double square) in grid.Near(c.Mark.X, c.Mark.Y))
            {
                if (ReferenceEquals(other, c))
                {
                    continue;
                }

                next = Math.Min(next, square);
                if (other.CentreScore > c.CentreScore)
                {
                    stronger = Math.Min(stronger, square);
                }

                if (square <= CandidateGrid.CellPx * CandidateGrid.CellPx)
                {
                    near++;
                    sum += other.CentreScore;
                }
            }

            double diameter = Math.Max(1, c.Mark.DiameterPx);
            c[SpeckFeature.NextOverDiameter] = (float)Math.Min(FarDiameters, Math.Sqrt(next) / diameter);
            c[SpeckFeature.StrongerOverDiameter] = (float)Math.Min(FarDiameters, Math.Sqrt(stronger) / diameter);
            c[SpeckFeature.Neighbours] = near;
            c[SpeckFeature.NeighbourScore] = near == 0 ? 0 : (float)(sum / near);
        }
    }
}
