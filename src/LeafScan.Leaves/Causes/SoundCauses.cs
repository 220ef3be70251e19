using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Causes;

/// <summary>No damage: a sound leaf, or one that only shines.</summary>
internal static class SoundCauses
{
    /// <summary>Sound: as likely as that none of the harms fits.</summary>
    public static LeafCause Sound(LeafFeatures f, IEnumerable<LeafCause> harm)
    {
        double hurt = f.Shares.Damage + f.Shares.Chewed;
        return new LeafCause("sound", Round(Free(harm) * (1 - (0.5 * Shine(f)))), [$"only {Percent(hurt)} of the leaf is damaged or missing"]);
    }

    /// <summary>Glints or shine and nothing else.</summary>
    public static LeafCause GlareOnly(LeafFeatures f, IEnumerable<LeafCause> harm)
    {
        double glints = f.Texture?.GlintShare ?? 0;
        return new LeafCause("sunGlareOnly", Round(Free(harm) * Shine(f)),
        [
            $"{Percent(glints)} of the leaf are fine white glints and {Percent(f.Shares.Unassessed)} is shine that could not be judged: bright, but without loss of green",
            "photograph the leaf again in the shade to be sure",
        ]);
    }

    private static double Free(IEnumerable<LeafCause> harm) => harm.Aggregate(1.0, (free, cause) => free * (1 - cause.Score));

    private static double Shine(LeafFeatures f) => Foot((f.Texture?.GlintShare ?? 0) + f.Shares.Unassessed, 0.05);
}
