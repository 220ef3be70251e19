using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>What each pixel of a plant's foliage looks like. Owns its mask.</summary>
internal sealed class CrownTissue : IDisposable
{
    private const double TooDark = -4.6;

    // Less red than this share of the foliage is no fall colour.
    private const double LeastTurned = 0.02;

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
        double from = own.HalfLost(options.DiscolouredFrom);
        double brown = own.BrownedFrom(options.BrownedFrom);
        Mat codes = new(foliage.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat fall = new(foliage.Size(), MatType.CV_8UC1, Scalar.All(0));
        double low = Fill(codes, fall, planes, loss, red, foliage, 1.2 * from, brown);
        double high = Fill(codes, fall, planes, loss, red, foliage, 0.8 * from, brown);
        Fill(codes, fall, planes, loss, red, foliage, from, brown);
        using Mat burnt = new();
        Cv2.InRange(bgr, new Scalar(252, 252, 252), new Scalar(255, 255, 255), burnt);
        Cv2.BitwiseAnd(burnt, foliage, burnt);
        codes.SetTo(Scalar.All((int)MaskCode.Unassessed), burnt);
        double turned = Cv2.CountNonZero(fall) / (double)Math.Max(1, Cv2.CountNonZero(foliage));
        return new CrownTissue(codes, own) { Bounds = (low, high), FallColour = turned };
    }

    /// <summary>The same with a network's word for what is damage; fall colour and what cannot be judged stay as told by colour.</summary>
    /// <param name="codes">What it says; not changed.</param>
    /// <param name="bounds">How far it would go either way.</param>
    /// <param name="foliage">255 on foliage.</param>
    public CrownTissue Told(Mat codes, (double Low, double High) bounds, Mat foliage)
    {
        Mat told = new(foliage.Size(), MatType.CV_8UC1, Scalar.All(0));
        codes.CopyTo(told, foliage);
        using Mat unseen = new();
        Cv2.Compare(Codes, new Scalar((int)MaskCode.Unassessed), unseen, CmpTypes.EQ);
        told.SetTo(Scalar.All((int)MaskCode.Unassessed), unseen);
        return new CrownTissue(told, Own) { Bounds = bounds, FallColour = FallColour };
    }

    /// <inheritdoc />
    public void Dispose() => Codes.Dispose();

    // Fills codes and fall colour (255); returns the discoloured share of what can be judged.
    private static double Fill(Mat codes, Mat fall, ColourPlanes planes, Mat loss, Mat redToGreen, Mat foliage, double lossFrom, double brownFrom)
    {
        (float from, float brown) = ((float)lossFrom, (float)brownFrom);
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            Span<byte> turned = fall.AsRow<byte>(y);
            ReadOnlySpan<byte> inside = foliage.AsRow<byte>(y);
            ReadOnlySpan<float> lost = loss.AsRow<float>(y);
            ReadOnlySpan<float> red = redToGreen.AsRow<float>(y);
            ReadOnlySpan<float> blue = planes.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<float> level = planes.Level.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                bool isFall = lost[x] >= from && FallRed.Is(red[x], blue[x]);
                code[x] = (byte)(inside[x] == 0 ? MaskCode.Background
                    : level[x] < TooDark ? MaskCode.Unassessed
                    : lost[x] < from || isFall ? MaskCode.Sound
                    : red[x] >= brown ? MaskCode.Browned
                    : MaskCode.Yellowed);
                turned[x] = (byte)(isFall && code[x] == (byte)MaskCode.Sound ? 255 : 0);
            }
        }

        using Mat hurt = new();
        Cv2.InRange(codes, new Scalar((int)MaskCode.Yellowed), new Scalar((int)MaskCode.Browned), hurt);
        if (Cv2.CountNonZero(fall) > LeastTurned * Cv2.CountNonZero(foliage))
        {
            using Mat seams = Seams(hurt, fall);
            codes.SetTo(Scalar.All((int)MaskCode.Sound), seams);
            hurt.SetTo(Scalar.All(0), seams);
        }

        using Mat judged = new();
        Cv2.InRange(codes, new Scalar((int)MaskCode.Sound), new Scalar((int)MaskCode.Browned), judged);
        return Cv2.CountNonZero(hurt) / (double)Math.Max(1, Cv2.CountNonZero(judged));
    }

    // Where red and green leaves meet, a pixel mixes both and looks yellow or brown: thin damage beside red leaves is none.
    private static Mat Seams(Mat hurt, Mat fall)
    {
        using Mat two = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(2, 2));
        using Mat five = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        using Mat seven = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(7, 7));
        using Mat broad = new();
        Cv2.MorphologyEx(hurt, broad, MorphTypes.Open, five);
        using Mat near = new();
        Cv2.MorphologyEx(fall, near, MorphTypes.Open, two);
        Cv2.Dilate(near, near, seven);
        Mat seams = new();
        Cv2.BitwiseAnd(hurt, near, seams);
        seams.SetTo(Scalar.All(0), broad);
        return seams;
    }
}
