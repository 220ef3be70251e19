using ImageMagick;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;

namespace LeafScan.Photos.Gate;

/// <summary>
/// Lets through only JPEG, PNG and HEIC of a sane size, judged from the header alone: a few kilobytes can claim hundreds of
/// megapixels.
/// </summary>
internal static class PhotoGate
{
    // Two decoders and no more: none of the formats in which the library had its faults is reachable.
    private static readonly Configuration Headers = new(new JpegConfigurationModule(), new PngConfigurationModule());

    /// <summary>A refusal, or null when the file may be decoded.</summary>
    public static PhotoRefusal? Check(string name, byte[] bytes, PhotoLimits limits, out PhotoFormat format)
    {
        format = default;
        if (FirstBytes.Tell(bytes, out string other) is not { } found)
        {
            return new PhotoRefusal(name, $"This is {other}; JPEG, PNG and HEIC photos are read.", "Leave it out, or save it as JPEG.");
        }

        format = found;
        if (Size(bytes, found) is not { } size)
        {
            return new PhotoRefusal(name, "The file starts like a photo but its header is damaged.", "Copy the photo again from the phone, or take it again.");
        }

        long pixels = (long)size.Width * size.Height;
        if (pixels > limits.LargestPicturePx)
        {
            return new PhotoRefusal(name, $"The picture has {pixels / 1_000_000} megapixels, more than the {limits.LargestPicturePx / 1_000_000} that are read.", "Save a smaller copy and measure that.");
        }

        if (pixels > PixelsPerByte.Most(found, size.BitsPerPx) * bytes.LongLength)
        {
            return new PhotoRefusal(name, $"The file is far too small for a picture of {size.Width} x {size.Height} pixels: it is cut off, its header is damaged, or the picture is blank.", "Copy the photo again from the phone, or take it again.");
        }

        if (Math.Min(size.Width, size.Height) < limits.ShortestSidePx)
        {
            return new PhotoRefusal(name, $"The picture has only {size.Width} x {size.Height} pixels.", "Use the photo as the camera stored it, not a thumbnail.");
        }

        return null;
    }

    private static (int Width, int Height, int BitsPerPx)? Size(byte[] bytes, PhotoFormat format)
    {
        try
        {
            if (format == PhotoFormat.Heic)
            {
                MagickImageInfo info = new(bytes, new MagickReadSettings { Format = MagickFormat.Heic });
                return ((int)info.Width, (int)info.Height, 0);
            }

            using MemoryStream stream = new(bytes, writable: false);
            IImageInfo? header = Image.Identify(Headers, stream);
            return header is null ? null : (header.Width, header.Height, header.PixelType.BitsPerPixel);
        }
        // A hostile header makes the library fail in ways of its own (a null reference, say): all of them mean a damaged header.
        catch (Exception problem) when (problem is not OutOfMemoryException)
        {
            return null;
        }
    }
}
