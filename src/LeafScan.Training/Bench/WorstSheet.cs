using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Leaves.Overlay;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using OpenCvSharp;

namespace LeafScan.Training.Bench;

/// <summary>A picture of photos beside their truth and their reading, three cells to a photo, two photos to a row.</summary>
internal static class WorstSheet
{
    private const int CellWidth = 360;
    private const int CellHeight = 300;
    private const int Line = 22;
    private const int Gap = 4;
    private const int Columns = 2;
    private const int StripWidth = (3 * CellWidth) + (4 * Gap);

    /// <summary>Measures the photos once more and writes the sheet as JPEG.</summary>
    public static void Write(IReadOnlyList<PhotoRow> rows, IReadOnlyList<TruthCase> cases, MeasureOptions options, string path, CancellationToken cancel)
    {
        List<Mat> strips = [];
        try
        {
            foreach (PhotoRow row in rows)
            {
                cancel.ThrowIfCancellationRequested();
                strips.Add(Draw(row, cases.First(c => c.Key == row.Key), options, cancel));
            }

            using Mat sheet = Laid(strips);
            PictureWriter.WriteJpeg(sheet, path, 85);
        }
        finally
        {
            strips.ForEach(s => s.Dispose());
        }
    }

    // Each row of the sheet is as high as its highest strip.
    private static Mat Laid(List<Mat> strips)
    {
        int[] heights = [.. strips.Chunk(Columns).Select(row => row.Max(s => s.Rows))];
        Mat sheet = new(Math.Max(1, heights.Sum()), Columns * StripWidth, MatType.CV_8UC3, Scalar.All(255));
        for (int i = 0; i < strips.Count; i++)
        {
            using Mat target = new(sheet, new Rect(i % Columns * StripWidth, heights[..(i / Columns)].Sum(), StripWidth, strips[i].Rows));
            strips[i].CopyTo(target);
        }

        return sheet;
    }

    private static Mat Draw(PhotoRow row, TruthCase one, MeasureOptions options, CancellationToken cancel)
    {
        using PhotoOutcome outcome = PhotoReader.Open(one.PhotoPath, new PhotoLimits(), cancel);
        using LeafMeasurement? measurement = outcome.Photo is { } open ? LeafMeter.Measure(open, options, cancel) : null;
        using Mat truth = Cv2.ImRead(one.MaskPath, ImreadModes.Grayscale);
        Rect box = Around(truth);
        Mat strip = new((int)(box.Height * Scale(box)) + Line + (2 * Gap), StripWidth, MatType.CV_8UC3, Scalar.All(255));
        if (outcome.Photo is { } photo && measurement?.Mask is { } mask && truth.Size() == mask.Size())
        {
            Put(strip, 0, photo.Pixels, null, box);
            Put(strip, 1, photo.Pixels, truth, box);
            Put(strip, 2, photo.Pixels, mask, box);
        }

        SharePair? damage = row.Shares.GetValueOrDefault("damage");
        string words = string.Create(CultureInfo.InvariantCulture,
            $"{row.Key}: damage {100 * (damage?.Truth ?? 0):0.0} % true, {100 * (damage?.Measured ?? 0):0.0} % read; specks {row.SpecksTrue} true, {row.SpecksFound} read, {row.SpecksMatched} matched");
        Cv2.PutText(strip, words, new Point(Gap, strip.Rows - 8), HersheyFonts.HersheySimplex, 0.5, Scalar.All(20), 1, LineTypes.AntiAlias);
        return strip;
    }

    private static double Scale(Rect box) => Math.Min(CellWidth / (double)box.Width, CellHeight / (double)box.Height);

    // The leaf with a tenth of room about it.
    private static Rect Around(Mat truth)
    {
        using Mat leaf = new();
        Cv2.Threshold(truth, leaf, 0, 255, ThresholdTypes.Binary);
        Rect box = Cv2.BoundingRect(leaf);
        if (box.Width == 0)
        {
            return new Rect(0, 0, truth.Cols, truth.Rows);
        }

        box.Inflate(box.Width / 10, box.Height / 10);
        return box.Intersect(new Rect(0, 0, truth.Cols, truth.Rows));
    }

    private static void Put(Mat target, int cell, Mat photo, Mat? codes, Rect box)
    {
        double scale = Scale(box);
        Size size = new(Math.Max(1, (int)(box.Width * scale)), Math.Max(1, (int)(box.Height * scale)));
        using Mat cut = new Mat(photo, box).Clone();
        if (codes is not null)
        {
            using Mat part = new(codes, box);
            Tint(cut, part);
        }

        using Mat small = new();
        Cv2.Resize(cut, small, size, 0, 0, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Linear);
        using Mat place = new(target, new Rect(Gap + (cell * (CellWidth + Gap)), Gap, size.Width, size.Height));
        small.CopyTo(place);
    }

    // The colours of the overlays that every user sees, laid flat and strong; what is not leaf is darkened.
    private static void Tint(Mat picture, Mat codes)
    {
        using Mat flat = picture.Clone();
        using Mat of = new();
        Cv2.InRange(codes, Scalar.All(0), Scalar.All(0), of);
        flat.SetTo(Scalar.All(0), of);
        foreach (OverlayStyle style in OverlayStyle.All)
        {
            Cv2.InRange(codes, Scalar.All((int)style.Code), Scalar.All((int)style.Code), of);
            flat.SetTo(style.Colour, of);
        }

        Cv2.AddWeighted(flat, 0.75, picture, 0.25, 0, picture);
    }
}
