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
    /// <param name="bytes">The file.</param>
    /// <param name="format">Its kind.</param>
    /// <param name="atLeastPx">Long side that is enough: a JPEG is then decoded at a half, a quarter or an eighth where that still reaches it. 0 for all there is.</param>
    public static DecodedPicture Decode(byte[] bytes, PhotoFormat format, int atLeastPx = 0)
    {
        bool damaged = (format == PhotoFormat.Jpeg && !JpegEnd.IsWhole(bytes)) || (format == PhotoFormat.Heic && !HeicEnd.IsWhole(bytes));
        try
        {
            using MagickImage image = new();

            // Other warnings are about metadata (a torn XMP block, say) and leave the pixels alone.
            image.Warning += (_, warning) => damaged |= warning.Exception is MagickCorruptImageWarningException;
            MagickReadSettings settings = new() { Format = FormatOf(format) };
            if (atLeastPx > 0 && format == PhotoFormat.Jpeg)
            {
                settings.SetDefine(MagickFormat.Jpeg, "size", $"{atLeastPx}x{atLeastPx}");
            }

            image.Read(bytes, settings);
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

    // Straight from the decoder's own memory: a 12-megapixel photo would otherwise cost a 36 MB array each time.
    private static Mat ToMat(MagickImage image)
    {
        using IUnsafePixelCollection<byte> pixels = image.GetPixelsUnsafe();
        (int rows, int cols) = ((int)image.Height, (int)image.Width);
        IntPtr memory = pixels.GetAreaPointer(0, 0, image.Width, image.Height);
        Mat bgr = new();
        if (memory != IntPtr.Zero && pixels.Channels is 3 or 4)
        {
            using Mat view = Mat.FromPixelData(rows, cols, pixels.Channels == 3 ? MatType.CV_8UC3 : MatType.CV_8UC4, memory);
            Cv2.CvtColor(view, bgr, pixels.Channels == 3 ? ColorConversionCodes.RGB2BGR : ColorConversionCodes.RGBA2BGR);
            return bgr;
        }

        byte[] copy = pixels.ToByteArray(0, 0, image.Width, image.Height, PixelMapping.BGR)
            ?? throw new MagickImageErrorException("no pixels");
        using Mat whole = Mat.FromPixelData(rows, cols, MatType.CV_8UC3, copy);
        whole.CopyTo(bgr);
        return bgr;
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
