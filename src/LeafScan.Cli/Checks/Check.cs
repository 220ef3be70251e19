namespace LeafScan.Cli.Checks;

/// <summary>How a check of the machine came out.</summary>
internal enum CheckState
{
    /// <summary>As it should be.</summary>
    Good,

    /// <summary>Works, but worth knowing.</summary>
    Note,

    /// <summary>LeafScan cannot work like this.</summary>
    Wrong,
}

/// <summary>One thing that was looked at.</summary>
/// <param name="What">Name, a word or two.</param>
/// <param name="State">How it came out.</param>
/// <param name="Words">What was found.</param>
/// <param name="Advice">What to do; null when nothing.</param>
internal sealed record Check(string What, CheckState State, string Words, string? Advice = null)
{
    /// <summary>Runs a check that may throw whatever a missing library throws.</summary>
    public static Check Try(string what, string advice, Func<Check> look)
    {
        try
        {
            return look();
        }
        // A loader may throw nearly anything; the point of a check is to say so in words.
#pragma warning disable CA1031
        catch (Exception error)
#pragma warning restore CA1031
        {
            Exception root = error;
            while (root.InnerException is { } inner)
            {
                root = inner;
            }

            return new Check(what, CheckState.Wrong, root.Message.ReplaceLineEndings(" "), advice);
        }
    }
}
