using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>What each pixel of a plant's foliage looks like. Owns its mask.</summary>
internal sealed class CrownTissue : IDisposable
{
    // Scarlet lies beyond any dead leaf in ln(R/G); crimson lies among the reddest of them, but keeps its blue, which rust has lost.
    private const double ScarletFrom = 1.2;
    private const double CrimsonFrom = 0.8;
    private const double CrimsonBlueFrom = -0.45;
    private const double TooDark = -4.6;

    private CrownTissue(Mat codes, OwnGreen own)
    {
        Codes = codes;
        Own = own;
    }

    /// <summary><see cref="MaskCode"/> of each pixel of the working copy; fall colour is sound.</summary>
    public Mat Codes { get; }

    /// <summary>The plant's sound colour.</summary>
    public OwnGreen Own { get; }

    /// <summary>Share of the foliage in red fall colour, 0..1.</summary>
    public double FallColour { get; private set; }

    /// <summary>Damage had the threshold been stricter and more generous by a fifth.</summary>
    public (double Low, double High) Bounds { get; private set; }

    /// <summary>Judges a plant.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="foliage">255 on foliage.</param>
    /// <param name="options">Thresholds.</param>
    public static CrownTissue Judge(Mat bgr, ColourPlanes planes, Mat foliage, CrownOptions options)
    {
        OwnGreen own = OwnGreen.Find(planes, foliage);
        using Mat loss = GreenLoss.Of(planes, own);
        using Mat red = new();
        Cv2.GaussianBlur(loss, loss, default, 1);
        Cv2.GaussianBlur(planes.RedToGreen, red, default, 1);
        Mat codes = new(foliage.Size(), MatType.CV_8UC1, Scalar.All(0));
        (double low, _) = Fill(codes, planes, loss, red, foliage, options, 1.2);
        (double high, _) = Fill(codes, planes, loss, red, foliage, options, 0.8);
        (_, double fall) = Fill(codes, planes, loss, red, foliage, options, 1);
        using Mat burnt = new();
        Cv2.InRange(bgr, new Scalar(252, 252, 252), new Scalar(255, 255, 255), burnt);
        Cv2.BitwiseAnd(burnt, foliage, burnt);
        codes.SetTo(Scalar.All((int)MaskCode.Unassessed), burnt);
        return new CrownTissue(codes, own) { Bounds = (low, high), FallColour = fall };
    }

    /// <inheritdoc />
    public void Dispose() => Codes.Dispose();

    private static (double Damage, double Fall) Fill(Mat codes, ColourPlanes planes, Mat loss, Mat redToGreen, Mat foliage, CrownOptions options, double strictness)
    {
        float from = (float)(options.DiscolouredFrom * strictness);
        float brown = (float)options.BrownedFrom;
        (int judged, int hurt, int fall) = (0, 0, 0);
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<byte> inside = foliage.AsRow<byte>(y);
            ReadOnlySpan<float> lost = loss.AsRow<float>(y);
            ReadOnlySpan<float> red = redToGreen.AsRow<float>(y);
            ReadOnlySpan<float> blue = planes.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<float> level = planes.Level.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                bool isFall = lost[x] >= from && (red[x] >= ScarletFrom || (red[x] >= CrimsonFrom && blue[x] >= CrimsonBlueFrom));
                code[x] = (byte)(inside[x] == 0 ? MaskCode.Background
                    : level[x] < TooDark ? MaskCode.Unassessed
                    : lost[x] < from || isFall ? MaskCode.Sound
                    : red[x] >= brown ? MaskCode.Browned
                    : MaskCode.Yellowed);
                judged += code[x] is not (byte)MaskCode.Background and not (byte)MaskCode.Unassessed ? 1 : 0;
                hurt += code[x] is (byte)MaskCode.Yellowed or (byte)MaskCode.Browned ? 1 : 0;
                fall += isFall && code[x] == (byte)MaskCode.Sound ? 1 : 0;
            }
        }

        return judged == 0 ? (0, 0) : (hurt / (double)judged, fall / (double)judged);
    }
}
