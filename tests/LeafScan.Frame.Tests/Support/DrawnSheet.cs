using LeafScan.Frame.Sheets;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace LeafScan.Frame.Tests.Support;

/// <summary>
/// A photo of a scale sheet drawn by a pinhole camera of its own, so that scale and places are known exactly and by other
/// code than what is tested.
/// </summary>
internal sealed class DrawnSheet : IDisposable
{
    private const double PagePxPerMm = 8;

    private readonly double[,] _toPhoto = new double[3, 3];

    public required Mat Photo { get; init; }

    /// <summary>Where a place on the paper appears.</summary>
    public Point2d At(double xMm, double yMm)
    {
        double w = (_toPhoto[2, 0] * xMm) + (_toPhoto[2, 1] * yMm) + _toPhoto[2, 2];
        return new(((_toPhoto[0, 0] * xMm) + (_toPhoto[0, 1] * yMm) + _toPhoto[0, 2]) / w, ((_toPhoto[1, 0] * xMm) + (_toPhoto[1, 1] * yMm) + _toPhoto[1, 2]) / w);
    }

    /// <summary>True pixels per mm at a place on the paper, from the area of a small square.</summary>
    public double PixelsPerMm(double xMm, double yMm)
    {
        Point2d[] p = [At(xMm - 0.5, yMm - 0.5), At(xMm + 0.5, yMm - 0.5), At(xMm + 0.5, yMm + 0.5), At(xMm - 0.5, yMm + 0.5)];
        double twice = Enumerable.Range(0, 4).Sum(i => (p[i].X * p[(i + 1) % 4].Y) - (p[(i + 1) % 4].X * p[i].Y));
        return Math.Sqrt(Math.Abs(twice) / 2);
    }

    /// <summary>Draws a photo.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="tiltDegrees">Tilt of the sheet about an axis in its plane.</param>
    /// <param name="axisDegrees">Direction of that axis.</param>
    /// <param name="turnDegrees">Turn in the picture.</param>
    /// <param name="longSidePx">Long side of the photo.</param>
    /// <param name="paint">Draws onto the page, 8 pixels a mm, before it is photographed.</param>
    public static DrawnSheet Take(ScaleSheet sheet, double tiltDegrees, double axisDegrees = 30, double turnDegrees = 7, int longSidePx = 2400, Action<Mat, double>? paint = null)
    {
        using Mat page = Page(sheet);
        paint?.Invoke(page, PagePxPerMm);
        (int height, int width) = (longSidePx, longSidePx * 3 / 4);

        // Camera 450 mm above the middle, field of view so that the sheet fills some nine tenths of the frame.
        double distance = 450;
        double focal = 0.86 * longSidePx * distance / sheet.Paper.HeightMm;
        double[,] r = Rotation(tiltDegrees, axisDegrees, turnDegrees);
        (double cx, double cy) = (sheet.Paper.WidthMm / 2, sheet.Paper.HeightMm / 2);
        DrawnSheet drawn = new() { Photo = new Mat() };
        for (int row = 0; row < 3; row++)
        {
            double offset = -(r[row, 0] * cx) - (r[row, 1] * cy) + (row == 2 ? distance : 0);
            double[] line = [r[row, 0], r[row, 1], offset];
            for (int column = 0; column < 3; column++)
            {
                drawn._toPhoto[row, column] = line[column];
            }
        }

        for (int column = 0; column < 3; column++)
        {
            drawn._toPhoto[0, column] = (focal * drawn._toPhoto[0, column]) + (width / 2.0 * drawn._toPhoto[2, column]);
            drawn._toPhoto[1, column] = (focal * drawn._toPhoto[1, column]) + (height / 2.0 * drawn._toPhoto[2, column]);
        }

        using Mat map = new(3, 3, MatType.CV_64FC1);
        for (int row = 0; row < 3; row++)
        {
            // Page pixels to mm: a pixel's middle lies half a pixel inside.
            double a = drawn._toPhoto[row, 0] / PagePxPerMm;
            double b = drawn._toPhoto[row, 1] / PagePxPerMm;
            map.Set(row, 0, a);
            map.Set(row, 1, b);
            map.Set(row, 2, drawn._toPhoto[row, 2] + (0.5 * (a + b)));
        }

        using Mat soft = new();
        Cv2.GaussianBlur(page, soft, default, PagePxPerMm * sheet.Paper.HeightMm / longSidePx / 0.86 * 0.6);
        Cv2.WarpPerspective(soft, drawn.Photo, map, new Size(width, height), InterpolationFlags.Linear, BorderTypes.Constant, new Scalar(62, 78, 92));
        return drawn;
    }

    /// <summary>Uneven light of a colour, noise and blur, as a phone indoors.</summary>
    public DrawnSheet Spoil(double blurPx, double noise, Scalar light)
    {
        using Mat ramp = new(1, 2, MatType.CV_32FC1);
        ramp.Set(0, 0, 0.55f);
        ramp.Set(0, 1, 1.05f);
        using Mat shade = new();
        Cv2.Resize(ramp, shade, Photo.Size(), 0, 0, InterpolationFlags.Linear);
        using Mat shade3 = new();
        Cv2.Merge([shade, shade, shade], shade3);
        using Mat value = new();
        Photo.ConvertTo(value, MatType.CV_32FC3);
        Cv2.Multiply(value, shade3, value);
        Cv2.Multiply(value, light, value);
        if (blurPx > 0)
        {
            Cv2.GaussianBlur(value, value, default, blurPx);
        }

        Cv2.SetTheRNG(11);
        using Mat grain = new(value.Size(), MatType.CV_32FC3);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(noise));
        Cv2.Add(value, grain, value);
        value.ConvertTo(Photo, MatType.CV_8UC3);
        return this;
    }

    public void Dispose() => Photo.Dispose();

    private static Mat Page(ScaleSheet sheet)
    {
        Mat page = new((int)(sheet.Paper.HeightMm * PagePxPerMm), (int)(sheet.Paper.WidthMm * PagePxPerMm), MatType.CV_8UC3, new Scalar(236, 240, 241));
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict4X4_50);
        foreach (SheetMarker marker in sheet.Markers)
        {
            using Mat picture = new();
            dictionary.GenerateImageMarker(marker.Id, (int)(marker.Area.WidthMm * PagePxPerMm), picture, 1);
            using Mat coloured = new();
            Cv2.CvtColor(picture, coloured, ColorConversionCodes.GRAY2BGR);
            using Mat place = page.SubMat(Box(marker.Area));
            using Mat ink = new();
            coloured.ConvertTo(ink, -1, 0.8, 30);
            ink.CopyTo(place);
        }

        foreach (GreyStep step in sheet.GreySteps.Where(s => s.LightnessNominal is not null))
        {
            page.SubMat(Box(step.Area)).SetTo(Scalar.All(30 + (2.1 * step.LightnessNominal!.Value)));
        }

        return page;
    }

    private static Rect Box(SheetArea a) =>
        new((int)(a.LeftMm * PagePxPerMm), (int)(a.TopMm * PagePxPerMm), (int)(a.WidthMm * PagePxPerMm), (int)(a.HeightMm * PagePxPerMm));

    // Turn in the plane, then tilt about an axis in the plane (Rodrigues).
    private static double[,] Rotation(double tilt, double axis, double turn)
    {
        double t = tilt * Math.PI / 180;
        double p = axis * Math.PI / 180;
        double q = turn * Math.PI / 180;
        (double ux, double uy) = (Math.Cos(p), Math.Sin(p));
        (double c, double s) = (Math.Cos(t), Math.Sin(t));
        double[,] k =
        {
            { c + (ux * ux * (1 - c)), ux * uy * (1 - c), uy * s },
            { ux * uy * (1 - c), c + (uy * uy * (1 - c)), -ux * s },
            { -uy * s, ux * s, c },
        };
        double[,] r = new double[3, 3];
        for (int i = 0; i < 3; i++)
        {
            r[i, 0] = (k[i, 0] * Math.Cos(q)) + (k[i, 1] * Math.Sin(q));
            r[i, 1] = (-k[i, 0] * Math.Sin(q)) + (k[i, 1] * Math.Cos(q));
            r[i, 2] = k[i, 2];
        }

        return r;
    }
}
