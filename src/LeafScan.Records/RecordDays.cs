namespace LeafScan.Records;

/// <summary>Days that a record takes.</summary>
public static class RecordDays
{
    /// <summary>Earliest day of a walk, a tap, care or weather: what lies before is a slip of the pen. Our own choice.</summary>
    public static readonly DateOnly Earliest = new(2000, 1, 1);
}
