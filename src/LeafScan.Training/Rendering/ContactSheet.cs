using OpenCvSharp;

namespace LeafScan.Training.Rendering;

/// <summary>Many photos small on one picture, to be looked at. Owns its picture.</summary>
public sealed class ContactSheet : IDisposable
{
    private const int Gap = 4;
    private readonly int _columns;
    private readonly Size _cell;
    private readonly Mat _picture;
    private int _count;

    /// <summary>An empty sheet.</summary>
    /// <param name="photos">How many photos it will hold.</param>
    /// <param name="columns">Photos in a row.</param>
    /// <param name="cellWidthPx">Width of a photo on the sheet; its height is three quarters of that.</param>
    public ContactSheet(int photos, int columns = 6, int cellWidthPx = 320)
    {
        _columns = columns;
        _cell = new Size(cellWidthPx, cellWidthPx * 3 / 4);
        int rows = (photos + columns - 1) / columns;
        _picture = new Mat((rows * (_cell.Height + Gap)) + Gap, (columns * (_cell.Width + Gap)) + Gap, MatType.CV_8UC3, Scalar.All(255));
    }

    /// <summary>Puts a photo into the next place.</summary>
    public void Add(ReadOnlyMemory<byte> jpeg)
    {
        using Mat photo = Cv2.ImDecode(jpeg.ToArray(), ImreadModes.Color);
        using Mat small = new();
        Cv2.Resize(photo, small, _cell, 0, 0, InterpolationFlags.Area);
        Rect place = new(Gap + (_count % _columns * (_cell.Width + Gap)), Gap + (_count / _columns * (_cell.Height + Gap)), _cell.Width, _cell.Height);
        using Mat target = new(_picture, place);
        small.CopyTo(target);
        _count++;
    }

    /// <summary>Writes the sheet as JPEG.</summary>
    public void Write(string path) => Photos.Pictures.PictureWriter.WriteJpeg(_picture, path, 85);

    /// <inheritdoc />
    public void Dispose() => _picture.Dispose();
}
