using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tissue;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>The candidates of one leaf with the yellow that they were found in. Owns that picture.</summary>
internal sealed class CandidateSet : IDisposable
{
    private CandidateSet(Mat yellowed, List<SpeckCandidate> candidates) => (Yellowed, Candidates) = (yellowed, candidates);

    /// <summary>255 where the network sees yellowed tissue.</summary>
    public Mat Yellowed { get; }

    /// <summary>All that may be a speck.</summary>
    public List<SpeckCandidate> Candidates { get; }

    /// <summary>Finds them.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="colour">What colour sees on it.</param>
    /// <param name="scores">The network's answer.</param>
    /// <param name="codes">Mask codes made from that answer.</param>
    /// <param name="options">Thresholds.</param>
    public static CandidateSet Of(LeafPatch patch, ColourFinding colour, TissueScores scores, Mat codes, TissueOptions options)
    {
        Mat yellowed = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Yellowed), Scalar.All((int)MaskCode.Yellowed), yellowed);
        return new CandidateSet(yellowed, CandidateFinder.Find(patch, scores, codes, colour, yellowed, options));
    }

    /// <inheritdoc />
    public void Dispose() => Yellowed.Dispose();
}
