using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>Draws things into linear light: each pixel is the mean of sixteen places in it, so that parts of a pixel count.</summary>
internal static class ThingPainter
{
    private const int Grid = 4;

    /// <summary>Draws one thing with the narrow shadow it throws.</summary>
    public static void Draw(Mat light, TapThing thing, (Point2d At, double Angle, double PixelsPerMm) place, Lighting lighting)
    {
        ThingShape shape = new(thing);
        double azimuth = lighting.AzimuthDegrees * Math.PI / 180;
        double high = thing.Kind == TapKind.Fibre ? 0.05 : 0.3 * thing.LengthMm * thing.WidthRatio;
        double away = high * place.PixelsPerMm / Math.Tan(lighting.HeightDegrees * Math.PI / 180);
        Point2d shadow = new(place.At.X - (away * Math.Cos(azimuth)), place.At.Y - (away * Math.Sin(azimuth)));
        Blend(light, shape, shadow, place.Angle, place.PixelsPerMm, (_, _) => (new LinearColour(0, 0, 0), (float)(0.1 + (0.35 * lighting.Hardness))));

        LinearColour body = thing.Colour.Linear();
        LinearColour gut = new LabColour(0.5 * thing.Colour.L, 0.6 * thing.Colour.A, 0.6 * thing.Colour.B).Linear();
        float solid = thing.Kind switch { TapKind.Skin => 0.45f, TapKind.Fibre => 0.75f, _ => 0.95f };
        Blend(light, shape, place.At, place.Angle, place.PixelsPerMm, (part, across) => part switch
        {
            1 => (body, 0.45f),
            3 => (gut, solid),
            _ => (body.Times(1.12 - (0.35 * across)), solid),
        });
    }

    private static void Blend(Mat light, ThingShape shape, Point2d at, double angle, double scale, Func<int, double, (LinearColour Colour, float Solid)> look)
    {
        double reach = (shape.ReachMm * scale) + 1;
        int left = Math.Max(0, (int)(at.X - reach));
        int top = Math.Max(0, (int)(at.Y - reach));
        int right = Math.Min(light.Cols - 1, (int)(at.X + reach) + 1);
        int bottom = Math.Min(light.Rows - 1, (int)(at.Y + reach) + 1);
        double cos = Math.Cos(angle) / scale;
        double sin = Math.Sin(angle) / scale;
        for (int y = top; y <= bottom; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            for (int x = left; x <= right; x++)
            {
                (float b, float g, float r, float cover) = Sample(x - at.X, y - at.Y);
                if (cover > 0)
                {
                    float rest = 1 - cover;
                    row[3 * x] = (row[3 * x] * rest) + b;
                    row[(3 * x) + 1] = (row[(3 * x) + 1] * rest) + g;
                    row[(3 * x) + 2] = (row[(3 * x) + 2] * rest) + r;
                }
            }
        }

        (float B, float G, float R, float Cover) Sample(double dx, double dy)
        {
            float b = 0;
            float g = 0;
            float r = 0;
            float cover = 0;
            for (int i = 0; i < Grid * Grid; i++)
            {
                double sx = dx + (((i % Grid) + 0.5) / Grid) - 0.5;
                double sy = dy + (((i / Grid) + 0.5) / Grid) - 0.5;
                double u = (sx * cos) + (sy * sin);
                double v = (sy * cos) - (sx * sin);
                int part = shape.PartAt(u, v);
                if (part > 0)
                {
                    (LinearColour colour, float solid) = look(part, Math.Min(1, Math.Abs(v) / Math.Max(1e-6, shape.ReachMm)));
                    float share = solid / (Grid * Grid);
                    b += colour.B * share;
                    g += colour.G * share;
                    r += colour.R * share;
                    cover += share;
                }
            }

            return (b, g, r, cover);
        }
    }
}
