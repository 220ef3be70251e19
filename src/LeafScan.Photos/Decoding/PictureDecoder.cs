using ImageMagick;
using OpenCvSharp;

namespace LeafScan.Photos.Decoding;

/// <summary>
/// Decodes a photo for measuring: the one decoder of all that is measured, because decoders do not agree on pixels and only
/// this one reports every kind of damage. Colour profiles are converted to sRGB, JPEG and PNG are turned by their EXIF
/// orientation, HEIC is turned by the decoder itself.
/// </summary>
internal static class PictureDecoder
{
    static PictureDecoder()
    {
        ResourceLimits.Width = 40_000;
        ResourceLimits.Height = 40_000;
        ResourceLimits.Area = 140_000_000;
        ResourceLimits.Memory = 2_000_000_000;
        ResourceLimits.Disk = 0;
    }

    /// <summary>Decodes bytes that have passed the gate.</summary>
    public static DecodedPicture Decode(byte[] bytes, PhotoFormat format)
    {
        bool damaged = format == PhotoFormat.Jpeg && !JpegEnd.IsWhole(bytes);
        try
        {
            using MagickImage image = new();
            image.Warning += (_, _) => damaged = true;
            image.Read(bytes, new MagickReadSettings { Format = FormatOf(format) });
            if (format != PhotoFormat.Heic)
            {
                image.AutoOrient();
            }

            bool grey = image.ColorSpace is ColorSpace.Gray or ColorSpace.LinearGray;
            ToSrgb(image);
            return new DecodedPicture(ToMat(image), damaged, grey, string.Empty);
        }
        catch (MagickException problem)
        {
            return new DecodedPicture(null, true, false, Short(problem.Message));
        }
    }

    private static void ToSrgb(MagickImage image)
    {
        if (image.GetColorProfile() is not null)
        {
            image.TransformColorSpace(ColorProfiles.SRGB);
        }

        if (image.ColorSpace != ColorSpace.sRGB)
        {
            image.ColorSpace = ColorSpace.sRGB;
        }

        if (image.HasAlpha)
        {
            image.BackgroundColor = MagickColors.White;
            image.Alpha(AlphaAction.Remove);
        }
    }

    private static unsafe Mat ToMat(MagickImage image)
    {
        using IUnsafePixelCollection<byte> pixels = image.GetPixelsUnsafe();
        byte[] bgr = pixels.ToByteArray(0, 0, image.Width, image.Height, PixelMapping.BGR)
            ?? throw new MagickImageErrorException("no pixels");
        Mat mat = new((int)image.Height, (int)image.Width, MatType.CV_8UC3);
        bgr.AsSpan().CopyTo(new Span<byte>((void*)mat.Data, bgr.Length));
        return mat;
    }

    private static MagickFormat FormatOf(PhotoFormat format) => format switch
    {
        PhotoFormat.Jpeg => MagickFormat.Jpeg,
        PhotoFormat.Png => MagickFormat.Png,
        _ => MagickFormat.Heic,
    };

    private static string Short(string message)
    {
        int cut = message.IndexOf('@', StringComparison.Ordinal);
        string text = (cut > 0 ? message[..cut] : message).Trim(' ', '`', '\'', '.');
        return text.Length > 80 ? text[..80] : text;
    }
}
