namespace LeafScan.Web.Api;

/// <summary>The calendar day at this machine.</summary>
internal static class Today
{
    public static DateOnly At(TimeProvider clock) => DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
}
