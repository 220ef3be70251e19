using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>
/// The plane cut into cells around scattered points (each place belongs to its nearest point): vein networks, gravel and
/// lumps of soil.
/// </summary>
internal sealed class Cells : IDisposable
{
    private Cells(Mat labels, Mat edges, int count)
    {
        Labels = labels;
        Edges = edges;
        Count = count;
    }

    /// <summary>32-bit cell numbers from 1 to <see cref="Count"/>.</summary>
    public Mat Labels { get; }

    /// <summary>8-bit: 255 where a cell meets the next one (lines of one to two pixels), 0 inside.</summary>
    public Mat Edges { get; }

    /// <summary>Number of cells.</summary>
    public int Count { get; }

    /// <summary>Cuts a plane.</summary>
    /// <param name="size">Size of the plane.</param>
    /// <param name="cellPx">Usual width of a cell.</param>
    /// <param name="random">Source of chance.</param>
    /// <param name="jitter">How far points leave their grid place, in parts of a cell; 0 gives squares.</param>
    public static Cells Make(Size size, double cellPx, Random random, double jitter = 0.85)
    {
        using Mat points = new(size, MatType.CV_8UC1, Scalar.All(255));
        int count = 0;
        for (double y = -0.5; y * cellPx < size.Height + cellPx; y++)
        {
            for (double x = -0.5; x * cellPx < size.Width + cellPx; x++)
            {
                int px = (int)((x + (jitter * (random.NextDouble() - 0.5))) * cellPx);
                int py = (int)((y + (jitter * (random.NextDouble() - 0.5))) * cellPx);
                if (px >= 0 && py >= 0 && px < size.Width && py < size.Height)
                {
                    Pixels.Bytes(points, py)[px] = 0;
                    count++;
                }
            }
        }

        using Mat distance = new();
        Mat labels = new();
        Cv2.DistanceTransformWithLabels(points, distance, labels, DistanceTypes.L2, DistanceTransformMasks.Mask5, DistanceTransformLabelTypes.Pixel);
        return new Cells(labels, EdgesOf(labels), count);
    }

    /// <summary>A float picture with one random value, evenly 0..1, per cell.</summary>
    public Mat Values(Random random)
    {
        var values = new float[Count + 2];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = random.NextSingle();
        }

        Mat result = Pixels.NewFloat(Labels.Size());
        int rows = result.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<int> labels = Pixels.Ints(Labels, y);
            Span<float> row = Pixels.Floats(result, y);
            for (int x = 0; x < row.Length; x++)
            {
                row[x] = values[Math.Min(labels[x], values.Length - 1)];
            }
        }

        return result;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Labels.Dispose();
        Edges.Dispose();
    }

    private static Mat EdgesOf(Mat labels)
    {
        Mat edges = Pixels.NewMask(labels.Size());
        int rows = labels.Rows - 1;
        for (int y = 0; y < rows; y++)
        {
            Span<int> here = Pixels.Ints(labels, y);
            Span<int> below = Pixels.Ints(labels, y + 1);
            Span<byte> row = Pixels.Bytes(edges, y);
            for (int x = 0; x < row.Length - 1; x++)
            {
                row[x] = here[x] != here[x + 1] || here[x] != below[x] ? (byte)255 : (byte)0;
            }
        }

        return edges;
    }
}
