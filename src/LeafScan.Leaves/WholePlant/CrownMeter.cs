using LeafScan.Leaves.Needles;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.WholePlant;

/// <summary>Measures a whole plant from two to four metres.</summary>
internal static class CrownMeter
{
    public static KindMeasurement Measure(Mat bgr, CrownOptions options, CaptureTime? taken, CancellationToken cancel)
        => KindMeasurement.None("Whole plants cannot be measured yet.", "Photograph twigs or leaves.");
}
