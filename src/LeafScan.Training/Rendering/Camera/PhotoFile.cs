using System.Globalization;
using System.Runtime.InteropServices;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;
using SixLabors.ImageSharp.PixelFormats;

namespace LeafScan.Training.Rendering.Camera;

/// <summary>Writes a rendered photo as JPEG with the capture time in EXIF, as a phone does, but without a position.</summary>
internal static class PhotoFile
{
    public static byte[] Jpeg(Mat photo, CameraSpec spec)
    {
        using Image<Bgr24> image = new(photo.Cols, photo.Rows);
        image.ProcessPixelRows(rows =>
        {
            for (int y = 0; y < rows.Height; y++)
            {
                MemoryMarshal.Cast<byte, Bgr24>(Pixels.Bytes(photo, y)).CopyTo(rows.GetRowSpan(y));
            }
        });
        image.Metadata.ExifProfile = Exif(photo, spec);
        using MemoryStream stream = new();
        image.Save(stream, new JpegEncoder { Quality = spec.JpegQuality, ColorType = JpegColorType.YCbCrRatio420 });
        return stream.ToArray();
    }

    private static ExifProfile Exif(Mat photo, CameraSpec spec)
    {
        // In the order of the tag numbers, with what EXIF 2.32 asks of every JPEG.
        ExifProfile exif = new();
        exif.SetValue(ExifTag.ImageDescription, "Rendered leaf with known truth, not a photograph");
        exif.SetValue(ExifTag.Orientation, (ushort)1);
        exif.SetValue(ExifTag.XResolution, new Rational(72));
        exif.SetValue(ExifTag.YResolution, new Rational(72));
        exif.SetValue(ExifTag.ResolutionUnit, (ushort)2);
        exif.SetValue(ExifTag.Software, "LeafScan.Training");
        exif.SetValue(ExifTag.YCbCrPositioning, (ushort)1);
        exif.SetValue(ExifTag.ExifVersion, "0232"u8.ToArray());
        if (spec.Taken is { } taken)
        {
            exif.SetValue(ExifTag.DateTimeOriginal, taken.ToString("yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture));
            string sign = taken.Offset < TimeSpan.Zero ? "-" : "+";
            exif.SetValue(ExifTag.OffsetTimeOriginal, sign + taken.Offset.Duration().ToString(@"hh\:mm", CultureInfo.InvariantCulture));
        }

        exif.SetValue(ExifTag.ComponentsConfiguration, [1, 2, 3, 0]);
        exif.SetValue(ExifTag.FlashpixVersion, "0100"u8.ToArray());
        exif.SetValue(ExifTag.ColorSpace, (ushort)1);
        exif.SetValue(ExifTag.PixelXDimension, new Number(photo.Cols));
        exif.SetValue(ExifTag.PixelYDimension, new Number(photo.Rows));
        return exif;
    }
}
