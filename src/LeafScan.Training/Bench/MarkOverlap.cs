using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench;

/// <summary>
/// Brown tissue of a close-up beside what three people marked, and their marks beside each other. All areas are pixels.
/// </summary>
/// <param name="FoundPx">Measured as browned.</param>
/// <param name="AnyPx">Marked by at least one person.</param>
/// <param name="TwoPx">Marked by at least two: what counts as true.</param>
/// <param name="AllPx">Marked by all three.</param>
/// <param name="OursBothPx">Measured as browned and marked by at least two.</param>
public sealed record MarkOverlap(long FoundPx, long AnyPx, long TwoPx, long AllPx, long OursBothPx)
{
    // Votes are stored as thirds of 255.
    private const int OneVote = 85;

    /// <summary>Either measured as browned or marked by at least two.</summary>
    public long OursEitherPx => FoundPx + TwoPx - OursBothPx;

    /// <summary>Overlap over union of the reading with what at least two marked, 0..1; 1 when both are empty.</summary>
    public double Ours => Over(OursBothPx, OursEitherPx);

    /// <summary>Overlap over union of "at least two" with "at least one": the one lies within the other.</summary>
    public double TwoWithAny => Over(TwoPx, AnyPx);

    /// <summary>Overlap over union of "at least two" with "all three".</summary>
    public double TwoWithAll => Over(AllPx, TwoPx);

    /// <summary>How far an area is from that which at least two marked, as a share of it; 0 when both are none.</summary>
    public double AreaError(long areaPx) => TwoPx > 0 ? Math.Abs(areaPx - TwoPx) / (double)TwoPx : areaPx > 0 ? 1 : 0;

    /// <summary>Counts pixels.</summary>
    /// <param name="votes">8-bit: 0, 85, 170, 255 for none to three votes.</param>
    /// <param name="codes">Mask codes of the reading, same size.</param>
    public static MarkOverlap Of(Mat votes, Mat codes)
    {
        long found = 0, any = 0, two = 0, all = 0, both = 0;
        int rows = votes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> v = Pixels.Bytes(votes, y);
            Span<byte> c = Pixels.Bytes(codes, y);
            for (int x = 0; x < v.Length; x++)
            {
                int count = (v[x] + (OneVote / 2)) / OneVote;
                bool brown = c[x] == (byte)MaskCode.Browned;
                found += brown ? 1 : 0;
                any += count >= 1 ? 1 : 0;
                two += count >= 2 ? 1 : 0;
                all += count >= 3 ? 1 : 0;
                both += brown && count >= 2 ? 1 : 0;
            }
        }

        return new MarkOverlap(found, any, two, all, both);
    }

    private static double Over(long both, long either) => either == 0 ? 1 : (double)both / either;
}
