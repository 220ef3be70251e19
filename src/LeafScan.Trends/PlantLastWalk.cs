using LeafScan.Records;

namespace LeafScan.Trends;

/// <summary>What a list of plants shows of one plant's last walk: the figures that its series has there, made from the damage alone.</summary>
/// <param name="WalkedOn">Day of the walk.</param>
/// <param name="Leaves">Its leaves together.</param>
public sealed record PlantLastWalk(DateOnly WalkedOn, GroupFigures Leaves)
{
    /// <summary>Puts the leaves together; null for none.</summary>
    /// <param name="leaves">Leaves of one plant on one walk, from <see cref="RecordStore.DamageOfLastWalks"/>.</param>
    public static PlantLastWalk? Of(IReadOnlyList<LeafDamage> leaves)
        => leaves.Count == 0 ? null : new PlantLastWalk(leaves[0].WalkedOn, GroupFigures.Of(leaves, TrendOptions.OrUsual(null), SteadyChance.New()));
}
