using LeafScan.Leaves.Reading;
using static LeafScan.Leaves.Causes.CauseWords;

namespace LeafScan.Leaves.Causes;

/// <summary>Yellowing that is not stippling: between the veins, or even.</summary>
internal static class YellowCauses
{
    /// <summary>Yellow in patches or between green veins.</summary>
    public static LeafCause Interveinal(LeafFeatures f)
    {
        double lines = Foot(f.Yellow.GreenLinesShare, 0.12);
        double score = Foot(f.Shares.Yellowed, 0.09) * (1 - Even(f)) * Own(f) * (0.75 + (0.25 * lines));

        // On a small leaf in hard sun shine looks yellowish; real yellowing leaves its mark in the fine colour as well.
        score *= f is { FewPixels: true, Texture: { } fine } ? 0.4 + (0.6 * fine.PaleMarks) : 1;
        List<string> because = [];
        double byTexture = f is { FewPixels: true, Texture: { } texture } ? 0.8 * texture.MottleFit : 0;
        if (byTexture > score)
        {
            score = byTexture;
            because.Add("paler and yellower in blotches or between veins rather than in dots");
        }

        string where = lines > 0.5 ? $"thin green lines (veins) make up {Percent(f.Yellow.GreenLinesShare)} of it" : "in patches, without clear green veins";
        if (f.Yellow.PatchCount > 0)
        {
            because.Add($"{Count(f.Yellow.PatchCount, "yellow patch", "yellow patches")} on {Percent(f.Shares.Yellowed)} of the leaf, {Percent(1 - f.Yellow.NearSpecksShare)} of it away from specks; {where}");
        }

        because.Add("compare several leaves: the same pattern on old or on young leaves only speaks for nutrition");
        return new LeafCause("interveinalYellowing", Round(score), because);
    }

    /// <summary>Yellow over most of the leaf.</summary>
    public static LeafCause OverMost(LeafFeatures f) => new("evenYellowing", Round(Even(f) * Own(f)),
    [
        $"{Percent(f.Shares.Yellowed)} of the leaf is yellowed evenly, {Percent(1 - f.Yellow.NearSpecksShare)} of it away from specks",
        "think of season (fall colour), drought, roots and nutrition first; look whether neighbouring plants turn too",
    ]);

    // From about half of the blade on, yellowing is even rather than patchy.
    private static double Even(LeafFeatures f) => Foot(Math.Max(0, f.Shares.Yellowed - 0.3), 0.2);

    // Yellow about specks goes with the mites, yellow about spots with the spots.
    private static double Own(LeafFeatures f) => (1 - (0.8 * f.Yellow.NearSpecksShare)) * (1 - (0.7 * f.Yellow.NearBrownShare));
}
