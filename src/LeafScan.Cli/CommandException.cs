namespace LeafScan.Cli;

/// <summary>A failure that a person can do something about.</summary>
/// <param name="exitCode">A number from <see cref="Cli.ExitCode"/>.</param>
/// <param name="message">What happened, what is safe, what to do next.</param>
/// <param name="inner">What caused it, or null.</param>
internal sealed class CommandException(int exitCode, string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>The exit code of the command.</summary>
    public int ExitCode { get; } = exitCode;
}
