using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Support;
using LeafScan.Training.Rendering.Truth;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>Adds up the truth about a plant from its mask and from the mask of the same plant with nothing fallen.</summary>
internal static class PlantTally
{
    private static readonly string[] Heights = ["high", "middle", "low"];
    private static readonly string[] Sides = ["left", "right"];

    public static PlantTruth Sum(Mat codes, Mat full, FineCanvas canvas, TuftState[] states)
    {
        Rect box = Cv2.BoundingRect(full);
        var counts = new int[8];
        var foliage = new int[2, 3];
        var hurt = new int[2, 3];
        var whole = new int[2, 3];
        int fall = 0;
        int fresh = 0;
        for (int y = box.Top; y < box.Bottom; y++)
        {
            Span<byte> code = Pixels.Bytes(codes, y);
            Span<byte> before = Pixels.Bytes(full, y);
            int third = Math.Min(2, 3 * (y - box.Top) / box.Height);
            for (int x = box.Left; x < box.Right; x++)
            {
                int side = 2 * (x - box.Left) < box.Width ? 0 : 1;
                whole[side, third] += before[x] != 0 ? 1 : 0;
                if (code[x] == 0)
                {
                    continue;
                }

                counts[code[x]]++;
                foliage[side, third]++;
                hurt[side, third] += code[x] is (byte)MaskCode.Yellowed or (byte)MaskCode.Browned ? 1 : 0;
                TuftState seen = states[Seen(canvas, x, y, code[x]) - 1];
                fall += seen == TuftState.Fall ? 1 : 0;
                fresh += seen == TuftState.Fresh ? 1 : 0;
            }
        }

        int area = counts.Sum();
        double all = Math.Max(1, area);
        List<PlantSector> sectors = [];
        for (int side = 0; side < 2; side++)
        {
            for (int third = 0; third < 3; third++)
            {
                sectors.Add(new PlantSector(Sides[side], Heights[third], foliage[side, third], Share(hurt[side, third], foliage[side, third]), 1 - Share(foliage[side, third], whole[side, third])));
            }
        }

        TrueShares shares = new(0, counts[(int)MaskCode.Yellowed] / all, counts[(int)MaskCode.Browned] / all, 0);
        return new PlantTruth(area, shares, 1 - Share(area, Total(whole)), fall / all, fresh / all, sectors, Worse(hurt, foliage, whole));
    }

    // The tuft that gave a photo pixel its code: the first of the fine pixels below it that has that code.
    private static int Seen(FineCanvas canvas, int x, int y, byte code)
    {
        for (int down = 0; down < FineCanvas.Finer; down++)
        {
            Span<byte> codes = Pixels.Bytes(canvas.Codes, (FineCanvas.Finer * y) + down).Slice(FineCanvas.Finer * x, FineCanvas.Finer);
            int right = codes.IndexOf(code);
            if (right >= 0)
            {
                return Pixels.Ints(canvas.Owner, (FineCanvas.Finer * y) + down)[(FineCanvas.Finer * x) + right];
            }
        }

        throw new InvalidOperationException($"No fine pixel below {x}, {y} has the code {code}.");
    }

    private static string Worse(int[,] hurt, int[,] foliage, int[,] whole)
    {
        double left = Harm(0);
        double right = Harm(1);
        double difference = Math.Abs(left - right);
        return difference < 0.05 || difference < 0.5 * Math.Max(left, right) ? "none" : left > right ? "left" : "right";

        double Harm(int side) => Share(
            Enumerable.Range(0, 3).Sum(t => hurt[side, t] + Math.Max(0, whole[side, t] - foliage[side, t])),
            Enumerable.Range(0, 3).Sum(t => whole[side, t]));
    }

    private static int Total(int[,] counts) => counts.Cast<int>().Sum();

    private static double Share(double part, double whole) => whole > 0 ? part / whole : 0;
}
