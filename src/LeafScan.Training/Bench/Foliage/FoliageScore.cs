using System.Diagnostics;
using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Overlay;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Foliage;

/// <summary>One rendered twig or plant as it was measured, beside its truth.</summary>
/// <param name="Name">File name.</param>
/// <param name="Truth">The truth.</param>
/// <param name="Reading">What was measured; null when refused.</param>
/// <param name="OutlineIou">Overlap of measured and true foliage, 0..1.</param>
/// <param name="Seconds">Time to open and measure it.</param>
/// <param name="Refused">Why it was refused; null when measured.</param>
internal sealed record FoliageScore(string Name, FoliageTruth Truth, LeafReading? Reading, double OutlineIou, double Seconds, string? Refused)
{
    /// <summary>Specks per cm of needle, the scale taken from the truth: no sheet lies in the photo; null where needles were not seen one by one or specks have too few pixels; photos of 1600 pixels only.</summary>
    public double? SpecksPerCmOfNeedle { get; private init; }

    /// <summary>Needles were seen one by one.</summary>
    public bool SeesNeedles { get; private init; }

    /// <summary>The first cause is mites, or mites are called likely.</summary>
    public bool SaysMites => Reading is { } reading && reading.Causes.Any(cause => cause.Cause == "miteStippling" && (cause.Score >= 0.5 || cause == reading.Causes[0]));

    /// <summary>Measures one photo by the kind its truth names.</summary>
    /// <param name="one">Photo and truth.</param>
    /// <param name="overlays">Folder that receives overlays; null for none.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <param name="healthy">Colour from a healthy photo of the same; null for none.</param>
    public static FoliageScore Of(TruthCase one, string? overlays, CancellationToken cancel, HealthyColour? healthy = null)
    {
        FoliageTruth truth = FoliageTruth.Read(one.JsonPath!);
        Stopwatch watch = Stopwatch.StartNew();
        using PhotoOutcome outcome = PhotoReader.Open(one.PhotoPath, new PhotoLimits(), cancel);
        using LeafMeasurement? measured = outcome.Photo is { } photo ? LeafMeter.Measure(photo, new MeasureOptions { Kind = truth.Kind, Healthy = healthy }, cancel) : null;
        double seconds = watch.Elapsed.TotalSeconds;
        string name = Path.GetFileNameWithoutExtension(one.PhotoPath);
        if (measured?.Reading is not { } reading)
        {
            return new FoliageScore(name, truth, null, 0, seconds, outcome.Refusal?.Reason ?? measured?.Refusal?.Reason);
        }

        if (overlays is not null)
        {
            using Mat overlay = OverlayPainter.Paint(outcome.Photo!, measured.Mask!, reading);
            PictureWriter.WriteJpeg(overlay, Path.Combine(overlays, name + ".overlay.jpg"));
            PictureWriter.WritePng(measured.Mask!, Path.Combine(overlays, name + ".mask.png"));
        }

        using Mat codes = Cv2.ImRead(one.MaskPath, ImreadModes.Grayscale);
        return new FoliageScore(name, truth, reading.Leaves[0], Iou(codes, measured.Mask!), seconds, null)
        {
            SeesNeedles = measured.NeedleLengthPx is not null,
            SpecksPerCmOfNeedle = measured.NeedleLengthPx is { } length && truth.PixelsPerMm >= LeafScale.LeastPxPerMmForSpecks ? reading.Leaves[0].SpeckCount / (length / truth.PixelsPerMm / 10) : null,
        };
    }

    private static double Iou(Mat truth, Mat measured)
    {
        using Mat a = new();
        using Mat b = new();
        Cv2.Compare(truth, new Scalar(0), a, CmpTypes.GT);
        Cv2.Compare(measured, new Scalar(0), b, CmpTypes.GT);
        using Mat both = new();
        using Mat either = new();
        Cv2.BitwiseAnd(a, b, both);
        Cv2.BitwiseOr(a, b, either);
        return Cv2.CountNonZero(both) / (double)Math.Max(1, Cv2.CountNonZero(either));
    }
}
