using System.Diagnostics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Discolouring;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>
/// What the colour way sees on a leaf before anything is known of the network's answer: it needs the leaf's pixels alone. Owns its pictures.
/// </summary>
internal sealed class ColourFinding : IDisposable
{
    private ColourFinding(ColourResponse response, Mat smooth, Mat toMargin, IReadOnlyList<SpeckPeak> peaks, Scalar meanLab)
        => (Response, Smooth, ToMargin, Peaks, MeanLab) = (response, smooth, toMargin, peaks, meanLab);

    /// <summary>The response at each pixel.</summary>
    public ColourResponse Response { get; }

    /// <summary>The strength in which a speck's shape is grown.</summary>
    public Mat Smooth { get; }

    /// <summary>Distance of each leaf pixel to the margin, 32-bit float, pixels.</summary>
    public Mat ToMargin { get; }

    /// <summary>Peaks of the response, strongest first.</summary>
    public IReadOnlyList<SpeckPeak> Peaks { get; }

    /// <summary>Mean L*, a*, b* of the leaf.</summary>
    public Scalar MeanLab { get; }

    /// <summary>Looks at a leaf.</summary>
    /// <param name="patch">The leaf.</param>
    /// <param name="options">Thresholds.</param>
    public static ColourFinding Of(LeafPatch patch, TissueOptions options)
    {
        using Activity? step = Steps.Begin("speck colour");
        using ColourRatios ratios = ColourRatios.Of(patch.Bgr);
        SoundColour sound = SoundColour.Fit(ratios, patch.Mask);
        using Mat bleach = BleachStrength.Of(ratios, sound);
        ColourResponse response = ColourResponse.Of(patch, bleach);
        Mat toMargin = new();
        Cv2.DistanceTransform(patch.Mask, toMargin, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        return new ColourFinding(
            response, SpeckFinder.Smooth(response.Strength), toMargin, SpeckFinder.Peaks(patch.Mask, response, options), Cv2.Mean(response.Lab, patch.Mask));
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Response.Dispose();
        Smooth.Dispose();
        ToMargin.Dispose();
    }
}
