using LeafScan.Leaves.Causes;
using LeafScan.Leaves.Reading;

namespace LeafScan.Leaves.Tests.Causes;

/// <summary>Features of a leaf with room for what a test wants to say.</summary>
internal static class SomeFeatures
{
    public static LeafFeatures Of(
        double stippled = 0,
        double yellowed = 0,
        double browned = 0,
        double chewed = 0,
        double unassessed = 0,
        SpeckPattern? specks = null,
        YellowPattern? yellow = null,
        BrownPattern? brown = null,
        int bites = 0) => new()
        {
            Shares = new LeafShares(1 - stippled - yellowed - browned - chewed - unassessed, stippled, yellowed, browned, chewed, unassessed),
            Specks = specks ?? new SpeckPattern(0, 0, 0, 0, 0),
            Yellow = yellow ?? new YellowPattern(0, 0, 0, 1),
            Brown = brown ?? new BrownPattern(0, 0, 0, 0),
            BiteCount = bites,
            HoleCount = 0,
        };
}
