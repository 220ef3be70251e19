using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// What lies around a plant, by height: wall or sky above, lawn or mulch below. Brown leaves before a wall then stay leaves
/// though mulch of their colour lies further down. What is seen through the crown is the same in its gloom.
/// </summary>
internal sealed class NearBackdrop
{
    private const int Bands = 5;

    // Surroundings count less with their distance from the plant, roots of its area.
    private const double Fades = 0.5;

    // A band with fewer pixels says nothing.
    private const double LeastPixels = 50;

    // How much darker it may be inside the crown, ln units, and how often.
    private static readonly (float Darker, float Share)[] Gloom = [(0.35f, 0.35f), (0.8f, 0.25f), (1.4f, 0.15f)];

    private readonly (float[] Open, float[] Inside)?[] _bands = new (float[], float[])?[Bands];
    private readonly double _top;
    private readonly double _height;

    /// <summary>Counts colours.</summary>
    /// <param name="red">ln(R/G).</param>
    /// <param name="blue">ln(B/G).</param>
    /// <param name="level">Level.</param>
    /// <param name="away">Distance from the plant's outline, roots of its area; 0 inside.</param>
    /// <param name="from">Distance from which nothing of the plant is left.</param>
    /// <param name="rows">First and last row of the plant.</param>
    public NearBackdrop(Mat red, Mat blue, Mat level, Mat away, double from, (int Top, int Bottom) rows)
    {
        (_top, _height) = (rows.Top, Math.Max(1, rows.Bottom - rows.Top) / (double)Bands);
        ColourCounts[] open = [.. Enumerable.Range(0, Bands).Select(_ => new ColourCounts())];
        ColourCounts[] inside = [.. Enumerable.Range(0, Bands).Select(_ => new ColourCounts())];
        double[] pixels = new double[Bands];
        int rowCount = red.Rows;
        for (int y = 0; y < rowCount; y++)
        {
            ReadOnlySpan<float> r = red.AsRow<float>(y);
            ReadOnlySpan<float> b = blue.AsRow<float>(y);
            ReadOnlySpan<float> l = level.AsRow<float>(y);
            ReadOnlySpan<float> off = away.AsRow<float>(y);
            foreach ((int band, double share) in At(y))
            {
                for (int x = 0; x < r.Length; x++)
                {
                    if (off[x] <= from)
                    {
                        continue;
                    }

                    float weight = (float)(share * Math.Exp(-off[x] / Fades));
                    pixels[band] += weight;
                    int cell = ColourCounts.Cell(r[x], b[x], l[x]);
                    open[band].Add(cell, weight);
                    inside[band].Add(cell, weight);
                    foreach ((float darker, float often) in Gloom)
                    {
                        inside[band].Add(ColourCounts.Cell(r[x], b[x], l[x] - darker), weight * often);
                    }
                }
            }
        }

        for (int band = 0; band < Bands; band++)
        {
            _bands[band] = pixels[band] < LeastPixels ? null : (open[band].Logs(), inside[band].Logs());
        }
    }

    /// <summary>The bands that a row lies in, with their shares, and the logarithms of their colours; none where nothing is known.</summary>
    public IReadOnlyList<(float Share, float[] Open, float[] Inside)> Row(int y)
    {
        List<(float Share, float[] Open, float[] Inside)> known = [.. At(y).Where(b => _bands[b.Band] is not null).Select(b => ((float)b.Share, _bands[b.Band]!.Value.Open, _bands[b.Band]!.Value.Inside))];
        float sum = known.Sum(k => k.Share);
        return [.. known.Select(k => (k.Share / sum, k.Open, k.Inside))];
    }

    // Shares of the one or two bands whose middles a row lies between.
    private IEnumerable<(int Band, double Share)> At(int y)
    {
        double place = Math.Clamp(((y - _top) / _height) - 0.5, 0, Bands - 1);
        int band = (int)place;
        double next = place - band;
        yield return (band, 1 - next);
        if (next > 0)
        {
            yield return (band + 1, next);
        }
    }
}
