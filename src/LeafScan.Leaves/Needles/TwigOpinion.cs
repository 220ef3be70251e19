using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>
/// What a twig is and what each pixel of it looks like: by the network where there is one, with the colour way as its witness,
/// else by the colour way alone. Owns its masks.
/// </summary>
internal sealed class TwigOpinion : IDisposable
{
    // Pieces smaller than this share of the largest are other things.
    private const double LeastPiece = 0.01;

    private TwigOpinion(Mat twig, Mat byColour, TwigTissue? tissue, Witness? witness)
    {
        Twig = twig;
        ByColour = byColour;
        Tissue = tissue;
        Witness = witness;
    }

    /// <summary>255 on the twig, working copy.</summary>
    public Mat Twig { get; }

    /// <summary>The colour way's cut, the same as <see cref="Twig"/> where that one counts: the shape of single needles was learned from its edges.</summary>
    public Mat ByColour { get; }

    /// <summary>Its tissue; null where there is no twig to speak of.</summary>
    public TwigTissue? Tissue { get; }

    /// <summary>What the colour way says beside the network; null where it worked alone.</summary>
    public Witness? Witness { get; }

    /// <summary>Looks at a twig.</summary>
    /// <param name="bgr">Working copy.</param>
    /// <param name="planes">Its colour.</param>
    /// <param name="paper">The sheet; null when there is none.</param>
    /// <param name="options">Thresholds.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static TwigOpinion Of(Mat bgr, ColourPlanes planes, PaperModel? paper, TwigOptions options, CancellationToken cancel)
    {
        Mat byColour = TwigCutter.Cut(bgr, planes, paper, cancel);
        cancel.ThrowIfCancellationRequested();
        bool seen = Fills(byColour, options);
        TwigTissue? tissueByColour = seen ? TwigTissue.Judge(bgr, planes, byColour, paper is not null, options) : null;
        if (!options.UseNetwork || ModelFiles.Twig is not { } network)
        {
            return new TwigOpinion(byColour, byColour, tissueByColour, null);
        }

        using FoliageScores scores = FoliageScores.OfTwig(bgr, network);
        cancel.ThrowIfCancellationRequested();
        Mat twig = new();
        Cv2.Compare(scores.Codes, new Scalar(0), twig, CmpTypes.GT);
        Pieces.KeepLarge(twig, LeastPiece);
        TwigTissue? tissue = Fills(twig, options) ? TwigTissue.Of(scores, bgr, planes, twig) : null;
        TwigTissue? onSame = tissue is null ? null : TwigTissue.Judge(bgr, planes, twig, paper is not null, options);
        Witness witness = new(Learned.Witness.OverlapOf(twig, byColour), Damage(tissue), Damage(tissueByColour), Damage(onSame), Learned.Witness.OfTwigs);
        return Settled(witness, paper is not null, (twig, tissue), (byColour, tissueByColour), onSame);
    }

    // Takes ownership of all and keeps what decides.
    private static TwigOpinion Settled(Witness witness, bool onSheet, (Mat Twig, TwigTissue? Tissue) network, (Mat Twig, TwigTissue? Tissue) colour, TwigTissue? onSame)
    {
        if (witness.CutByColour(onSheet))
        {
            network.Twig.Dispose();
            network.Tissue?.Dispose();
            onSame?.Dispose();
            return new TwigOpinion(colour.Twig, colour.Twig, colour.Tissue, witness);
        }

        colour.Tissue?.Dispose();
        bool byColour = onSame is not null && witness.TissueByColour(!onSame.Own.Unsure);
        (byColour ? network.Tissue : onSame)?.Dispose();
        return new TwigOpinion(network.Twig, colour.Twig, byColour ? onSame : network.Tissue, witness);
    }

    private static double? Damage(TwigTissue? tissue) => tissue is null ? null : FoliageFigures.Shares(tissue.Codes).Damage;

    /// <inheritdoc />
    public void Dispose()
    {
        Twig.Dispose();
        ByColour.Dispose();
        Tissue?.Dispose();
    }

    private static bool Fills(Mat twig, TwigOptions options)
        => Cv2.CountNonZero(twig) / (double)(twig.Cols * twig.Rows) is double share && share >= options.LeastShare && share <= 0.9;
}
