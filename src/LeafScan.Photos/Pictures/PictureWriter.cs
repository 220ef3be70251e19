using System.Runtime.InteropServices;
using OpenCvSharp;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;

namespace LeafScan.Photos.Pictures;

/// <summary>
/// Writes our own pictures. They carry no metadata, so no position ever leaves with them; a half-written file never takes
/// the place of a whole one.
/// </summary>
public static class PictureWriter
{
    /// <summary>Writes an 8-bit B, G, R or one-channel picture as JPEG.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="path">Where to; an existing file is replaced.</param>
    /// <param name="quality">JPEG quality 1..100, 88 by default.</param>
    /// <exception cref="PictureWriteException">The disk is full or the folder cannot be written to.</exception>
    public static void WriteJpeg(Mat picture, string path, int quality = 88)
        => Write(picture, path, new JpegEncoder { Quality = quality });

    /// <summary>Writes an 8-bit B, G, R or one-channel picture as PNG of the same depth.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="path">Where to; an existing file is replaced.</param>
    /// <exception cref="PictureWriteException">The disk is full or the folder cannot be written to.</exception>
    public static void WritePng(Mat picture, string path)
        => Write(picture, path, new PngEncoder
        {
            ColorType = picture.Channels() == 1 ? PngColorType.Grayscale : PngColorType.Rgb,
            BitDepth = PngBitDepth.Bit8,
            CompressionLevel = PngCompressionLevel.Level4,
        });

    private static void Write(Mat picture, string path, IImageEncoder encoder)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        string half = Path.Combine(folder, $".{Path.GetFileName(path)}.half");
        try
        {
            Directory.CreateDirectory(folder);
            using (FileStream stream = File.Create(half))
            {
                if (picture.Channels() == 1)
                {
                    using Image<L8> image = Copy<L8>(picture);
                    image.Save(stream, encoder);
                }
                else
                {
                    using Image<Bgr24> image = Copy<Bgr24>(picture);
                    image.Save(stream, encoder);
                }
            }

            File.Move(half, path, overwrite: true);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            TryDelete(half);
            throw new PictureWriteException($"The picture \"{path}\" could not be written; nothing that was there is lost. Free some space or choose another folder and run the command again.", problem);
        }
    }

    private static Image<TPixel> Copy<TPixel>(Mat picture)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        Image<TPixel> image = new(picture.Cols, picture.Rows);
        int width = picture.Cols;
        int bytes = width * picture.Channels();
        image.ProcessPixelRows(rows =>
        {
            for (int y = 0; y < rows.Height; y++)
            {
                ReadOnlySpan<byte> row = Row(picture, y, bytes);
                MemoryMarshal.Cast<byte, TPixel>(row).CopyTo(rows.GetRowSpan(y));
            }
        });
        return image;
    }

    private static unsafe ReadOnlySpan<byte> Row(Mat picture, int y, int bytes) => new((void*)picture.Ptr(y), bytes);

    private static void TryDelete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            // The half-written file stays; its name starts with a dot and nothing reads it.
        }
    }
}

/// <summary>A picture could not be written; the message says what is safe and what to do.</summary>
public sealed class PictureWriteException : IOException
{
    /// <summary>For serialisers.</summary>
    public PictureWriteException()
    {
    }

    /// <summary>With a sentence for the person.</summary>
    public PictureWriteException(string message)
        : base(message)
    {
    }

    /// <summary>With a sentence for the person and the cause.</summary>
    public PictureWriteException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
