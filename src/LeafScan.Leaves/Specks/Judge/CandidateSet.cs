using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Discolouring;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>The candidates of one leaf with the pictures that they were found in. Owns the pictures.</summary>
internal sealed class CandidateSet : IDisposable
{
    private CandidateSet(ColourResponse response, Mat yellowed, List<SpeckCandidate> candidates)
        => (Response, Yellowed, Candidates) = (response, yellowed, candidates);

    /// <summary>The colour way's response.</summary>
    public ColourResponse Response { get; }

    /// <summary>255 where the network sees yellowed tissue.</summary>
    public Mat Yellowed { get; }

    /// <summary>All that may be a speck.</summary>
    public List<SpeckCandidate> Candidates { get; }

    /// <summary>Finds them.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="scores">The network's answer.</param>
    /// <param name="codes">Mask codes made from that answer.</param>
    /// <param name="options">Thresholds.</param>
    public static CandidateSet Of(LeafPatch patch, TissueScores scores, Mat codes, TissueOptions options)
    {
        using ColourRatios ratios = ColourRatios.Of(patch.Bgr);
        SoundColour sound = SoundColour.Fit(ratios, patch.Mask);
        using Mat bleach = BleachStrength.Of(ratios, sound);
        Mat yellowed = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Yellowed), Scalar.All((int)MaskCode.Yellowed), yellowed);
        ColourResponse response = ColourResponse.Of(patch, bleach);
        return new CandidateSet(response, yellowed, CandidateFinder.Find(patch, scores, codes, response, yellowed, options));
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Response.Dispose();
        Yellowed.Dispose();
    }
}
