using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Camera;

/// <summary>From light to the 8-bit picture a phone would store.</summary>
internal static class PhoneCamera
{
    private const int Levels = 4096;

    /// <summary>Exposes a float B, G, R picture in linear light; the picture is changed.</summary>
    /// <returns>8-bit B, G, R, sRGB.</returns>
    public static Mat Expose(Mat light, CameraSpec spec)
    {
        Random random = Chance.FromSeed(spec.Seed);
        if (spec.BlurPx > 0.2)
        {
            Cv2.GaussianBlur(light, light, default, spec.BlurPx);
        }

        Sense(light, spec, new NoiseSource(random));

        // Colour filters in front of the sensor: neighbours share some of their noise.
        Cv2.GaussianBlur(light, light, default, 0.55);
        Develop(light, spec);
        if (spec.Sharpening > 0)
        {
            using Mat soft = new();
            Cv2.GaussianBlur(light, soft, default, 1.1);
            Cv2.AddWeighted(light, 1 + spec.Sharpening, soft, -spec.Sharpening, 0, light);
        }

        Mat photo = new();
        light.ConvertTo(photo, MatType.CV_8UC3, 255);
        return photo;
    }

    private static void Sense(Mat light, CameraSpec spec, NoiseSource noise)
    {
        float blue = (float)(spec.Exposure * spec.Blue);
        float green = (float)spec.Exposure;
        float red = (float)(spec.Exposure * spec.Red);

        // Shot noise plus a floor; 0.18 is mid grey.
        float shot = (float)(spec.Noise * spec.Noise / 0.18);
        float floor = (float)(0.09 * spec.Noise * spec.Noise);
        int cols = light.Cols;
        double corner = (light.Cols * (double)light.Cols) + (light.Rows * (double)light.Rows);
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            double dy = (2 * y) - light.Rows;
            for (int x = 0; x < cols; x++)
            {
                double dx = (2 * x) - light.Cols;
                float fall = (float)(1 - (spec.Vignette * ((dx * dx) + (dy * dy)) / corner));
                row[3 * x] = Noisy(row[3 * x] * blue * fall, 1.6f);
                row[(3 * x) + 1] = Noisy(row[(3 * x) + 1] * green * fall, 1);
                row[(3 * x) + 2] = Noisy(row[(3 * x) + 2] * red * fall, 1.3f);
            }
        }

        float Noisy(float value, float more) => value + (noise.Next() * MathF.Sqrt(((shot * Math.Max(0, value)) + floor) * more));
    }

    private static void Develop(Mat light, CameraSpec spec)
    {
        float[] curve = Curve(spec.Contrast);
        float colourful = (float)spec.Saturation;
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            for (int i = 0; i < row.Length; i += 3)
            {
                float b = curve[(int)(Math.Clamp(row[i], 0, 1) * (Levels - 1))];
                float g = curve[(int)(Math.Clamp(row[i + 1], 0, 1) * (Levels - 1))];
                float r = curve[(int)(Math.Clamp(row[i + 2], 0, 1) * (Levels - 1))];
                float grey = (0.114f * b) + (0.587f * g) + (0.299f * r);
                row[i] = grey + (colourful * (b - grey));
                row[i + 1] = grey + (colourful * (g - grey));
                row[i + 2] = grey + (colourful * (r - grey));
            }
        }
    }

    // The curve of IEC 61966-2-1, then an S around the middle; the highlights roll off instead of ending at once.
    private static float[] Curve(double contrast)
    {
        var curve = new float[Levels];
        for (int i = 0; i < Levels; i++)
        {
            double v = (double)i / (Levels - 1);
            double s = v <= 0.0031308 ? 12.92 * v : (1.055 * Math.Pow(v, 1 / 2.4)) - 0.055;
            double bent = s * s * (3 - (2 * s));
            curve[i] = (float)(s + (contrast * (bent - s)));
        }

        return curve;
    }
}
