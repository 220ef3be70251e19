using System.ComponentModel;
using System.Diagnostics;
using ImageMagick;
using LeafScan.Photos;
using LeafScan.Training.Rendering;
using OpenCvSharp;

namespace LeafScan.Training.Fuzz;

/// <summary>One sound picture file.</summary>
/// <param name="Name">What it is, in words.</param>
/// <param name="Bytes">Its bytes.</param>
/// <param name="Format">Its format; null for one that is not read.</param>
internal sealed record PictureOriginal(string Name, byte[] Bytes, PhotoFormat? Format);

/// <summary>The sound pictures that are damaged: a rendered leaf in every format that is read, and in some that are not.</summary>
internal static class PictureOriginals
{
    private const int LongSidePx = 400;

    private const int WidthPx = 240;

    /// <summary>Makes them. HEIC comes from the program heif-enc; without it HEIC is left out.</summary>
    /// <param name="folder">Folder for files on the way.</param>
    public static List<PictureOriginal> Make(string folder)
    {
        using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(4, Difficulty.Easy, LongSidePx));
        byte[] camera = scene.Jpeg.ToArray();
        using MagickImage image = new(camera);
        image.Resize(WidthPx, 0);
        image.Quality = 85;
        List<PictureOriginal> all =
        [
            new("JPEG as a camera writes it", camera, PhotoFormat.Jpeg),
            new("JPEG", image.ToByteArray(MagickFormat.Jpeg), PhotoFormat.Jpeg),
            new("progressive JPEG", image.ToByteArray(MagickFormat.Pjpeg), PhotoFormat.Jpeg),
            new("PNG", image.ToByteArray(MagickFormat.Png24), PhotoFormat.Png),
            new("PNG of 16 bits", image.ToByteArray(MagickFormat.Png48), PhotoFormat.Png),
            new("TIFF", image.ToByteArray(MagickFormat.Tiff), null),
            new("WebP", image.ToByteArray(MagickFormat.WebP), null),
        ];
        if (Heic(image, folder) is { } heic)
        {
            all.InsertRange(5, [new("HEIC", heic, PhotoFormat.Heic), new("HEIC", heic, PhotoFormat.Heic)]);
        }

        return all;
    }

    /// <summary>The pixels of a sound picture, as they are measured.</summary>
    public static Mat Pixels(PictureOriginal original, string path)
    {
        File.WriteAllBytes(path, original.Bytes);
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
        return (outcome.Photo ?? throw new InvalidOperationException($"The sound {original.Name} is refused: {outcome.Refusal!.Reason}")).Pixels.Clone();
    }

    private static byte[]? Heic(MagickImage image, string folder)
    {
        string from = Path.Combine(folder, "sound.png"), to = Path.Combine(folder, "sound.heic");
        try
        {
            image.Write(from, MagickFormat.Png24);
            using Process program = Process.Start(new ProcessStartInfo("heif-enc", ["-q", "80", "-o", to, from]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            program.StandardError.ReadToEnd();
            program.WaitForExit();
            return program.ExitCode == 0 ? File.ReadAllBytes(to) : null;
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
