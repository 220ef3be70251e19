using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>A picture as planes of floats for a network, padded to its step by repeating the edge; pooled memory.</summary>
internal sealed class Planes : IDisposable
{
    private Planes(float[] values, int channels, Size size)
    {
        Values = values;
        Channels = channels;
        Size = size;
    }

    /// <summary>Channel by channel; may be longer than needed.</summary>
    public float[] Values { get; }

    /// <summary>Number of planes.</summary>
    public int Channels { get; }

    /// <summary>Padded size.</summary>
    public Size Size { get; }

    /// <summary>Red, green, blue as sRGB / 255, then, when given, a mask as 0..1.</summary>
    public static Planes Of(Mat bgr, Mat? mask) => Of(bgr, mask, mask is null ? 3 : 4);

    /// <summary>Red, green, blue as sRGB / 255, then where a pixel lies in the frame: 0 left to 1 right, 0 top to 1 bottom.</summary>
    public static Planes WithPlaces(Mat bgr)
    {
        Planes planes = Of(bgr, null, 5);
        (int width, int height) = (planes.Size.Width, planes.Size.Height);
        int plane = width * height;
        for (int y = 0; y < height; y++)
        {
            Span<float> across = planes.Values.AsSpan((3 * plane) + (y * width), width);
            for (int x = 0; x < width; x++)
            {
                across[x] = x / (float)Math.Max(1, width - 1);
            }

            planes.Values.AsSpan((4 * plane) + (y * width), width).Fill(y / (float)Math.Max(1, height - 1));
        }

        return planes;
    }

    private static Planes Of(Mat bgr, Mat? mask, int channels)
    {
        (int rows, int cols) = (bgr.Rows, bgr.Cols);
        Size size = new(RoundUp(cols), RoundUp(rows));
        int plane = size.Width * size.Height;
        float[] values = PlanePool.Rent(plane * channels);
        Bands.Run(size.Height, (first, end) => Fill(values, size, bgr, mask, first, end));
        return new Planes(values, channels, size);
    }

    private static void Fill(float[] values, Size size, Mat bgr, Mat? mask, int first, int end)
    {
        (int rows, int cols) = (bgr.Rows, bgr.Cols);
        int plane = size.Width * size.Height;
        for (int y = first; y < end; y++)
        {
            int from = Math.Min(y, rows - 1);
            ReadOnlySpan<Vec3b> row = bgr.AsRow<Vec3b>(from);
            Span<float> red = values.AsSpan(y * size.Width, size.Width);
            Span<float> green = values.AsSpan(plane + (y * size.Width), size.Width);
            Span<float> blue = values.AsSpan((2 * plane) + (y * size.Width), size.Width);
            for (int x = 0; x < row.Length; x++)
            {
                red[x] = row[x].Item2 * (1 / 255f);
                green[x] = row[x].Item1 * (1 / 255f);
                blue[x] = row[x].Item0 * (1 / 255f);
            }

            red[cols..].Fill(red[cols - 1]);
            green[cols..].Fill(green[cols - 1]);
            blue[cols..].Fill(blue[cols - 1]);
            if (mask is not null)
            {
                ReadOnlySpan<byte> inside = mask.AsRow<byte>(from);
                Span<float> prior = values.AsSpan((3 * plane) + (y * size.Width), size.Width);
                for (int x = 0; x < inside.Length; x++)
                {
                    prior[x] = y < rows ? inside[x] * (1 / 255f) : 0;
                }

                prior[cols..].Clear();
            }
        }
    }

    /// <inheritdoc />
    public void Dispose() => PlanePool.Return(Values);

    private static int RoundUp(int length) => (length + Network.Step - 1) / Network.Step * Network.Step;
}
