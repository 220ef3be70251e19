using OpenCvSharp;

namespace LeafScan.Leaves.Overlay;

/// <summary>Paints tints and patterns into the pixels of each kind of tissue.</summary>
internal static class OverlayHatch
{
    /// <summary>Paints every style except rings over <paramref name="picture"/>.</summary>
    /// <param name="picture">8-bit, 3 channels, B G R; changed.</param>
    /// <param name="mask">8-bit mask codes, same size.</param>
    /// <param name="stroke">Width of a line in pixels, 1 or more; the lines' distance follows it.</param>
    public static unsafe void Paint(Mat picture, Mat mask, int stroke)
    {
        OverlayStyle?[] styles = new OverlayStyle?[256];
        foreach (OverlayStyle style in OverlayStyle.All)
        {
            styles[(int)style.Code] = style;
        }

        (int rows, int columns) = (picture.Rows, picture.Cols);
        for (int y = 0; y < rows; y++)
        {
            Span<byte> pixels = new((void*)picture.Ptr(y), columns * 3);
            ReadOnlySpan<byte> codes = new((void*)mask.Ptr(y), columns);
            for (int x = 0; x < codes.Length; x++)
            {
                if (styles[codes[x]] is { } style)
                {
                    Mix(pixels.Slice(x * 3, 3), style, Ink(style.Pattern, x, y, stroke));
                }
            }
        }
    }

    /// <summary>What lies at a place of the pattern: 0 the gap, 1 the dark side of a line, 2 the line itself.</summary>
    public static int Ink(HatchPattern pattern, int x, int y, int stroke)
    {
        int period = stroke * 9;
        return pattern switch
        {
            HatchPattern.Rising => Line(x + y, period, stroke),
            HatchPattern.Crossed => Math.Max(Line(x + y, period, stroke), Line(x - y, period, stroke)),
            HatchPattern.Level => Line(y, stroke * 7, stroke),
            HatchPattern.Dotted => Math.Min(Line(x, period, stroke * 2), Line(y, period, stroke * 2)),
            _ => 0,
        };
    }

    private static int Line(int along, int period, int stroke)
    {
        int place = ((along % period) + period) % period;
        return place < stroke ? 2 : place < stroke * 2 ? 1 : 0;
    }

    private static void Mix(Span<byte> pixel, OverlayStyle style, int ink)
    {
        // The dark side keeps a line visible on pale tissue, the light side on dark tissue and in shade.
        (double share, double shade) = ink switch { 2 => (0.95, 1.0), 1 => (0.65, 0.0), _ => (style.Tint, 1.0) };
        for (int channel = 0; channel < 3; channel++)
        {
            double colour = style.Colour[channel] * shade;
            pixel[channel] = (byte)Math.Round((pixel[channel] * (1 - share)) + (colour * share));
        }
    }
}
