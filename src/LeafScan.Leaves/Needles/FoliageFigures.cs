using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>Figures of a mask of <see cref="MaskCode"/>, shared by twigs and whole plants.</summary>
internal static class FoliageFigures
{
    /// <summary>Shares of everything that is not background; all sound where there is nothing.</summary>
    public static LeafShares Shares(Mat codes)
    {
        long[] counts = Counts(codes);
        double all = counts.Sum() - counts[0];
        if (all <= 0)
        {
            return new LeafShares(0, 0, 0, 0, 0, 1);
        }

        double Share(MaskCode code) => counts[(int)code] / all;
        return new LeafShares(
            Share(MaskCode.Sound), Share(MaskCode.Speck), Share(MaskCode.Yellowed), Share(MaskCode.Browned), Share(MaskCode.Chewed), Share(MaskCode.Unassessed));
    }

    /// <summary>Pixels of each code.</summary>
    public static long[] Counts(Mat codes)
    {
        long[] counts = new long[7];
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            foreach (byte code in codes.AsRow<byte>(y))
            {
                counts[code]++;
            }
        }

        return counts;
    }

    /// <summary>Mean dark green colour index of the pixels of one code; null without any.</summary>
    /// <param name="bgr">8-bit picture.</param>
    /// <param name="codes">Codes, same size.</param>
    /// <param name="code">Which pixels.</param>
    /// <param name="gainRed">Factor that makes the light's red neutral; 1 where the light is taken as neutral.</param>
    /// <param name="gainBlue">The same for blue.</param>
    public static double? Greenness(Mat bgr, Mat codes, MaskCode code, double gainRed = 1, double gainBlue = 1)
    {
        double sum = 0;
        long count = 0;
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<Vec3b> pixels = bgr.AsRow<Vec3b>(y);
            ReadOnlySpan<byte> row = codes.AsRow<byte>(y);
            for (int x = 0; x < row.Length; x++)
            {
                if (row[x] == (byte)code)
                {
                    sum += ColourIndices.DarkGreen(Math.Min(255, gainRed * pixels[x].Item2), pixels[x].Item1, Math.Min(255, gainBlue * pixels[x].Item0));
                    count++;
                }
            }
        }

        return count == 0 ? null : sum / count;
    }

    /// <summary>Outline of the largest piece once pieces that nearly touch are joined, in pixels of the full-size photo.</summary>
    /// <param name="inside">255 inside, working copy.</param>
    /// <param name="joinPx">Gaps up to this are bridged, pixels of the working copy.</param>
    /// <param name="full">Size of the photo.</param>
    public static IReadOnlyList<PointPx> Outline(Mat inside, int joinPx, Size full)
    {
        using Mat joined = new();
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size((2 * joinPx) + 1, (2 * joinPx) + 1));
        Cv2.CopyMakeBorder(inside, joined, joinPx, joinPx, joinPx, joinPx, BorderTypes.Constant, Scalar.All(0));
        Cv2.MorphologyEx(joined, joined, MorphTypes.Close, disc);
        using Mat cropped = new(joined, new Rect(joinPx, joinPx, inside.Cols, inside.Rows));
        using Mat own = cropped.Clone();
        Cv2.FindContours(own, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[]? largest = contours.MaxBy(c => Cv2.ContourArea(c));
        if (largest is null)
        {
            return [];
        }

        double scaleX = full.Width / (double)inside.Cols;
        double scaleY = full.Height / (double)inside.Rows;
        return [.. Cv2.ApproxPolyDP(largest, 0.7, true).Select(p => new PointPx(
            Math.Clamp((int)Math.Round(((p.X + 0.5) * scaleX) - 0.5), 0, full.Width - 1), Math.Clamp((int)Math.Round(((p.Y + 0.5) * scaleY) - 0.5), 0, full.Height - 1)))];
    }
}
