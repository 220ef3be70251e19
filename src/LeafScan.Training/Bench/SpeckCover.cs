using LeafScan.Training.Rendering.Damage;
using OpenCvSharp;

namespace LeafScan.Training.Bench;

/// <summary>
/// How much of each true speck lies under other true specks. Discs that lie on one another blend into one pale field, and a
/// speck that is wholly inside others cannot be seen by anybody, so that recall is told by this as well as by size.
/// </summary>
internal static class SpeckCover
{
    /// <summary>Classes of the covered share: name and upper end. The first two are specks that stand apart well enough to be seen.</summary>
    public static IReadOnlyList<(string Name, double Below)> Classes { get; } =
        [("under 0.2", 0.2), ("0.2 to 0.6", 0.6), ("0.6 to 0.95", 0.95), ("0.95 and more", double.MaxValue)];

    /// <summary>Names of the classes of specks that can be seen for themselves.</summary>
    public static IReadOnlyList<string> Visible { get; } = [.. Classes.Take(2).Select(c => c.Name)];

    /// <summary>For each speck the share of its disc's pixels, 0..1, on which another disc lies too.</summary>
    /// <param name="specks">True specks of one photo.</param>
    /// <param name="size">Size of the photo; what lies outside does not count.</param>
    public static double[] Of(IReadOnlyList<Speck> specks, Size size)
    {
        byte[] discs = new byte[size.Width * size.Height];
        foreach (Speck speck in specks)
        {
            Each(speck, size, at => discs[at] = (byte)Math.Min(2, discs[at] + 1));
        }

        return [.. specks.Select(speck =>
        {
            (int all, int shared) = (0, 0);
            Each(speck, size, at =>
            {
                all++;
                shared += discs[at] > 1 ? 1 : 0;
            });
            return all == 0 ? 0 : (double)shared / all;
        })];
    }

    private static void Each(Speck speck, Size size, Action<int> at)
    {
        double radius = speck.DiameterPx / 2;
        for (int y = Math.Max(0, (int)Math.Ceiling(speck.Y - radius)); y <= Math.Min(size.Height - 1, (int)Math.Floor(speck.Y + radius)); y++)
        {
            double half = Math.Sqrt(Math.Max(0, (radius * radius) - ((y - speck.Y) * (y - speck.Y))));
            for (int x = Math.Max(0, (int)Math.Ceiling(speck.X - half)); x <= Math.Min(size.Width - 1, (int)Math.Floor(speck.X + half)); x++)
            {
                at((y * size.Width) + x);
            }
        }
    }
}
