using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// Joins two rough outlines of a plant that were found in different ways: what only one of them sees counts by how large it is
/// and where it lies.
/// </summary>
internal static class RegionVote
{
    // Lawn and shade beside a plant come in pieces below this share of it, parts of the plant that the guess lost above it: from renders.
    private const double SmallAgainst = 0.18;

    // A piece that only the guess sees is a lost part of the plant unless it is as large as a neighbour or lies at the frame's sides.
    private const double LargeFor = 0.3;
    private const double Sides = 0.1;

    private const int ClosePx = 15;
    private const int ThinPx = 7;

    /// <summary>Corrects a region by the guess it started from.</summary>
    /// <param name="region">255 on the plant, small copy; changed.</param>
    /// <param name="guess">255 where the first guess sees it.</param>
    public static void Correct(Mat region, Mat guess)
    {
        using Mat solid = Solid(region);
        using Mat guessed = Solid(guess);
        int area = Cv2.CountNonZero(solid);
        using Mat only = Pieces(solid, guessed, (size, _) => size < SmallAgainst * area);
        region.SetTo(Scalar.All(0), only);
        using Mat lost = Pieces(guessed, solid, (size, box) => size < LargeFor * area && box.Left > Sides * region.Cols && box.Right < (1 - Sides) * region.Cols);
        Cv2.BitwiseAnd(lost, guess, lost);
        Cv2.BitwiseOr(region, lost, region);
    }

    private static Mat Solid(Mat mask)
    {
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(ClosePx, ClosePx));
        Mat solid = new();
        Cv2.MorphologyEx(mask, solid, MorphTypes.Close, disc);
        return solid;
    }

    // Pieces of the first mask that the second lacks, thin seams left out, of those that are wanted.
    private static Mat Pieces(Mat of, Mat without, Func<int, Rect, bool> wanted)
    {
        using Mat rest = of.Clone();
        rest.SetTo(Scalar.All(0), without);
        using Mat square = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(ThinPx, ThinPx));
        Cv2.MorphologyEx(rest, rest, MorphTypes.Open, square);
        using Mat labels = new();
        using Mat statistics = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(rest, labels, statistics, centroids, PixelConnectivity.Connectivity8);
        Mat pieces = new(of.Size(), MatType.CV_8UC1, Scalar.All(0));
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> row = statistics.AsRow<int>(i);
            Rect box = new(row[(int)ConnectedComponentsTypes.Left], row[(int)ConnectedComponentsTypes.Top], row[(int)ConnectedComponentsTypes.Width], row[(int)ConnectedComponentsTypes.Height]);
            if (wanted(row[(int)ConnectedComponentsTypes.Area], box))
            {
                using Mat piece = new();
                Cv2.Compare(labels, new Scalar(i), piece, CmpTypes.EQ);
                pieces.SetTo(Scalar.All(255), piece);
            }
        }

        Cv2.Dilate(pieces, pieces, square);
        pieces.SetTo(Scalar.All(0), without);
        return pieces;
    }
}
