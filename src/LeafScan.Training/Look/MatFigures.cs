using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Look;

/// <summary>Figures of a float picture inside a mask.</summary>
internal static class MatFigures
{
    public static double Median(Mat picture, Mat mask) => Quantile(picture, mask, 0.5);

    public static double Quantile(Mat picture, Mat mask, double share)
    {
        List<float> values = [];
        int rows = picture.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(picture, y);
            Span<byte> inside = Pixels.Bytes(mask, y);
            for (int x = 0; x < row.Length; x++)
            {
                if (inside[x] > 0)
                {
                    values.Add(row[x]);
                }
            }
        }

        values.Sort();
        return values.Count == 0 ? 0 : values[(int)(share * (values.Count - 1))];
    }

    public static double Spread(Mat picture, Mat mask)
    {
        Cv2.MeanStdDev(picture, out _, out Scalar spread, mask);
        return spread.Val0;
    }
}
