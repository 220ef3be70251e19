using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Cli.Bench;

/// <summary>
/// A leaf photo of twelve megapixels that every machine with this program can make for itself: a demo photo enlarged, with
/// sensor noise of a fixed seed so that its file is as heavy to decode as a phone's.
/// </summary>
internal static class BenchPhoto
{
    /// <summary>Width in pixels.</summary>
    public const int WidthPx = 4000;

    /// <summary>Height in pixels.</summary>
    public const int HeightPx = 3000;

    // Levels; what a phone leaves of its noise in daylight after its own smoothing (common practice, no source).
    private const double NoiseLevels = 2;

    /// <summary>Path of the photo; made on the first call and kept in the folder for temporary files.</summary>
    /// <param name="sample">The demo photo.</param>
    /// <param name="folder">Folder for temporary files.</param>
    /// <exception cref="CommandException">The demo photo is missing or damaged.</exception>
    /// <exception cref="PictureWriteException">It cannot be written.</exception>
    public static string Make(string sample, string folder)
    {
        string path = Path.Combine(folder, "leafscan-bench", "bench-12mp-1.jpg");
        if (File.Exists(path))
        {
            return path;
        }

        using PhotoOutcome outcome = PhotoReader.Open(sample, new PhotoLimits());
        if (outcome.Photo is not { } photo)
        {
            throw new CommandException(ExitCode.StoreTrouble, $"The demo photo {sample} is missing or damaged. Nothing was measured. Name a photo of yours with --photo.");
        }

        using Mat large = new();
        Cv2.Resize(photo.Pixels, large, new Size(WidthPx, HeightPx), 0, 0, InterpolationFlags.Cubic);
        using Mat noise = new(large.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG(12);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(NoiseLevels));
        using Mat noisy = new();
        Cv2.Add(large, noise, noisy, null, MatType.CV_8U);
        PictureWriter.WriteJpeg(noisy, path, 92);
        return path;
    }
}
