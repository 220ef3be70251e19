using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>Photographs a scale sheet with what lies on it. The same description gives the same photo.</summary>
public static class SheetRenderer
{
    /// <summary>Renders a photo.</summary>
    public static RenderedSheet Render(SheetSpec spec)
    {
        SheetCamera camera = new(spec);
        using Mat page = SheetPainter.Paint(spec, out Mat leaf);
        using Mat leafPx = leaf;
        double areaMm2 = Present(leafPx) / (double)(SheetPainter.PxPerMm * SheetPainter.PxPerMm);
        using Mat photo = Photograph(page, spec, camera);
        Cv2.ImEncode(".jpg", photo, out byte[] jpeg, new ImageEncodingParam(ImwriteFlags.JpegQuality, 90));
        Mat mask = new(camera.Photo, MatType.CV_8UC1, Scalar.All(0));
        if (!leafPx.Empty())
        {
            using Mat map = camera.FromPage(SheetPainter.PxPerMm);
            Cv2.WarpPerspective(leafPx, mask, map, camera.Photo, InterpolationFlags.Nearest);
        }

        return new RenderedSheet(spec, camera, jpeg, Cv2.ImDecode(jpeg, ImreadModes.Color), mask, areaMm2);
    }

    private static int Present(Mat codes)
    {
        if (codes.Empty())
        {
            return 0;
        }

        using Mat gone = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Chewed), Scalar.All((int)MaskCode.Chewed), gone);
        return Cv2.CountNonZero(codes) - Cv2.CountNonZero(gone);
    }

    private static Mat Photograph(Mat page, SheetSpec spec, SheetCamera camera)
    {
        double shrink = SheetPainter.PxPerMm / camera.PixelsPerMm(spec.Sheet.Paper.WidthMm / 2, spec.Sheet.Paper.HeightMm / 2);
        using Mat soft = new();
        Cv2.GaussianBlur(page, soft, default, Math.Max(0.3, 0.45 * shrink));
        using Mat map = camera.FromPage(SheetPainter.PxPerMm);
        using Mat seen = new();
        Cv2.WarpPerspective(soft, seen, map, camera.Photo, InterpolationFlags.Linear, BorderTypes.Constant, new Scalar(58, 74, 90));
        using Mat light = Linear(seen);
        using Mat shade = new(1, 2, MatType.CV_32FC3);
        (double near, double far) = (1, 1 - spec.Shading);
        shade.Set(0, 0, new Vec3f((float)(near * spec.Light.Blue), (float)(near * spec.Light.Green), (float)(near * spec.Light.Red)));
        shade.Set(0, 1, new Vec3f((float)(far * spec.Light.Blue), (float)(far * spec.Light.Green), (float)(far * spec.Light.Red)));
        using Mat wide = new();
        Cv2.Resize(shade, wide, camera.Photo, 0, 0, InterpolationFlags.Linear);
        Cv2.Multiply(light, wide, light);
        Cv2.GaussianBlur(light, light, default, Math.Max(0.2, spec.BlurPx));
        using Mat encoded = Encoded(light);
        using Mat grain = new(encoded.Size(), MatType.CV_32FC3);
        Cv2.SetTheRNG((ulong)spec.Seed + 1);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(spec.Noise));
        Cv2.Add(encoded, grain, encoded);
        Mat photo = new();
        encoded.ConvertTo(photo, MatType.CV_8UC3);
        return photo;
    }

    // sRGB levels to linear light 0..1 and back to 0..255 (IEC 61966-2-1).
    private static Mat Linear(Mat levels)
    {
        using Mat table = Table(v => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4));
        Mat light = new();
        Cv2.LUT(levels, table, light);
        return light;
    }

    private static Mat Encoded(Mat light)
    {
        Mat curve = new();
        Cv2.Max(light, new Scalar(0, 0, 0), curve);
        Cv2.Pow(curve, 1 / 2.4, curve);
        curve.ConvertTo(curve, -1, 1.055 * 255, -0.055 * 255);

        // The straight piece near black.
        using Mat low = new();
        light.ConvertTo(low, -1, 12.92 * 255);
        Cv2.Min(curve, Scalar.All(255), curve);
        using Mat bright = new();
        Cv2.InRange(light, Scalar.All(-1), Scalar.All(0.0031308), bright);
        low.CopyTo(curve, bright);
        return curve;
    }

    private static Mat Table(Func<double, double> of)
    {
        float[] values = [.. Enumerable.Range(0, 256).Select(i => (float)of(i / 255.0))];
        using Mat table = Mat.FromPixelData(1, 256, MatType.CV_32FC1, values);
        return table.Clone();
    }
}

/// <summary>A rendered photo of a sheet with what is true of it. Owns its pictures.</summary>
/// <param name="spec">The description.</param>
/// <param name="camera">Where everything is.</param>
/// <param name="jpeg">The photo's bytes.</param>
/// <param name="photo">The photo, decoded again from JPEG.</param>
/// <param name="mask">8-bit mask codes of the leaf, size of the photo; all 0 without a leaf.</param>
/// <param name="leafAreaMm2">Area of the leaf that is there; 0 without a leaf.</param>
public sealed class RenderedSheet(SheetSpec spec, SheetCamera camera, byte[] jpeg, Mat photo, Mat mask, double leafAreaMm2) : IDisposable
{
    /// <summary>The description.</summary>
    public SheetSpec Spec { get; } = spec;

    /// <summary>Where everything is.</summary>
    public SheetCamera Camera { get; } = camera;

    /// <summary>The photo's bytes, JPEG without EXIF.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; } = jpeg;

    /// <summary>Mask codes of the leaf, size of the photo.</summary>
    public Mat Mask { get; } = mask;

    /// <summary>The photo, 8-bit B, G, R.</summary>
    public Mat Photo { get; } = photo;

    /// <summary>True area of the leaf in mm².</summary>
    public double LeafAreaMm2 { get; } = leafAreaMm2;

    /// <inheritdoc />
    public void Dispose()
    {
        Photo.Dispose();
        Mask.Dispose();
    }
}
