using System.Runtime.ExceptionServices;
using LeafScan.Frame.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Frame;

/// <summary>Finds the scale sheet and plant tags in a photo.</summary>
public static class FrameReader
{
    /// <summary>Uncertainty of the scale from which it is called rough.</summary>
    private const double Rough = 0.02;

    /// <summary>Reads the frame. Never throws for what the photo shows.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R; not changed.</param>
    /// <param name="options">How to look.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static FrameReading Read(Mat bgr, FrameOptions options, CancellationToken cancel = default)
    {
        if (!options.Look || Math.Min(bgr.Cols, bgr.Rows) < 64)
        {
            return FrameReading.Nothing with { Flags = [Flag.NoScale.Name] };
        }

        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        using Mat small = new();
        double scale = Math.Min(1, options.SearchLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        Cv2.Resize(grey, small, default, scale, scale, InterpolationFlags.Area);
        SheetView? sheet = null;
        Vec3d? white = null;
        IReadOnlyList<TagSighting> tags = [];
        Both(
            () =>
            {
                sheet = SheetFinder.Find(grey, small, scale, options);
                cancel.ThrowIfCancellationRequested();
                white = sheet is null && options is { Balance: true, PlainPaper: true } ? PlainPaper.White(bgr) : null;
            },
            () => tags = TagFinder.Find(small, scale));
        cancel.ThrowIfCancellationRequested();
        IEnumerable<Flag> flags = FlagsOf(bgr, sheet, tags, options).Concat(white is null ? [] : [Flag.WhiteFromPaper]);
        return new FrameReading { Sheet = sheet, Tags = tags, PaperWhite = white, Flags = [.. flags.Select(flag => flag.Name)] };
    }

    /// <summary>Reads only the plant tags, before anything is measured. Never throws for what the photo shows.</summary>
    /// <param name="bgr">Upright photo or a copy of <see cref="FrameOptions.SearchLongSidePx"/>, 8-bit B, G, R; not changed.</param>
    /// <param name="options">How to look.</param>
    public static TagLook LookForTags(Mat bgr, FrameOptions options)
    {
        if (!options.Look || Math.Min(bgr.Cols, bgr.Rows) < 64)
        {
            return TagLook.Nothing;
        }

        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        using Mat small = new();
        double scale = Math.Min(1, options.SearchLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        Cv2.Resize(grey, small, default, scale, scale, InterpolationFlags.Area);
        (IReadOnlyList<TagSighting> tags, bool unread) = TagFinder.Look(small, scale);
        return new TagLook(tags, unread, LabelShape.IsIn(bgr), SheetFinder.Find(grey, small, scale, options) is not null);
    }

    /// <summary>
    /// Tries again to read the tags of a photo in which <see cref="LookForTags"/> could read none and that shows one by its look. Slow: not for
    /// every photo.
    /// </summary>
    /// <param name="bgr">Upright photo, as large as it is to be had, 8-bit B, G, R; not changed.</param>
    /// <returns>The tags, and whether any code at all could be read: one of somebody else's is no tag.</returns>
    public static (IReadOnlyList<TagSighting> Tags, bool AnyCode) LookCloser(Mat bgr)
    {
        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        return TagFinder.Closer(grey);
    }

    /// <summary>
    /// The photo as what looks for leaves should see it: the print of a scale sheet painted over with paper. Null without a
    /// sheet: the photo itself will do. The caller disposes it.
    /// </summary>
    public static Mat? WithoutPrint(Mat bgr, FrameReading frame) =>
        frame.Sheet is { } sheet ? SheetPrint.PaintedOver(bgr, sheet, [.. sheet.MarkersSeen]) : null;

    /// <summary>The photo with the paper of a sheet or plain paper made neutral, for measuring; null without either. The caller disposes it.</summary>
    public static Mat? Balanced(Mat bgr, FrameReading frame) =>
        frame.Sheet is { } sheet ? SheetLight.Balanced(bgr, sheet) : frame.PaperWhite is { } white ? WhiteBalance.Apply(bgr, white) : null;

    // Side by side, unless photos are and each of them is left one processor.
    private static void Both(Action first, Action second)
    {
        if (Cv2.GetNumThreads() > 1)
        {
            try
            {
                Parallel.Invoke(first, second);
            }
            catch (AggregateException all)
            {
                ExceptionDispatchInfo.Throw(all.InnerExceptions[0]);
            }

            return;
        }

        first();
        second();
    }

    private static IEnumerable<Flag> FlagsOf(Mat bgr, SheetView? sheet, IReadOnlyList<TagSighting> tags, FrameOptions options)
    {
        if (sheet is null)
        {
            yield return tags.Count > 0 ? Flag.ScaleRough : Flag.NoScale;
        }
        else
        {
            if (sheet.ResidualMm > options.BentMm)
            {
                yield return Flag.SheetBent;
            }

            if (sheet.ScaleUncertainty > Rough)
            {
                yield return Flag.ScaleRough;
            }

            if (SheetTone.IsOff(bgr, sheet))
            {
                yield return Flag.ToneOff;
            }
        }
    }
}
