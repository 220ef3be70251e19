using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Colour of the light on a twig or plant, as something white in the photo shows it.</summary>
/// <param name="RedToGreen">ln(R/G) of white; 0 where nothing white is seen.</param>
/// <param name="BlueToGreen">ln(B/G) of white; 0 where nothing white is seen.</param>
/// <param name="Known">Something white was seen.</param>
internal readonly record struct FrameLight(double RedToGreen, double BlueToGreen, bool Known)
{
    /// <summary>Nothing in the photo tells.</summary>
    public static readonly FrameLight Unknown = new(0, 0, false);

    /// <summary>The photo was balanced by its scale sheet before.</summary>
    public static readonly FrameLight Balanced = new(0, 0, true);

    /// <summary>The sheet's own colour where the foliage lies.</summary>
    public static FrameLight Of(PaperModel? paper, ColourPlanes planes, Mat foliage) => paper is null ? Unknown : new(
        Cv2.Mean(planes.RedToGreen, foliage).Val0 - Cv2.Mean(paper.RedGreenOff, foliage).Val0,
        Cv2.Mean(planes.BlueToGreen, foliage).Val0 - Cv2.Mean(paper.BlueGreenOff, foliage).Val0,
        true);
}
