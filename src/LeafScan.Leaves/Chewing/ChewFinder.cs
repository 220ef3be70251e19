using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>
/// Finds what is missing from a leaf by its shape alone: holes are background shut in by leaf, bites are dents of the
/// margin with a corner at both ends. Works on a mask of at most <see cref="WorkingSidePx"/> pixels.
/// </summary>
internal static class ChewFinder
{
    private const int WorkingSidePx = 900;

    /// <summary>Missing leaf of a mask (255 leaf that is there, 0 elsewhere), at the size of the mask.</summary>
    public static ChewMap Find(Mat mask, ChewOptions options)
    {
        double scale = Math.Min(1.0, WorkingSidePx / (double)Math.Max(mask.Cols, mask.Rows));
        using Mat small = new();
        // A rim of background keeps a leaf at the picture's edge from shutting in the outside.
        const int rim = 8;
        Size size = new(Math.Max(1, (int)Math.Round(mask.Cols * scale)), Math.Max(1, (int)Math.Round(mask.Rows * scale)));
        Cv2.Resize(mask, small, size, 0, 0, InterpolationFlags.Area);
        Cv2.Threshold(small, small, 127, 255, ThresholdTypes.Binary);
        using Mat framed = new();
        Cv2.CopyMakeBorder(small, framed, rim, rim, rim, rim, BorderTypes.Constant, Scalar.All(0));

        double area = Cv2.CountNonZero(framed);
        using Mat missing = new(framed.Size(), MatType.CV_8UC1, Scalar.All(0));
        int holes = HoleFinder.Mark(framed, missing, Math.Max(4, options.SmallestShare * area));
        using Mat whole = new();
        Cv2.BitwiseOr(framed, missing, whole);
        (int biteCount, bool straightCut) = MarkBites(whole, missing, 0.5 * options.SmallestShare * area, options);

        // One pixel into the leaf, so that no rim is left between leaf and missing piece at full size; leaf is cleared below.
        using Mat into = new();
        Cv2.Dilate(missing, into, null);
        Cv2.BitwiseAnd(into, framed, into);
        Cv2.BitwiseOr(missing, into, missing);
        using Mat inner = new(missing, new Rect(rim, rim, size.Width, size.Height));
        Mat full = new();
        if (size == mask.Size())
        {
            inner.CopyTo(full);
        }
        else
        {
            Cv2.Resize(inner, full, mask.Size(), 0, 0, InterpolationFlags.Linear);
            Cv2.Threshold(full, full, 127, 255, ThresholdTypes.Binary);
        }

        // Never over leaf that is there: the working copy may be a pixel off.
        full.SetTo(Scalar.All(0), mask);
        return new ChewMap(full, biteCount, holes, straightCut);
    }

    private static (int Count, bool StraightCut) MarkBites(Mat whole, Mat missing, double smallestPx, ChewOptions options)
    {
        int count = 0;
        bool straightCut = false;
        List<Mat> blades = Blades.Of(whole);
        try
        {
            foreach (Mat blade in blades)
            {
                MarginBites bites = MarginBites.Find(blade, smallestPx, options);
                foreach (Point[] bite in bites.Polygons)
                {
                    Cv2.FillPoly(missing, [bite], Scalar.All(255));
                }

                count += bites.Polygons.Count;
                straightCut |= bites.StraightCut;
            }
        }
        finally
        {
            blades.ForEach(b => b.Dispose());
        }

        return (count, straightCut);
    }
}
