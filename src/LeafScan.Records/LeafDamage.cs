using LeafScan.Photos;

namespace LeafScan.Records;

/// <summary>What a group's means need of a leaf, and no more: a block's season has tens of thousands of them.</summary>
/// <param name="PlantId">Plant.</param>
/// <param name="WalkedOn">Day of the walk.</param>
/// <param name="PhotoId">Photo.</param>
/// <param name="Ordinal">Place among the leaves of the photo, 0 for the largest.</param>
/// <param name="Damage">Damage, 0..1.</param>
/// <param name="DamageLow">Lower end of its 90 % interval.</param>
/// <param name="DamageHigh">Upper end.</param>
/// <param name="Unassessed">Share of the leaf that could not be judged, 0..1.</param>
/// <param name="IsFileDamaged">Whether the photo has the flag <see cref="Flag.DamagedFile"/>.</param>
/// <param name="Age">How old the leaf is; null when not noted.</param>
/// <param name="Kind">leaf, twig or plant.</param>
public readonly record struct LeafDamage(
    long PlantId, DateOnly WalkedOn, long PhotoId, int Ordinal, double Damage, double DamageLow, double DamageHigh, double Unassessed, bool IsFileDamaged, LeafGrowth? Age, string Kind)
{
    /// <summary>The same of a whole leaf.</summary>
    public static LeafDamage Of(LeafOnRecord leaf) => new(
        leaf.PlantId, leaf.WalkedOn, leaf.PhotoId, leaf.Ordinal, leaf.Damage, leaf.DamageLow, leaf.DamageHigh, leaf.Shares.Unassessed,
        leaf.Flags.Contains(Flag.DamagedFile.Name), leaf.Age, leaf.Kind);
}
