using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.FineTexture;

/// <summary>Moves pixels of a tissue map into and out of the code for specks, so that mask and shares tell the same.</summary>
internal static class PaleTissue
{
    /// <summary>
    /// Takes back what was marked as specks: large pale pieces are yellowed tissue (rings about spots, blotches), small ones
    /// are sound.
    /// </summary>
    public static void Release(Mat codes)
    {
        using Mat speck = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), speck);
        codes.SetTo(Scalar.All((int)MaskCode.Sound), speck);

        // A piece that survives being eaten from all sides by 1 % of the leaf's length.
        int size = Math.Max(3, (int)(0.02 * Math.Max(codes.Cols, codes.Rows)) | 1);
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(size, size));
        Cv2.MorphologyEx(speck, speck, MorphTypes.Open, kernel);
        codes.SetTo(Scalar.All((int)MaskCode.Yellowed), speck);
    }

    /// <summary>Marks the strongest pale pixels of sound tissue as specks until they make up a share of the leaf.</summary>
    /// <param name="codes">Mask codes; changed.</param>
    /// <param name="pale">Strength of pale marks, stretched to the map's size.</param>
    /// <param name="share">Wanted share, 0..1.</param>
    /// <returns>Share that was marked: less than wanted when there are not enough pale pixels.</returns>
    public static double Mark(Mat codes, Mat pale, double share)
    {
        using Mat strength = new();
        Cv2.Resize(pale, strength, codes.Size(), 0, 0, InterpolationFlags.Linear);
        List<float> values = [];
        double leaf = Cv2.CountNonZero(codes);
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<float> s = strength.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                if (code[x] == (byte)MaskCode.Sound && s[x] > 0)
                {
                    values.Add(s[x]);
                }
            }
        }

        int wanted = Math.Min(values.Count, (int)Math.Round(share * leaf));
        if (wanted == 0)
        {
            return 0;
        }

        values.Sort();
        float least = values[^wanted];
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<float> s = strength.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                if (code[x] == (byte)MaskCode.Sound && s[x] >= least)
                {
                    code[x] = (byte)MaskCode.Speck;
                }
            }
        }

        return wanted / leaf;
    }
}
