namespace LeafScan.Records;

/// <summary>The words under which choices stand in the store.</summary>
internal static class StoreWords
{
    public static string? Of(MiteSeason? season) => season switch
    {
        MiteSeason.Warm => "warm",
        MiteSeason.Cool => "cool",
        MiteSeason.Boxwood => "boxwood",
        _ => null,
    };

    public static MiteSeason? SeasonOf(string? word) => word switch
    {
        "warm" => MiteSeason.Warm,
        "cool" => MiteSeason.Cool,
        "boxwood" => MiteSeason.Boxwood,
        _ => null,
    };

    public static string? Of(LeafGrowth? growth) => growth switch
    {
        LeafGrowth.Old => "old",
        LeafGrowth.New => "new",
        _ => null,
    };

    public static LeafGrowth? GrowthOf(string? word) => word switch
    {
        "old" => LeafGrowth.Old,
        "new" => LeafGrowth.New,
        _ => null,
    };
}
