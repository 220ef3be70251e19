using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>Colours by zone: mean, spread, and shares of plain groups of colours. The groups' limits are ours, by eye.</summary>
internal static class ColourFigures
{
    private static readonly (string Name, Scalar Low, Scalar High)[] Groups =
    [
        ("green", new Scalar(12, -128, 4), new Scalar(95, -6, 128)),
        ("pale", new Scalar(68, -9, -14), new Scalar(101, 9, 14)),
        ("dark", new Scalar(-1, -128, -128), new Scalar(18, 128, 128)),
        ("blue", new Scalar(18, -128, -128), new Scalar(101, 128, -8)),
        ("brown", new Scalar(12, 2, 7), new Scalar(66, 128, 128)),
        ("burnt", new Scalar(97, -128, -128), new Scalar(101, 128, 128)),
        ("grey", new Scalar(18, -6, -8), new Scalar(68, 6, 8)),
    ];

    /// <summary>Adds the figures.</summary>
    public static void Add(FigureList list, KindZones zones)
    {
        foreach ((string name, Mat zone) in zones.All)
        {
            Cv2.MeanStdDev(zones.Lab, out Scalar mean, out Scalar spread, zone);
            list.Add(name + ".L", mean.Val0);
            list.Add(name + ".a", mean.Val1);
            list.Add(name + ".b", mean.Val2);
            list.Add(name + ".L.spread", spread.Val0);
            list.Add(name + ".a.spread", spread.Val1);
            list.Add(name + ".b.spread", spread.Val2);
        }

        using Mat group = new();
        using Mat part = new();
        foreach ((string groupName, Scalar low, Scalar high) in Groups)
        {
            Cv2.InRange(zones.Lab, low, high, group);
            foreach ((string name, Mat zone) in zones.All)
            {
                Cv2.BitwiseAnd(group, zone, part);
                list.Add($"{name}.{groupName}", Cv2.CountNonZero(part) / (double)Cv2.CountNonZero(zone));
            }
        }

        AddLevels(list, zones.L);
    }

    private static void AddLevels(FigureList list, Mat lightness)
    {
        using Mat histogram = new();
        Cv2.CalcHist([lightness], [0], null, histogram, 1, [202], [new Rangef(0, 101)]);
        ReadOnlySpan<float> counts = histogram.AsSpan<float>();
        double all = lightness.Total();
        foreach (double share in new[] { 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99 })
        {
            int at = 0;
            for (double sum = counts[0]; sum < share * all && at < counts.Length - 1; sum += counts[at])
            {
                at++;
            }

            list.Add($"L.p{100 * share:0}", at / 2.0);
        }
    }
}
