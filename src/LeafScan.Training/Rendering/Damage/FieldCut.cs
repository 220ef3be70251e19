using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Finds the value of a field above which a wanted share of the blade lies.</summary>
internal static class FieldCut
{
    public static double AtShare(Mat field, Mat whole, double share)
    {
        List<float> values = [];
        int rows = field.Rows;
        for (int y = 0; y < rows; y += 3)
        {
            Span<float> row = Pixels.Floats(field, y);
            Span<byte> inside = Pixels.Bytes(whole, y);
            for (int x = 0; x < row.Length; x += 3)
            {
                if (inside[x] > 0)
                {
                    values.Add(row[x]);
                }
            }
        }

        values.Sort();
        int place = (int)((1 - Math.Clamp(share, 0, 1)) * (values.Count - 1));
        return values.Count == 0 ? double.MaxValue : values[place];
    }
}
