using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>Takes out of the truth what something else covers.</summary>
internal static class Hidden
{
    /// <summary>Where <paramref name="cover"/> is at least one half, nothing is a speck or yellowed any more.</summary>
    public static void Under(Mat cover, BladeDamage damage)
    {
        int rows = cover.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> covered = Pixels.Floats(cover, y);
            Span<byte> speck = Pixels.Bytes(damage.SpeckMask, y);
            Span<byte> yellow = Pixels.Bytes(damage.YellowMask, y);
            for (int x = 0; x < covered.Length; x++)
            {
                if (covered[x] >= 0.5f)
                {
                    speck[x] = 0;
                    yellow[x] = 0;
                }
            }
        }

        damage.Specks.RemoveAll(speck => Pixels.Floats(cover, Row(speck.Y, cover.Rows))[Row(speck.X, cover.Cols)] >= 0.5f);
    }

    private static int Row(double place, int end) => Math.Clamp((int)Math.Round(place), 0, end - 1);
}
