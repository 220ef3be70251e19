using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Photos.Colour;
using OpenCvSharp;

namespace LeafScan.Cli.Bench;

/// <summary>The three things that are timed side by side, each from the file on.</summary>
internal static class BenchWork
{
    // Those between which specks of three to twelve pixels are looked for.
    private static readonly double[] SigmasPx = [1.2, 2.4, 4.8];

    /// <summary>Bare decode: the file as upright sRGB pixels, through the same door as everything that is measured.</summary>
    public static void Decode(string path)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        _ = Opened(path, outcome);
    }

    /// <summary>
    /// The floor: what any measuring of leaf colour in full must do at least. Decode, one conversion of all pixels to CIE Lab
    /// in 32-bit floats, three Gaussians over all three planes.
    /// </summary>
    public static void Floor(string path)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        using Mat lab = LabPicture.Of(Opened(path, outcome).Pixels);
        using Mat smooth = new();
        foreach (double sigma in SigmasPx)
        {
            Cv2.GaussianBlur(lab, smooth, default, sigma);
        }
    }

    /// <summary>Our reading, whole: frame, kind, outline, tissue, specks, chewing, causes, mask.</summary>
    /// <returns>The damage of the largest leaf; NaN when the photo was refused.</returns>
    public static double Read(string path)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        using LeafMeasurement measured = LeafMeter.Measure(Opened(path, outcome), new MeasureOptions());
        return measured.Reading is { Leaves: [var leaf, ..] } ? leaf.Damage : double.NaN;
    }

    private static Photo Opened(string path, PhotoOutcome outcome) => outcome.Photo
        ?? throw new CommandException(ExitCode.NothingMeasurable, $"{Path.GetFileName(path)} cannot be read: {outcome.Refusal!.Reason} {outcome.Refusal.Advice}");
}
