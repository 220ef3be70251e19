namespace LeafScan.Trends.Verdicts;

/// <summary>The verdict's word as it stands in documents and on screens.</summary>
public static class VerdictNames
{
    /// <summary>For documents: working, notWorking, tooEarly, cannotTell, newDamage, noNewDamage.</summary>
    public static string InDocuments(VerdictWord word) => word switch
    {
        VerdictWord.Working => "working",
        VerdictWord.NotWorking => "notWorking",
        VerdictWord.TooEarly => "tooEarly",
        VerdictWord.NewDamage => "newDamage",
        VerdictWord.NoNewDamage => "noNewDamage",
        _ => "cannotTell",
    };

    /// <summary>For people: working, not working, too early, cannot tell, new damage, no new damage.</summary>
    public static string OnScreen(VerdictWord word) => word switch
    {
        VerdictWord.Working => "working",
        VerdictWord.NotWorking => "not working",
        VerdictWord.TooEarly => "too early",
        VerdictWord.NewDamage => "new damage",
        VerdictWord.NoNewDamage => "no new damage",
        _ => "cannot tell",
    };

    /// <summary>Which way damage went, for documents: rising, falling, noneSure.</summary>
    public static string InDocuments(TrendDirection direction) => direction switch
    {
        TrendDirection.Rising => "rising",
        TrendDirection.Falling => "falling",
        _ => "noneSure",
    };

    /// <summary>The kind of another explanation in documents, such as quietSeason.</summary>
    public static string InDocuments(RivalKind kind)
    {
        string name = kind.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }
}
