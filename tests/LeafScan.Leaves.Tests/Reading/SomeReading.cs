using LeafScan.Leaves.Reading;
using LeafScan.Photos;

namespace LeafScan.Leaves.Tests.Reading;

/// <summary>Readings for tests: valid, with a few numbers that need rounding.</summary>
internal static class SomeReading
{
    public static LeafReading Leaf() => new()
    {
        Outline = [new PointPx(10, 10), new PointPx(90, 10), new PointPx(90, 70), new PointPx(10, 70)],
        AreaPx = 4800.04,
        Shares = new LeafShares(0.9, 0.05, 0.02, 0.01, 0.02, 0),
        Damage = 0.0816326530612,
        DamageLow = 0.071,
        DamageHigh = 0.094,
        SpeckCount = 2,
        SpeckDiameterMedianPx = 7.123456,
        SpeckCentres = [new SpeckMark(20.26, 30, 7.126), new SpeckMark(40, 50.5, 7)],
        Causes = [new LeafCause("miteStippling", 0.93111, ["small pale marks"])],
        Flags = [],
    };

    public static PhotoReading Photo(params LeafReading[] leaves) => new()
    {
        File = "Rose “Åse” 1.jpg",
        Sha256 = new string('a', 64),
        Width = 100,
        Height = 80,
        Taken = "2026-07-02T09:14:00-04:00",
        Kind = "leaf",
        Flags = [Flag.NoScale.Name],
        Leaves = leaves.Length == 0 ? [Leaf()] : leaves,
    };

    public static ReadingDocument Document(params PhotoReading[] photos) => new()
    {
        Tool = "1.2.3",
        Photos = photos.Length == 0 ? [Photo()] : photos,
        Refused = [new PhotoRefusal("list.txt", "It is a text file.", "Give photos.")],
    };
}
