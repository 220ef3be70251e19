using LeafScan.Photos.Decoding;
using LeafScan.Photos.Gate;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Photos;

/// <summary>
/// A small upright copy of a photo, for a look at what it shows before it is measured. Several times cheaper than the photo
/// itself, because a JPEG is decoded at a fraction of its size; never measured, because such pixels differ a little.
/// </summary>
public static class PhotoPreview
{
    /// <summary>The copy, 8-bit B, G, R, sRGB; null when the file cannot be read as a photo. The caller disposes it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="limits">What is refused before anything is decoded.</param>
    /// <param name="longSidePx">Long side wanted; a smaller photo stays as it is.</param>
    public static Mat? At(string path, PhotoLimits limits, int longSidePx)
    {
        if (FileBytes.Read(path, limits, out byte[] bytes) is not null
            || PhotoGate.Check(Path.GetFileName(path), bytes, limits, out PhotoFormat format) is not null
            || PictureDecoder.Decode(bytes, format, longSidePx).Pixels is not { } pixels)
        {
            return null;
        }

        double scale = longSidePx / (double)Math.Max(pixels.Cols, pixels.Rows);
        if (scale >= 1)
        {
            return pixels;
        }

        using Mat large = pixels;
        Mat small = new();
        AreaShrink.Into(large, small, scale);
        return small;
    }
}
