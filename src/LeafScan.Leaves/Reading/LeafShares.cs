namespace LeafScan.Leaves.Reading;

/// <summary>Shares, 0..1, of the leaf as it was before it was chewed. They add up to 1.</summary>
/// <param name="Sound">Tissue without visible damage.</param>
/// <param name="Stippled">Covered by specks.</param>
/// <param name="Yellowed">Diffusely yellowed.</param>
/// <param name="Browned">Dead brown tissue.</param>
/// <param name="Chewed">Missing: bites at the margin and holes.</param>
/// <param name="Unassessed">Glare, deep shadow or blur: never counted as sound.</param>
public sealed record LeafShares(double Sound, double Stippled, double Yellowed, double Browned, double Chewed, double Unassessed)
{
    /// <summary>
    /// (stippled + yellowed + browned) / (sound + stippled + yellowed + browned): the damage of the tissue that is there
    /// and can be judged, 0..1; 0 when nothing can be judged.
    /// </summary>
    public double Damage
    {
        get
        {
            double hurt = Stippled + Yellowed + Browned;
            double judged = Sound + hurt;
            return judged > 0 ? hurt / judged : 0;
        }
    }
}
