using System.Security.Cryptography;
using System.Text;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Taps.Tests.Support;

/// <summary>A dot on the sheet, in pixels of an unturned photo.</summary>
internal sealed record Dot(double X, double Y, double RadiusPx, double Shade);

/// <summary>Draws photos of a white sheet with dots at exact places: simpler than the renderer, so that a test shows what it means.</summary>
internal static class DrawnTap
{
    public const int Width = 900;
    public const int Height = 700;

    /// <summary>Debris at places by chance, at least 14 pixels apart and off the rim.</summary>
    public static List<Dot> Debris(int count, int seed)
    {
        Random random = new(seed);
        List<Dot> dots = [];
        while (dots.Count < count)
        {
            Dot dot = new(random.Next(40, Width - 40) + random.NextDouble(), random.Next(40, Height - 40) + random.NextDouble(), 1.2 + (3 * random.NextDouble()), 0.3 + (0.4 * random.NextDouble()));
            if (Free(dots, dot.X, dot.Y, 14))
            {
                dots.Add(dot);
            }
        }

        return dots;
    }

    /// <summary>Mite-like dots with free room around their old and new places.</summary>
    public static List<(Dot Start, Dot End)> Walkers(int count, List<Dot> debris, int seed, double leastPx, double mostPx, double radiusPx = 2)
    {
        Random random = new(seed);
        List<(Dot Start, Dot End)> walkers = [];
        List<Dot> taken = [.. debris];
        while (walkers.Count < count)
        {
            double way = leastPx + ((mostPx - leastPx) * random.NextDouble());
            double course = 2 * Math.PI * random.NextDouble();
            Dot start = new(random.Next(90, Width - 90) + random.NextDouble(), random.Next(90, Height - 90) + random.NextDouble(), radiusPx, 0.55);
            Dot end = start with { X = start.X + (way * Math.Cos(course)), Y = start.Y + (way * Math.Sin(course)) };
            if (end.X > 40 && end.Y > 40 && end.X < Width - 40 && end.Y < Height - 40 && Free(taken, start.X, start.Y, 16) && Free(taken, end.X, end.Y, 16)
                && walkers.TrueForAll(w => Free([w.Start, w.End], start.X, start.Y, mostPx) && Free([w.Start, w.End], end.X, end.Y, mostPx)))
            {
                walkers.Add((start, end));
                taken.AddRange([start, end]);
            }
        }

        return walkers;
    }

    /// <summary>A photo of the sheet.</summary>
    /// <param name="dots">What lies on it.</param>
    /// <param name="seed">Of the noise.</param>
    /// <param name="view">2 x 3 map of the sheet to the photo, or null.</param>
    /// <param name="second">Seconds on the camera's clock; null for a photo without a time.</param>
    /// <param name="change">Last change before the photo is stored, or null.</param>
    public static Photo Photo(IEnumerable<Dot> dots, int seed, double[]? view = null, int? second = null, Action<Mat>? change = null)
    {
        // Drawn four times as large with OpenCV's own discs, then averaged: parts of a pixel count.
        const int Fine = 4;
        using Mat large = new(Height * Fine, Width * Fine, MatType.CV_8UC1, Scalar.All(235));
        foreach (Dot dot in dots)
        {
            double x = view is null ? dot.X : (view[0] * dot.X) + (view[1] * dot.Y) + view[2];
            double y = view is null ? dot.Y : (view[3] * dot.X) + (view[4] * dot.Y) + view[5];
            Cv2.Circle(large, new Point((int)Math.Round((x + 0.5) * Fine), (int)Math.Round((y + 0.5) * Fine)), (int)Math.Round(dot.RadiusPx * Fine), Scalar.All(235 * (1 - dot.Shade)), -1);
        }

        using Mat grey = new();
        Cv2.Resize(large, grey, new Size(Width, Height), 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(grey, grey, default, 0.7);
        change?.Invoke(grey);
        Random random = new(seed);
        byte[] noisy = new byte[Width * Height];
        grey.GetArray(out byte[] clean);
        for (int i = 0; i < noisy.Length; i++)
        {
            // Twelve even numbers add up to nearly normal noise of one standard deviation.
            double sum = -6;
            for (int j = 0; j < 12; j++)
            {
                sum += random.NextDouble();
            }

            noisy[i] = (byte)Math.Clamp(Math.Round(clean[i] + (1.5 * sum)), 0, 255);
        }

        using Mat photo = Mat.FromPixelData(Height, Width, MatType.CV_8UC1, noisy);
        Mat pixels = new();
        Cv2.CvtColor(photo, pixels, ColorConversionCodes.GRAY2BGR);
        return Of(pixels, $"tap{seed}.jpg", second);
    }

    /// <summary>A photo of any pixels.</summary>
    public static Photo Of(Mat pixels, string name, int? second = null) => new(
        new PhotoFacts
        {
            FileName = name,
            Path = name,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(name))),
            ByteLength = 1,
            Format = PhotoFormat.Jpeg,
            WidthPx = pixels.Cols,
            HeightPx = pixels.Rows,
            Taken = second is { } s ? new CaptureTime(new DateTime(2026, 7, 2, 9, 14, 0).AddSeconds(s), null) : null,
        },
        pixels,
        []);

    private static bool Free(List<Dot> dots, double x, double y, double room) =>
        dots.TrueForAll(dot => ((dot.X - x) * (dot.X - x)) + ((dot.Y - y) * (dot.Y - y)) > room * room);
}
