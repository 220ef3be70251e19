using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>
/// A twig or plant alone, drawn at twice the photo's resolution: its light, and for each fine pixel what is seen there. Owns
/// its pictures.
/// </summary>
/// <param name="photo">Size of the photo.</param>
internal sealed class FineCanvas(Size photo) : IDisposable
{
    /// <summary>Fine pixels per photo pixel, in each direction.</summary>
    public const int Finer = 2;

    private const int SubPixelBits = 4;

    /// <summary>Float B, G, R in linear light; black where nothing was drawn.</summary>
    public Mat Light { get; } = new(photo.Height * Finer, photo.Width * Finer, MatType.CV_32FC3, Scalar.All(0));

    /// <summary>8-bit: 255 where leaves or wood are.</summary>
    public Mat Cover { get; } = Pixels.NewMask(new Size(photo.Width * Finer, photo.Height * Finer));

    /// <summary>8-bit <see cref="MaskCode"/>; wood is background.</summary>
    public Mat Codes { get; } = Pixels.NewMask(new Size(photo.Width * Finer, photo.Height * Finer));

    /// <summary>32-bit number of the leaf that is seen, from 1; 0 for wood and background.</summary>
    public Mat Owner { get; } = new(photo.Height * Finer, photo.Width * Finer, MatType.CV_32SC1, Scalar.All(0));

    /// <summary>Colours an area without changing what it is.</summary>
    public void Paint(Point2d[] corners, LinearColour colour)
        => Cv2.FillPoly(Light, [Fixed(corners)], new Scalar(colour.B, colour.G, colour.R), LineTypes.Link8, SubPixelBits);

    /// <summary>Says what an area is.</summary>
    public void Claim(Point2d[] corners, MaskCode code, int owner)
    {
        Point[] place = Fixed(corners);
        Cv2.FillPoly(Cover, [place], Scalar.All(255), LineTypes.Link8, SubPixelBits);
        Cv2.FillPoly(Codes, [place], Scalar.All((int)code), LineTypes.Link8, SubPixelBits);
        Cv2.FillPoly(Owner, [place], Scalar.All(owner), LineTypes.Link8, SubPixelBits);
    }

    /// <summary>Darkens what was drawn so far where <paramref name="shade"/> (8-bit cover of what comes on top) will lie or throw its shadow.</summary>
    public void Darken(Mat shade, Point2d throwPx, double softPx, double strength)
    {
        using Mat half = new();
        Cv2.Resize(shade, half, default, 0.5, 0.5, InterpolationFlags.Area);
        using Mat shift = new(2, 3, MatType.CV_64FC1, Scalar.All(0));
        shift.Set(0, 0, 1.0);
        shift.Set(1, 1, 1.0);
        shift.Set(0, 2, throwPx.X / 2);
        shift.Set(1, 2, throwPx.Y / 2);
        using Mat moved = new();
        Cv2.WarpAffine(half, moved, shift, half.Size());
        Cv2.GaussianBlur(moved, moved, default, Math.Max(0.8, softPx / 2));
        using Mat back = new();
        Cv2.Resize(moved, back, shade.Size());
        float full = (float)(strength / 255);
        int rows = Light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> light = Pixels.Floats(Light, y);
            Span<byte> dark = Pixels.Bytes(back, y);
            Span<byte> drawn = Pixels.Bytes(Cover, y);
            for (int x = 0; x < dark.Length; x++)
            {
                if (drawn[x] != 0)
                {
                    float rest = 1 - (full * dark[x]);
                    light[3 * x] *= rest;
                    light[(3 * x) + 1] *= rest;
                    light[(3 * x) + 2] *= rest;
                }
            }
        }
    }

    /// <summary>
    /// 8-bit mask codes, size of the photo: a pixel is foliage where at least half of it is, and then has the code that
    /// covers most of it; of equal ones the worse. The caller disposes.
    /// </summary>
    public Mat PhotoCodes()
    {
        Mat codes = Pixels.NewMask(new Size(Codes.Cols / Finer, Codes.Rows / Finer));
        Span<int> counts = stackalloc int[8];
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> to = Pixels.Bytes(codes, y);
            Span<byte> top = Pixels.Bytes(Codes, Finer * y);
            Span<byte> low = Pixels.Bytes(Codes, (Finer * y) + 1);
            for (int x = 0; x < to.Length; x++)
            {
                counts.Clear();
                counts[top[2 * x]]++;
                counts[top[(2 * x) + 1]]++;
                counts[low[2 * x]]++;
                counts[low[(2 * x) + 1]]++;
                if (counts[0] > 2)
                {
                    continue;
                }

                int best = 1;
                for (int code = 2; code < 8; code++)
                {
                    best = counts[code] >= counts[best] && counts[code] > 0 ? code : best;
                }

                to[x] = (byte)best;
            }
        }

        return codes;
    }

    /// <summary>Lays the drawing over a background of the photo's size, with its shadow.</summary>
    /// <param name="light">The background, float B, G, R; changed.</param>
    /// <param name="throwShadow">Throws the shadow of a cover (float, 0..1) onto the background.</param>
    public void LayOver(Mat light, Action<Mat> throwShadow)
    {
        using Mat own = new();
        using Mat cover8 = new();
        using Mat cover = new();
        Cv2.Resize(Light, own, light.Size(), 0, 0, InterpolationFlags.Area);
        Cv2.Resize(Cover, cover8, light.Size(), 0, 0, InterpolationFlags.Area);
        cover8.ConvertTo(cover, MatType.CV_32FC1, 1 / 255.0);
        throwShadow(cover);
        using Mat rest = new();
        using Mat rest3 = new();
        cover.ConvertTo(rest, MatType.CV_32FC1, -1, 1);
        Cv2.CvtColor(rest, rest3, ColorConversionCodes.GRAY2BGR);
        Cv2.Multiply(light, rest3, light);
        Cv2.Add(light, own, light);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Light.Dispose();
        Cover.Dispose();
        Codes.Dispose();
        Owner.Dispose();
    }

    /// <summary>Corners in the fixed-point form that OpenCV draws with parts of a pixel.</summary>
    public static Point[] Fixed(Point2d[] corners)
        => Array.ConvertAll(corners, c => new Point((int)Math.Round(c.X * (1 << SubPixelBits)), (int)Math.Round(c.Y * (1 << SubPixelBits))));
}
