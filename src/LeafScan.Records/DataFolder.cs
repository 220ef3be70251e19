namespace LeafScan.Records;

/// <summary>The folder that holds the record, and what decided it.</summary>
/// <param name="FolderPath">Absolute path; the folder need not exist yet.</param>
/// <param name="DecidedBy">"--data-dir", "LEAFSCAN_DATA_DIR", "XDG_DATA_HOME" or "default", for <c>doctor</c> to show.</param>
public sealed record DataFolder(string FolderPath, string DecidedBy)
{
    /// <summary>Environment variable that names the data folder.</summary>
    public const string Variable = "LEAFSCAN_DATA_DIR";

    private const string FolderName = "leafscan";

    /// <summary>
    /// Decides the data folder: the flag, then <see cref="Variable"/>, then <c>$XDG_DATA_HOME/leafscan</c>, then
    /// <c>~/.local/share/leafscan</c> (XDG Base Directory Specification 0.8). Touches no disk.
    /// </summary>
    /// <param name="flag">Value of <c>--data-dir</c>; null when it was not given.</param>
    /// <param name="environment">Gives an environment variable's value, or null.</param>
    /// <param name="homeFolder">The person's home folder; may be empty when there is none.</param>
    /// <param name="currentFolder">What a relative flag or variable is relative to.</param>
    /// <exception cref="RecordException">The flag is empty, or no folder can be told.</exception>
    public static DataFolder Resolve(string? flag, Func<string, string?> environment, string homeFolder, string currentFolder)
    {
        if (flag is not null)
        {
            // An empty flag is most often a script's unset variable; writing into the real record instead would be worse.
            return string.IsNullOrWhiteSpace(flag)
                ? throw new RecordException(RecordTrouble.NoFolder, "The folder given with --data-dir is empty.", "Nothing was written.", "Name a folder, or leave --data-dir out.")
                : new DataFolder(Path.GetFullPath(flag, currentFolder), "--data-dir");
        }

        if (environment(Variable) is { Length: > 0 } named)
        {
            return new DataFolder(Path.GetFullPath(named, currentFolder), Variable);
        }

        // The specification says that a relative path here is invalid and to be ignored.
        if (environment("XDG_DATA_HOME") is { Length: > 0 } dataHome && Path.IsPathFullyQualified(dataHome))
        {
            return new DataFolder(Path.Combine(dataHome, FolderName), "XDG_DATA_HOME");
        }

        return Path.IsPathFullyQualified(homeFolder)
            ? new DataFolder(Path.Combine(homeFolder, ".local", "share", FolderName), "default")
            : throw new RecordException(RecordTrouble.NoFolder, "This account has no home folder, so there is no place for the record.", "Nothing was written.", $"Name a folder with --data-dir or {Variable}.");
    }

    /// <summary>Decides with this process's own environment, home and current folder.</summary>
    /// <param name="flag">Value of <c>--data-dir</c>; null when it was not given.</param>
    /// <exception cref="RecordException">The flag is empty, or no folder can be told.</exception>
    public static DataFolder ResolveHere(string? flag)
    {
        // Without DoNotVerify .NET answers with an empty text when the folder does not exist yet.
        string home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile, Environment.SpecialFolderOption.DoNotVerify);
        return Resolve(flag, Environment.GetEnvironmentVariable, home, Environment.CurrentDirectory);
    }
}
