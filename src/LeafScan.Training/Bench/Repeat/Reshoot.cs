using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>
/// Shoots a photo again in software, in linear light: geometry, blur, exposure and colour of the light, noise. It cannot move
/// the sun, open a fold or sharpen: two real photos of a leaf differ more than these.
/// </summary>
internal static class Reshoot
{
    private const int Levels = 1 << 16;

    private static readonly float[] LightOf = [.. Enumerable.Range(0, 256).Select(i => (float)Linear(i / 255.0))];

    private static readonly byte[] LevelOf = [.. Enumerable.Range(0, Levels).Select(i => (byte)Math.Round(255 * Bent(i / (Levels - 1.0))))];

    /// <summary>The new photo, 8-bit B G R sRGB; the caller disposes.</summary>
    /// <param name="photo">8-bit B G R sRGB; not changed.</param>
    /// <param name="shot">What changes.</param>
    /// <param name="leaf">Where the leaves lie; they stay in the frame.</param>
    public static Mat Pixels(Mat photo, ShotSpec shot, Rect leaf)
    {
        using Mat light = LightOfPhoto(photo);
        using Mat seen = Warped(light, ShotGeometry.Of(photo.Size(), shot, leaf), shot.Distance);
        if (shot.BlurPx > 0.05)
        {
            Cv2.GaussianBlur(seen, seen, default, shot.BlurPx);
        }

        return Exposed(seen, shot);
    }

    /// <summary>Mask codes where the shot shows them; 0 where it shows more than the photo did. The caller disposes.</summary>
    public static Mat Codes(Mat codes, ShotSpec shot, Rect leaf)
    {
        ShotGeometry geometry = ShotGeometry.Of(codes.Size(), shot, leaf);
        Mat seen = new();
        using Mat map = geometry.Map.ToMat();
        Cv2.WarpPerspective(codes, seen, map, geometry.Size, InterpolationFlags.Nearest, BorderTypes.Constant, Scalar.All(0));
        return seen;
    }

    private static Mat LightOfPhoto(Mat photo)
    {
        Mat light = new(photo.Size(), MatType.CV_32FC3);
        int rows = photo.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> from = Rendering.Support.Pixels.Bytes(photo, y);
            Span<float> to = Rendering.Support.Pixels.Floats(light, y);
            for (int i = 0; i < from.Length; i++)
            {
                to[i] = LightOf[from[i]];
            }
        }

        return light;
    }

    private static Mat Warped(Mat light, ShotGeometry geometry, double distance)
    {
        using Mat soft = new();
        Mat from = light;
        if (distance > 1)
        {
            // From farther away each pixel gathers light from more of the leaf: without this, fine texture would turn to noise.
            Cv2.GaussianBlur(light, soft, default, 0.5 * Math.Sqrt((distance * distance) - 1));
            from = soft;
        }

        Mat seen = new();
        using Mat map = geometry.Map.ToMat();
        Cv2.WarpPerspective(from, seen, map, geometry.Size, InterpolationFlags.Cubic, BorderTypes.Replicate);
        return seen;
    }

    private static Mat Exposed(Mat light, ShotSpec shot)
    {
        double gain = Math.Pow(2, shot.ExposureStops);
        float[] gains = [(float)(gain * shot.Blue), (float)gain, (float)(gain * shot.Red)];
        NoiseSource noise = new(Chance.FromSeed(shot.Seed));
        float strength = (float)(shot.Noise * shot.Noise);
        Mat photo = new(light.Size(), MatType.CV_8UC3);
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> from = Rendering.Support.Pixels.Floats(light, y);
            Span<byte> to = Rendering.Support.Pixels.Bytes(photo, y);
            for (int i = 0; i < from.Length; i++)
            {
                float value = from[i] * gains[i % 3];

                // Shot noise plus a floor, as in the renderer's camera; 0.18 is mid grey.
                value += strength > 0 ? noise.Next() * MathF.Sqrt(strength * ((Math.Max(0, value) / 0.18f) + 0.09f)) : 0;
                to[i] = LevelOf[(int)((Math.Clamp(value, 0, 1) * (Levels - 1)) + 0.5f)];
            }
        }

        return photo;
    }

    // The curve of IEC 61966-2-1 and its way back.
    private static double Linear(double s) => s <= 0.04045 ? s / 12.92 : Math.Pow((s + 0.055) / 1.055, 2.4);

    private static double Bent(double v) => v <= 0.0031308 ? 12.92 * v : (1.055 * Math.Pow(v, 1 / 2.4)) - 0.055;
}
