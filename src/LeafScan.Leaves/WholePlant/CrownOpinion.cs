using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>
/// What belongs to a plant, what each pixel of it looks like and how far it would reach with nothing fallen: by the network
/// where there is one, with the colour way as its witness, else by the colour way alone. Owns its masks.
/// </summary>
internal sealed class CrownOpinion : IDisposable
{
    private const double LeastPiece = 0.0008;

    // What the network was trained on: a whole frame of this size.
    private static readonly Size Frame = new(1024, 768);

    private CrownOpinion(Mat foliage, Mat? full, CrownTissue? tissue, Witness? witness)
    {
        Foliage = foliage;
        Full = full;
        Tissue = tissue;
        Witness = witness;
    }

    /// <summary>255 on foliage, working copy.</summary>
    public Mat Foliage { get; }

    /// <summary>255 where foliage would be with nothing fallen; null when only the smoothed outline can tell.</summary>
    public Mat? Full { get; }

    /// <summary>The foliage's tissue; null where there is no plant to speak of.</summary>
    public CrownTissue? Tissue { get; }

    /// <summary>What the colour way says beside the network; null where it worked alone.</summary>
    public Witness? Witness { get; }

    /// <summary>Looks at a plant.</summary>
    /// <param name="bgr">The photo, full size.</param>
    /// <param name="work">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="options">Thresholds.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static CrownOpinion Of(Mat bgr, Mat work, ColourPlanes planes, CrownOptions options, CancellationToken cancel)
    {
        Mat byColour = CrownCutter.Cut(work, planes, cancel);
        cancel.ThrowIfCancellationRequested();
        CrownTissue? tissueByColour = Fills(byColour, options) ? CrownTissue.Judge(work, planes, byColour, options) : null;
        if (!options.UseNetwork || ModelFiles.Plant is not { } network)
        {
            return new CrownOpinion(byColour, null, tissueByColour, null);
        }

        using (byColour)
        using (tissueByColour)
        using (Mat codes = new(work.Size(), MatType.CV_8UC1))
        {
            Mat full = new(work.Size(), MatType.CV_8UC1);
            (double, double) bounds = Look(bgr, network, codes, full);
            cancel.ThrowIfCancellationRequested();
            Mat foliage = new();
            Cv2.Compare(codes, new Scalar(0), foliage, CmpTypes.GT);
            Pieces.KeepLarge(foliage, LeastPiece);
            Cv2.BitwiseOr(full, foliage, full);
            Witness witness = Learned.Witness.Of(foliage, byColour, tissueByColour is null ? null : FoliageFigures.Shares(tissueByColour.Codes).Damage);
            CrownTissue? tissue = Fills(foliage, options) ? CrownTissue.Of(codes, bounds, work, planes, foliage, options) : null;
            return new CrownOpinion(foliage, full, tissue, witness);
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Foliage.Dispose();
        Full?.Dispose();
        Tissue?.Dispose();
    }

    private static bool Fills(Mat foliage, CrownOptions options)
        => Cv2.CountNonZero(foliage) / (double)(foliage.Cols * foliage.Rows) is double share && share >= options.LeastShare && share <= 0.85;

    // The frame is fitted whole into the network's; what is left of it at the sides is filled by mirroring, as in training.
    private static (double Low, double High) Look(Mat bgr, Network network, Mat codes, Mat full)
    {
        double scale = Math.Min(Frame.Width / (double)bgr.Cols, Frame.Height / (double)bgr.Rows);
        Size inner = new(Math.Min(Frame.Width, (int)Math.Round(bgr.Cols * scale)), Math.Min(Frame.Height, (int)Math.Round(bgr.Rows * scale)));
        Rect place = new((Frame.Width - inner.Width) / 2, (Frame.Height - inner.Height) / 2, inner.Width, inner.Height);
        using Mat small = new();
        Cv2.Resize(bgr, small, inner, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        using Mat frame = new();
        Cv2.CopyMakeBorder(small, frame, place.Top, Frame.Height - place.Bottom, place.Left, Frame.Width - place.Right, BorderTypes.Reflect101);
        using FoliageScores scores = FoliageScores.OfPlant(frame, network);
        using Mat seen = new(scores.Codes, place);
        using Mat seenFull = new(scores.Full!, place);
        Cv2.Resize(seen, codes, codes.Size(), 0, 0, InterpolationFlags.Nearest);
        Cv2.Resize(seenFull, full, full.Size(), 0, 0, InterpolationFlags.Nearest);
        return scores.Bounds;
    }
}
