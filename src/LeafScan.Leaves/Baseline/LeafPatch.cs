using LeafScan.Leaves.Outline;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Leaves.Baseline;

/// <summary>
/// One leaf cut out of its photo and brought to the scale at which its tissue is judged. Owns its pictures.
/// </summary>
public sealed class LeafPatch : IDisposable
{
    /// <summary>Step, in pixels, of the corners of <see cref="Near"/>.</summary>
    internal const int Grid = 32;

    private const int UsualRoomPx = 8;

    private LeafPatch(Rect box, double scale, Mat bgr, Mat mask)
    {
        Box = box;
        Scale = scale;
        Bgr = bgr;
        Mask = mask;
        AreaPx = Cv2.CountNonZero(mask);
    }

    /// <summary>Where the patch lies in the full-size photo.</summary>
    public Rect Box { get; }

    /// <summary>Patch pixels per photo pixel; over 1 when a small leaf was enlarged.</summary>
    public double Scale { get; }

    /// <summary>8-bit B, G, R, sRGB.</summary>
    public Mat Bgr { get; }

    /// <summary>255 leaf that is there, 0 everything else.</summary>
    public Mat Mask { get; }

    /// <summary>Leaf that is there, in patch pixels.</summary>
    public int AreaPx { get; }

    /// <summary>
    /// The part of the patch in which the leaf lies, with some pixels about it; its corners lie on multiples of
    /// <see cref="Grid"/> or on the patch's rim. What looks at the leaf alone need not look at the rest.
    /// </summary>
    /// <param name="roomPx">How many pixels at least, where the patch has them.</param>
    public Rect Near(int roomPx = UsualRoomPx) => PartOf(Mask, roomPx);

    /// <summary>The same for a mask alone; all of it where it is empty.</summary>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="roomPx">How many pixels at least, where there are some.</param>
    internal static Rect PartOf(Mat mask, int roomPx)
    {
        Rect tight = Cv2.BoundingRect(mask);
        tight = tight.Width == 0 ? new Rect(0, 0, mask.Cols, mask.Rows) : tight;
        return Rect.FromLTRB(
            Math.Max(0, (tight.Left - roomPx) / Grid * Grid),
            Math.Max(0, (tight.Top - roomPx) / Grid * Grid),
            Math.Min(mask.Cols, (tight.Right + roomPx + Grid - 1) / Grid * Grid),
            Math.Min(mask.Rows, (tight.Bottom + roomPx + Grid - 1) / Grid * Grid));
    }

    /// <summary>Cuts a leaf out of a photo.</summary>
    /// <param name="photo">8-bit B, G, R, full size.</param>
    /// <param name="leaf">Where the leaf lies.</param>
    /// <param name="longSidePx">Longest side of the patch: a larger leaf is shrunk by area averaging, a smaller one kept.</param>
    public static LeafPatch Cut(Mat photo, FoundLeaf leaf, int longSidePx)
    {
        double scale = Math.Min(1.0, longSidePx / (double)Math.Max(leaf.Box.Width, leaf.Box.Height));
        using Mat view = new(photo, leaf.Box);
        Mat bgr = new();
        Mat mask = new();
        if (scale >= 1)
        {
            view.CopyTo(bgr);
            leaf.Mask.CopyTo(mask);
        }
        else
        {
            Size size = new(Math.Max(1, (int)Math.Round(leaf.Box.Width * scale)), Math.Max(1, (int)Math.Round(leaf.Box.Height * scale)));
            AreaShrink.Into(view, bgr, size);
            using Mat soft = new();
            Cv2.Resize(leaf.Mask, soft, size, 0, 0, InterpolationFlags.Area);
            Cv2.Threshold(soft, mask, 127, 255, ThresholdTypes.Binary);
        }

        return new LeafPatch(leaf.Box, scale, bgr, mask);
    }

    /// <summary>A patch from a picture and a mask that are already at its scale; takes ownership of both.</summary>
    public static LeafPatch Of(Rect box, Mat bgr, Mat mask) => new(box, bgr.Cols / (double)box.Width, bgr, mask);

    /// <inheritdoc />
    public void Dispose()
    {
        Bgr.Dispose();
        Mask.Dispose();
    }
}
