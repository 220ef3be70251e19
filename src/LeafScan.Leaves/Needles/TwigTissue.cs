using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>What each pixel of a twig's foliage looks like. Owns its mask.</summary>
internal sealed class TwigTissue : IDisposable
{
    // Near discoloured tissue a pixel belongs to it from this share of its loss on: half way, as blur mixes both.
    private const double HalfWay = 0.5;
    private const int NearPx = 9;

    // Linear light below this drowns in noise and stray light, ln of the level; above the other it is burnt out.
    private const double TooDark = -4.3;

    private TwigTissue(Mat codes, OwnGreen own)
    {
        Codes = codes;
        Own = own;
    }

    /// <summary><see cref="MaskCode"/> of each pixel of the working copy.</summary>
    public Mat Codes { get; }

    /// <summary>The twig's sound colour.</summary>
    public OwnGreen Own { get; }

    /// <summary>Damage had the threshold been stricter and more generous by a fifth.</summary>
    public (double Low, double High) Bounds { get; private set; }

    /// <summary>Judges a twig.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="twig">255 on the twig.</param>
    /// <param name="onSheet">It lies on a plain sheet. Elsewhere the rim of a needle mixes with who knows what, so no specks are seen there.</param>
    /// <param name="options">Thresholds.</param>
    public static TwigTissue Judge(Mat bgr, ColourPlanes planes, Mat twig, bool onSheet, TwigOptions options)
    {
        OwnGreen own = OwnGreen.Find(planes, twig);
        using Mat loss = GreenLoss.Of(planes, own);
        Cv2.GaussianBlur(loss, loss, default, 0.6);
        loss.SetTo(Scalar.All(0), Outside(twig));
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(NearPx, NearPx));
        using Mat most = new();
        using Mat calm = new();
        Cv2.GaussianBlur(loss, calm, default, 1);
        Cv2.Dilate(calm, most, disc);
        double from = own.HalfLost(options.DiscolouredFrom);
        using Mat yellowed = YellowPlaces(calm, options.YellowedFrom * from / options.DiscolouredFrom);
        double brown = own.BrownedFrom(options.BrownedFrom);

        using Mat core = twig.Clone();
        if (!onSheet)
        {
            Cv2.Erode(core, core, null);
        }

        Mat codes = new(twig.Size(), MatType.CV_8UC1, Scalar.All(0));
        double damageLow = Fill(codes, planes, loss, most, yellowed, twig, core, from, brown, 1.2);
        double damageHigh = Fill(codes, planes, loss, most, yellowed, twig, core, from, brown, 0.8);
        Fill(codes, planes, loss, most, yellowed, twig, core, from, brown, 1);
        Glare(codes, bgr);
        return new TwigTissue(codes, own) { Bounds = (damageLow, damageHigh) };
    }

    /// <summary>Takes a network's word.</summary>
    /// <param name="scores">What it says; not changed.</param>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="twig">255 on the twig.</param>
    public static TwigTissue Of(FoliageScores scores, Mat bgr, ColourPlanes planes, Mat twig)
    {
        Mat codes = new(twig.Size(), MatType.CV_8UC1, Scalar.All(0));
        scores.Codes.CopyTo(codes, twig);
        using Mat dark = new();
        Cv2.InRange(planes.Level, new Scalar(-100), new Scalar(TooDark), dark);
        Cv2.BitwiseAnd(dark, twig, dark);
        codes.SetTo(Scalar.All((int)MaskCode.Unassessed), dark);
        Glare(codes, bgr);
        return new TwigTissue(codes, OwnGreen.Find(planes, twig)) { Bounds = scores.Bounds };
    }

    /// <inheritdoc />
    public void Dispose() => Codes.Dispose();

    private static Mat Outside(Mat twig)
    {
        Mat outside = new();
        Cv2.BitwiseNot(twig, outside);
        return outside;
    }

    // Patches that are strongly changed over more than a speck's width.
    private static Mat YellowPlaces(Mat calm, double from)
    {
        Mat places = new();
        Cv2.InRange(calm, new Scalar(from), new Scalar(10), places);
        using Mat core = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        using Mat wider = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(9, 9));
        Cv2.Erode(places, places, core);
        Cv2.Dilate(places, places, wider);
        return places;
    }

    private static double Fill(Mat codes, ColourPlanes planes, Mat loss, Mat most, Mat yellowed, Mat twig, Mat core, double lossFrom, double brownFrom, double strictness)
    {
        (float from, float brown) = ((float)(lossFrom * strictness), (float)brownFrom);
        int judged = 0;
        int hurt = 0;
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<byte> inside = twig.AsRow<byte>(y);
            ReadOnlySpan<byte> inner = core.AsRow<byte>(y);
            ReadOnlySpan<byte> yellow = yellowed.AsRow<byte>(y);
            ReadOnlySpan<float> lost = loss.AsRow<float>(y);
            ReadOnlySpan<float> near = most.AsRow<float>(y);
            ReadOnlySpan<float> level = planes.Level.AsRow<float>(y);
            ReadOnlySpan<float> red = planes.RedToGreen.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                code[x] = (byte)(inside[x] == 0 ? MaskCode.Background
                    : level[x] < TooDark ? MaskCode.Unassessed
                    : lost[x] < Math.Max(from, HalfWay * near[x] * strictness) ? MaskCode.Sound
                    : red[x] >= brown ? MaskCode.Browned
                    : yellow[x] != 0 ? MaskCode.Yellowed
                    : inner[x] == 0 ? MaskCode.Sound
                    : MaskCode.Speck);
                judged += code[x] is not (byte)MaskCode.Background and not (byte)MaskCode.Unassessed ? 1 : 0;
                hurt += code[x] is (byte)MaskCode.Speck or (byte)MaskCode.Yellowed or (byte)MaskCode.Browned ? 1 : 0;
            }
        }

        return judged == 0 ? 0 : hurt / (double)judged;
    }

    // All three channels burnt out: no colour is left to judge.
    private static void Glare(Mat codes, Mat bgr)
    {
        using Mat burnt = new();
        Cv2.InRange(bgr, new Scalar(250, 250, 250), new Scalar(255, 255, 255), burnt);
        using Mat inside = new();
        Cv2.Compare(codes, new Scalar(0), inside, CmpTypes.GT);
        Cv2.BitwiseAnd(burnt, inside, burnt);
        codes.SetTo(Scalar.All((int)MaskCode.Unassessed), burnt);
    }
}
