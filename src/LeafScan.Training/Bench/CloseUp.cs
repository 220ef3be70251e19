using LeafScan.Leaves;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Training.Bench;

/// <summary>
/// Judges the tissue of a close-up in which the leaf fills the photo and no outline is in view. A user's photo of this kind is
/// refused or read in part; here the whole photo is given as leaf, to measure the judging of tissue alone.
/// </summary>
internal static class CloseUp
{
    /// <summary>Mask codes, size of the photo; the caller disposes.</summary>
    public static Mat Codes(Mat bgr, MeasureOptions options)
    {
        FoundLeaf whole = new(new Rect(0, 0, bgr.Cols, bgr.Rows), new Mat(bgr.Size(), MatType.CV_8UC1, Scalar.All(255)), []);
        Network? network = options.Tissue.Learned ? ModelFiles.Tissue : null;
        SpeckJudge? judge = network is not null && options.Tissue.SpeckChance <= 1 ? ModelFiles.SpeckJudge : null;
        using JudgedLeaf leaf = network is null
            ? LeafFinder.ByColour(bgr, whole, options.Tissue)
            : LearnedLeaf.Judge(bgr, whole, network, judge, options.Tissue);
        Mat codes = new();
        Cv2.Resize(leaf.Tissue.Codes, codes, bgr.Size(), 0, 0, InterpolationFlags.Nearest);
        return codes;
    }
}
