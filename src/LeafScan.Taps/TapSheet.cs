using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>Where a printed tap sheet lies in a photo.</summary>
public static class TapSheet
{
    /// <summary>The sheet's place with scale, from its corner squares; null when fewer than two of them are seen.</summary>
    public static SheetPlace? In(Mat bgr, FrameOptions options, CancellationToken cancel)
    {
        if (FrameReader.Read(bgr, options, cancel).Sheet is not { MarkersSeen.Count: >= 2 } view)
        {
            return null;
        }

        SheetArea field = view.Sheet.Field;
        double factor = view.Printed.Factor;
        return new SheetPlace(view.ToTrueMm)
        {
            Field = new SheetArea(field.LeftMm * factor, field.TopMm * factor, field.WidthMm * factor, field.HeightMm * factor),
        };
    }
}
