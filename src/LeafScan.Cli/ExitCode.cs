namespace LeafScan.Cli;

/// <summary>What the command says to the script that called it. The numbers are fixed; scripts rely on them.</summary>
public static class ExitCode
{
    /// <summary>All measured, or all done.</summary>
    public const int Done = 0;

    /// <summary>Wrong use: an unknown word, a missing value, a plant that is not in the record.</summary>
    public const int WrongUse = 1;

    /// <summary>Finished, but some photos were refused.</summary>
    public const int SomeRefused = 2;

    /// <summary>Nothing that could be measured.</summary>
    public const int NothingMeasurable = 3;

    /// <summary>Store or disk trouble.</summary>
    public const int StoreTrouble = 4;

    /// <summary>A fault in LeafScan itself; details are in the log.</summary>
    public const int OwnFault = 70;

    /// <summary>Stopped by Ctrl-C or SIGTERM.</summary>
    public const int Stopped = 130;
}
