using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>Gathers all that may be a speck: low peaks of the network's centre map and what the colour way sees.</summary>
internal static class CandidateFinder
{
    /// <summary>Candidates with their features.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="scores">The network's answer.</param>
    /// <param name="codes">Mask codes made from that answer.</param>
    /// <param name="colour">What colour sees on the leaf.</param>
    /// <param name="yellowed">255 where tissue is diffusely yellowed.</param>
    /// <param name="options">Thresholds.</param>
    public static List<SpeckCandidate> Find(LeafPatch patch, TissueScores scores, Mat codes, ColourFinding colour, Mat yellowed, TissueOptions options)
    {
        List<SpeckCandidate> all = [];
        ReadOnlySpan<float> centres = scores.Centres;
        foreach (SpeckMark peak in SpeckPeaks.Find(scores, patch.Mask, options.CandidateCentreScore))
        {
            (int x, int y) = ((int)Math.Round(peak.X), (int)Math.Round(peak.Y));
            if (Judged(codes, x, y))
            {
                all.Add(new SpeckCandidate { Mark = peak, CentreScore = centres[scores.At(x, y)] });
            }
        }

        CandidateGrid grid = new(all);
        List<(SpeckMark Mark, double FilterPx)> byColour = SpeckFinder.Accept(colour.Peaks, colour.Smooth, patch.Mask, yellowed, out Mat covered);
        covered.Dispose();
        foreach ((SpeckMark mark, double filterPx) in byColour)
        {
            if (!Judged(codes, (int)mark.X, (int)mark.Y))
            {
                continue;
            }

            // What both saw is one candidate; the network's place and diameter are the better ones.
            SpeckCandidate? same = grid.Next(mark.X, mark.Y, Math.Max(2, mark.DiameterPx / 2), c => !c.ByColour && Distance(c.Mark, mark) < Math.Max(2, c.Mark.DiameterPx / 2));
            if (same is not null)
            {
                same.FilterPx = filterPx;
            }
            else
            {
                all.Add(new SpeckCandidate { Mark = mark, FilterPx = filterPx });
            }
        }

        new CandidateFeatures(patch, colour, codes).Read(all, scores);
        return all;
    }

    private static double Distance(SpeckMark a, SpeckMark b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    // A centre on brown or unjudged tissue is no speck.
    private static bool Judged(Mat codes, int x, int y)
        => codes.AsRow<byte>(y)[x] is not ((byte)MaskCode.Browned or (byte)MaskCode.Unassessed or 0);
}
