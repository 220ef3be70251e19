using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>The slow fall of the light over the photo, from the side of the lamp or window to the other.</summary>
internal static class RoomLight
{
    public static void Shade(Mat light, double strength, Lighting lighting)
        => Shade(light, strength, lighting, new Rect(0, 0, light.Cols, light.Rows), light.Size());

    public static void Shade(Mat light, double strength, Lighting lighting, Rect box, Size photo)
    {
        double azimuth = lighting.AzimuthDegrees * Math.PI / 180;
        double reach = Math.Max(photo.Width, photo.Height);
        double alongX = Math.Cos(azimuth) / reach;
        double alongY = Math.Sin(azimuth) / reach;
        for (int y = 0; y < box.Height; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            double start = 1 + (strength * alongY * (box.Y + y - (photo.Height / 2.0)));
            for (int x = 0; x < box.Width; x++)
            {
                float factor = (float)Math.Max(0.2, start + (strength * alongX * (box.X + x - (photo.Width / 2.0))));
                row[3 * x] *= factor;
                row[(3 * x) + 1] *= factor;
                row[(3 * x) + 2] *= factor;
            }
        }
    }
}
