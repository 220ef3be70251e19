using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// Finds and judges leaves with both networks: the first says on a small copy where leaves are, the second judges each leaf
/// near full size and draws its exact edge on the way.
/// </summary>
internal static class LearnedLeaves
{
    // The edge moves by more than this share of the leaf when the threshold moves: say so.
    private const double DoubtfulEdge = 0.12;

    /// <summary>Leaves, largest first; empty when there are none.</summary>
    /// <param name="bgr">The photo, 8-bit B, G, R, full size.</param>
    /// <param name="outline">The outline network.</param>
    /// <param name="tissue">The tissue network.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="cancel">Stops between leaves.</param>
    public static List<JudgedLeaf> Find(Mat bgr, Network outline, Network tissue, MeasureOptions options, CancellationToken cancel)
    {
        using Mat chance = LearnedOutline.Chance(bgr, outline);
        List<LeafPlace> places = LeafPlace.Split(chance, bgr.Size());
        List<JudgedLeaf> leaves = [];
        try
        {
            foreach (LeafPlace place in places.Take(options.MostLeaves))
            {
                cancel.ThrowIfCancellationRequested();
                if (Judge(bgr, place, tissue, options.Tissue) is { } leaf)
                {
                    leaves.Add(leaf);
                }
            }
        }
        finally
        {
            foreach (LeafPlace place in places)
            {
                place.Dispose();
            }
        }

        return leaves;
    }

    private static JudgedLeaf? Judge(Mat bgr, LeafPlace place, Network network, TissueOptions options)
    {
        double scale = options.ScaleFor(place.LengthPx);
        Size size = new(Math.Max(8, (int)Math.Round(place.Box.Width * scale)), Math.Max(8, (int)Math.Round(place.Box.Height * scale)));
        Mat piece = new();
        using (Mat view = new(bgr, place.Box))
        {
            if (scale == 1)
            {
                view.CopyTo(piece);
            }
            else
            {
                Cv2.Resize(view, piece, size, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
            }
        }

        using Mat prior = PriorOf(place, bgr.Size(), piece.Size());
        (TissueMap tissue, Mat there) = LearnedTissue.Read(piece, prior, network, options);
        if (Cv2.CountNonZero(there) < 64)
        {
            tissue.Dispose();
            there.Dispose();
            piece.Dispose();
            return null;
        }

        Mat full = new();
        if (scale == 1)
        {
            there.CopyTo(full);
        }
        else
        {
            Cv2.Resize(there, full, place.Box.Size, 0, 0, InterpolationFlags.Linear);
            Cv2.Threshold(full, full, 127, 255, ThresholdTypes.Binary);
        }

        List<string> flags = [];
        if (place.CutOff)
        {
            flags.Add(Flag.LeafCutOff.Name);
        }

        if (place.Doubt > DoubtfulEdge)
        {
            flags.Add(Flag.OutlineUnsure.Name);
        }

        return new JudgedLeaf(new FoundLeaf(place.Box, full, flags), LeafPatch.Of(place.Box, piece, there), tissue);
    }

    // The part of the small chance map under the box, at the size of the piece.
    private static Mat PriorOf(LeafPlace place, Size full, Size piece)
    {
        double scaleX = place.Prior.Cols / (double)full.Width;
        double scaleY = place.Prior.Rows / (double)full.Height;
        using Mat map = new(2, 3, MatType.CV_64FC1);
        double stepX = place.Box.Width / (double)piece.Width * scaleX;
        double stepY = place.Box.Height / (double)piece.Height * scaleY;
        Span<double> first = map.AsRow<double>(0);
        first[0] = stepX;
        first[1] = 0;
        first[2] = (place.Box.X * scaleX) + (0.5 * stepX) - 0.5;
        Span<double> second = map.AsRow<double>(1);
        second[0] = 0;
        second[1] = stepY;
        second[2] = (place.Box.Y * scaleY) + (0.5 * stepY) - 0.5;
        Mat prior = new();
        Cv2.WarpAffine(place.Prior, prior, map, piece, InterpolationFlags.Linear | InterpolationFlags.WarpInverseMap, BorderTypes.Replicate);
        return prior;
    }
}
