namespace LeafScan.Cli;

/// <summary>Everything a command takes from the machine around it, passed in so that tests can give their own.</summary>
public sealed record Surroundings
{
    /// <summary>Standard output: the result and nothing else.</summary>
    public required TextWriter Out { get; init; }

    /// <summary>Standard error: progress, refusals, advice.</summary>
    public required TextWriter Err { get; init; }

    /// <summary>True when somebody watches standard error, so that a line may be drawn again and again.</summary>
    public bool ErrIsTerminal { get; init; }

    /// <summary>The clock.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;

    /// <summary>Reads an environment variable; null when it is not set.</summary>
    public Func<string, string?> Variable { get; init; } = Environment.GetEnvironmentVariable;

    /// <summary>The person's home folder; may be empty when there is none.</summary>
    public string HomeFolder { get; init; } =
        Environment.GetFolderPath(Environment.SpecialFolder.UserProfile, Environment.SpecialFolderOption.DoNotVerify);

    /// <summary>Folder of the program's own files: demo photos and models lie below it.</summary>
    public string ProgramFolder { get; init; } = AppContext.BaseDirectory;
}
