using LeafScan.Records;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>
/// What the leaves of several plants say together. Leaves of one plant are not independent, so each plant is one value, the mean of
/// its leaves, and the interval is over plants. A single plant falls back on its leaves (<see cref="LeafFigures"/>).
/// </summary>
public sealed record GroupFigures
{
    /// <summary>Plants with a leaf that counts.</summary>
    public required int PlantCount { get; init; }

    /// <summary>Leaves that count.</summary>
    public required int LeafCount { get; init; }

    /// <summary>Leaves left out: hardly any of them could be judged, or their file is damaged.</summary>
    public required int LeafCountLeftOut { get; init; }

    /// <summary>Mean of the plants' mean damage, 0..1; null when no leaf counts.</summary>
    public required double? Damage { get; init; }

    /// <summary>
    /// Its interval over plants, by <see cref="MeanInterval"/>; of one plant that of its leaves. Null when no leaf counts.
    /// </summary>
    public required Interval? DamageInterval { get; init; }

    /// <summary>Leaves with at least <see cref="TrendOptions.AffectedFrom"/> damage.</summary>
    public required int AffectedCount { get; init; }

    /// <summary>Wilson interval of the share of affected leaves, with the number of leaves that the plants' unlikeness leaves them worth; null when no leaf counts.</summary>
    public required Interval? AffectedInterval { get; init; }

    /// <summary>Affected leaves among those that count, 0..1; null when no leaf counts.</summary>
    public double? AffectedShare => LeafCount == 0 ? null : (double)AffectedCount / LeafCount;

    /// <summary>Puts leaves together.</summary>
    /// <param name="leaves">Leaves of several plants.</param>
    /// <param name="options">How.</param>
    /// <param name="random">Source of chance for the interval.</param>
    public static GroupFigures Of(IEnumerable<LeafOnRecord> leaves, TrendOptions options, Random random) => Of(leaves.Select(LeafDamage.Of), options, random);

    /// <summary>Puts leaves together.</summary>
    /// <param name="leaves">Leaves of several plants.</param>
    /// <param name="options">How.</param>
    /// <param name="random">Source of chance for the interval.</param>
    public static GroupFigures Of(IEnumerable<LeafDamage> leaves, TrendOptions options, Random random)
    {
        Dictionary<long, PlantSum> plants = [];
        List<MeasuredDamage> good = [];
        int leftOut = 0;
        foreach (LeafDamage leaf in leaves)
        {
            if (!LeafFigures.Counts(leaf, options))
            {
                leftOut++;
                continue;
            }

            if (!plants.TryGetValue(leaf.PlantId, out PlantSum? sum))
            {
                plants[leaf.PlantId] = sum = new PlantSum();
            }

            sum.Add(leaf, leaf.Damage >= options.AffectedFrom);
            good.Add(new MeasuredDamage(leaf.Damage, leaf.DamageLow, leaf.DamageHigh));
        }

        // By number, so that the same leaves in another order give the same interval.
        PlantSum[] all = [.. plants.OrderBy(plant => plant.Key).Select(plant => plant.Value)];
        int count = good.Count, affected = all.Sum(plant => plant.Affected);
        return new GroupFigures
        {
            PlantCount = all.Length,
            LeafCount = count,
            LeafCountLeftOut = leftOut,
            Damage = count == 0 ? null : all.Average(plant => plant.Mean),
            DamageInterval = MeanInterval.Of(all.Length == 1 ? good : [.. all.Select(plant => new MeasuredDamage(plant.Mean, plant.MeanLow, plant.MeanHigh))], options, random),
            AffectedCount = affected,
            AffectedInterval = count == 0 ? null : WilsonInterval.OfShare((double)affected / count, Worth(all, affected, count), options.Level),
        };
    }

    // How many independent leaves these are worth: their number over the design effect, which is how much more the share varies between
    // plants than leaves by chance would make it (ratio estimator over clusters; Kish 1965, from memory). Where no leaf or every leaf is affected it
    // cannot be seen, and each plant counts as one.
    private static double Worth(PlantSum[] plants, int affected, int count)
    {
        double share = (double)affected / count;
        if (plants.Length == 1)
        {
            return count;
        }

        if (affected == 0 || affected == count)
        {
            return plants.Length;
        }

        double squares = plants.Sum(plant => Math.Pow(plant.Affected - (share * plant.Count), 2));
        double between = squares * plants.Length / (plants.Length - 1.0) / ((double)count * count);
        double byChance = share * (1 - share) / count;
        return Math.Clamp(count * byChance / between, plants.Length, count);
    }

    private sealed class PlantSum
    {
        private double _damage, _low, _high;

        public int Count { get; private set; }

        public int Affected { get; private set; }

        public double Mean => _damage / Count;

        public double MeanLow => _low / Count;

        public double MeanHigh => _high / Count;

        public void Add(LeafDamage leaf, bool isAffected)
        {
            Count++;
            _damage += leaf.Damage;
            _low += leaf.DamageLow;
            _high += leaf.DamageHigh;
            Affected += isAffected ? 1 : 0;
        }
    }
}
