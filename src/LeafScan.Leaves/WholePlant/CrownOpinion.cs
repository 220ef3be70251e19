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

    // Smaller holes than this share of the foliage are the plant's own looseness.
    private const double LeastHole = 0.01;

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

    /// <summary>Missing share of the foliage by the colour way, where its cut is another one; null elsewhere.</summary>
    public double? OtherThinning { get; private init; }

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

        using (Mat codes = new(work.Size(), MatType.CV_8UC1))
        {
            Mat full = new(work.Size(), MatType.CV_8UC1);
            (double, double) bounds = Look(bgr, network, codes, full);
            cancel.ThrowIfCancellationRequested();
            Mat foliage = new();
            Cv2.Compare(codes, new Scalar(0), foliage, CmpTypes.GT);
            Pieces.KeepLarge(foliage, LeastPiece);
            Cv2.BitwiseOr(full, foliage, full);
            AddHoles(full, foliage);
            CrownTissue? onSame = Fills(foliage, options) ? CrownTissue.Judge(work, planes, foliage, options) : null;
            CrownTissue? tissue = onSame?.Told(codes, bounds, foliage);
            Witness witness = new(Learned.Witness.OverlapOf(foliage, byColour), Damage(tissue), Damage(tissueByColour), Damage(onSame), Learned.Witness.OfPlants);
            if (witness.CutByColour(onSheet: false))
            {
                full.Dispose();
                foliage.Dispose();
                return new CrownOpinion(byColour, null, tissueByColour, witness);
            }

            tissueByColour?.Dispose();
            bool colourDecides = onSame is not null && witness.TissueByColour(!onSame.Own.Unsure);
            (colourDecides ? tissue : onSame)?.Dispose();
            double? otherThinning = witness.CutsPart ? CrownGaps.Guessed(byColour) : null;
            byColour.Dispose();
            return new CrownOpinion(foliage, full, colourDecides ? onSame : tissue, witness)
            {
                OtherThinning = otherThinning,
            };
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

    private static double? Damage(CrownTissue? tissue) => tissue is null ? null : FoliageFigures.Shares(tissue.Codes).Damage;

    // A large hole with foliage all around is a gap, whatever a network that has seen few such holes says.
    private static void AddHoles(Mat full, Mat foliage)
    {
        Cv2.FindContours(foliage, out Point[][] contours, out HierarchyIndex[] levels, RetrievalModes.CComp, ContourApproximationModes.ApproxNone);
        double least = LeastHole * Cv2.CountNonZero(foliage);
        for (int i = 0; i < contours.Length; i++)
        {
            if (levels[i].Parent >= 0 && Cv2.ContourArea(contours[i]) > least)
            {
                Cv2.DrawContours(full, contours, i, Scalar.All(255), -1);
            }
        }
    }

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
