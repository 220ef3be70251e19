using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>Specks as peaks of the network's centre map: highest of their 3 x 3 neighbours, placed between pixels by a parabola.</summary>
internal static class SpeckPeaks
{
    private const int StripRows = 128;

    /// <summary>Peaks inside the mask, as specks in patch pixels.</summary>
    /// <param name="scores">The network's answer.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="least">Smallest score of a peak.</param>
    public static List<SpeckMark> Find(TissueScores scores, Mat mask, double least)
    {
        int top = scores.Part.Top + 1, bottom = scores.Part.Bottom - 1;
        List<SpeckMark>[] strips = new List<SpeckMark>[Math.Max(0, (bottom - top + StripRows - 1) / StripRows)];
        Bands.Each(strips.Length, strip => strips[strip] = Find(scores, mask, least, top + (strip * StripRows), Math.Min(bottom, top + ((strip + 1) * StripRows))));
        return [.. strips.SelectMany(found => found)];
    }

    private static List<SpeckMark> Find(TissueScores scores, Mat mask, double least, int top, int bottom)
    {
        List<SpeckMark> specks = [];
        ReadOnlySpan<float> centre = scores.Centres, diameter = scores.Diameters;
        int width = scores.Size.Width;
        for (int y = top; y < bottom; y++)
        {
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            for (int x = scores.Part.Left + 1; x < scores.Part.Right - 1; x++)
            {
                int at = scores.At(x, y);
                float value = centre[at];
                if (value < least || inside[x] == 0 || !IsPeak(centre, at, width, value))
                {
                    continue;
                }

                double dx = Offset(centre[at - 1], value, centre[at + 1]);
                double dy = Offset(centre[at - width], value, centre[at + width]);
                specks.Add(new SpeckMark(x + dx, y + dy, Math.Max(1.0, diameter[at])));
            }
        }

        return specks;
    }

    private static bool IsPeak(ReadOnlySpan<float> map, int at, int width, float value)
        => value > map[at - 1] && value >= map[at + 1]
            && value > map[at - width] && value >= map[at + width]
            && value > map[at - width - 1] && value > map[at - width + 1]
            && value >= map[at + width - 1] && value >= map[at + width + 1];

    private static double Offset(float before, float here, float after)
    {
        double bend = before - (2 * here) + after;
        return bend < -1e-6 ? Math.Clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0;
    }
}
