using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>
/// Where two lined-up photos look alike, nothing has come or gone. What only one of the two outlines took for foliage there is an error of
/// that outline, such as a strip of lawn, and is left out of both.
/// </summary>
internal static class Alike
{
    // Differences of a smoothed 8-bit channel below this are noise and what lining up leaves.
    private const double Within = 12;
    private const double ReachPx = 2;

    /// <summary>Leaves out of both what only one has and neither shows.</summary>
    /// <param name="earlier">The earlier photo.</param>
    /// <param name="earlierCodes">Its codes; changed.</param>
    /// <param name="later">The later photo, lined up, in the light of the earlier.</param>
    /// <param name="laterCodes">Its codes, lined up; changed.</param>
    public static void Settle(Mat earlier, Mat earlierCodes, Mat later, Mat laterCodes)
    {
        using Mat difference = new();
        using Mat before = new();
        using Mat after = new();
        Cv2.GaussianBlur(earlier, before, default, ReachPx);
        Cv2.GaussianBlur(later, after, default, ReachPx);
        Cv2.Absdiff(before, after, difference);
        int rows = difference.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<Vec3b> apart = difference.AsRow<Vec3b>(y);
            Span<byte> first = earlierCodes.AsRow<byte>(y);
            Span<byte> second = laterCodes.AsRow<byte>(y);
            for (int x = 0; x < first.Length; x++)
            {
                if ((first[x] == 0) != (second[x] == 0) && Math.Max(apart[x].Item0, Math.Max(apart[x].Item1, apart[x].Item2)) < Within)
                {
                    first[x] = second[x] = 0;
                }
            }
        }
    }
}
