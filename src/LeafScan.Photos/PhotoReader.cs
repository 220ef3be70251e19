using System.Diagnostics;
using System.Security.Cryptography;
using LeafScan.Photos.Decoding;
using LeafScan.Photos.Gate;
using OpenCvSharp;

namespace LeafScan.Photos;

/// <summary>
/// The door of this project: opens one photo file. First the gate (kind by first bytes, size limits, nothing decoded),
/// then the decoder (colour profile to sRGB, upright once, damage reported), then a look at sharpness and exposure.
/// </summary>
public static class PhotoReader
{
    /// <summary>
    /// Reads a photo. A file that cannot or must not be read gives a refusal, never an exception; only running out of memory
    /// and a cancelled token throw.
    /// </summary>
    /// <param name="path">The file.</param>
    /// <param name="limits">What is refused before anything is decoded.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static PhotoOutcome Open(string path, PhotoLimits limits, CancellationToken cancel = default)
    {
        string name = Path.GetFileName(path);
        PhotoRefusal? refusal = FileBytes.Read(path, limits, out byte[] bytes);
        if (refusal is not null)
        {
            return PhotoOutcome.Refused(refusal);
        }

        cancel.ThrowIfCancellationRequested();
        if (PhotoGate.Check(name, bytes, limits, out PhotoFormat format) is { } stopped)
        {
            return PhotoOutcome.Refused(stopped);
        }

        cancel.ThrowIfCancellationRequested();
        DecodedPicture decoded = Decode(bytes, format);
        if (decoded.Pixels is not { } pixels)
        {
            return PhotoOutcome.Refused(new PhotoRefusal(
                name, $"The file is damaged and cannot be opened ({decoded.Problem}).", "Copy the photo again from the phone, or take it again."));
        }

        return PhotoOutcome.Read(Describe(path, name, bytes, format, pixels, decoded));
    }

    private static DecodedPicture Decode(byte[] bytes, PhotoFormat format)
    {
        using Activity? step = Steps.Begin("decode");
        return PictureDecoder.Decode(bytes, format);
    }

    private static Photo Describe(string path, string name, byte[] bytes, PhotoFormat format, Mat pixels, DecodedPicture decoded)
    {
        try
        {
            PhotoFacts facts = new()
            {
                FileName = name,
                Path = Path.GetFullPath(path),
                Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)),
                ByteLength = bytes.Length,
                Format = format,
                WidthPx = pixels.Cols,
                HeightPx = pixels.Rows,
                Taken = CaptureTimeReader.Read(bytes),
            };

            // Nobody needs sharpness and exposure before the reading is put together: beside what comes next, where there is a processor for it.
            return Cv2.GetNumThreads() > 1
                ? new Photo(facts, pixels, Task.Run<IReadOnlyList<string>>(() => Flags(pixels, decoded)))
                : new Photo(facts, pixels, Flags(pixels, decoded));
        }
        catch
        {
            pixels.Dispose();
            throw;
        }
    }

    private static List<string> Flags(Mat pixels, DecodedPicture decoded)
    {
        using Activity? step = Steps.Begin("quality");
        List<string> flags = [];
        if (decoded.Damaged)
        {
            flags.Add(Flag.DamagedFile.Name);
        }

        if (decoded.Grey)
        {
            flags.Add(Flag.NoColour.Name);
        }

        flags.AddRange(PhotoQuality.Flags(pixels, new PhotoQualityOptions()));
        return flags;
    }
}
