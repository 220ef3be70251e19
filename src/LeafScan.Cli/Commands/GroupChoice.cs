using System.CommandLine;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>Finds the plants of a block, a place or a client.</summary>
/// <param name="Place">Place; null for all.</param>
/// <param name="Block">Block; null for all.</param>
/// <param name="Client">Client; null for all.</param>
internal sealed record GroupChoice(string? Place, string? Block, string? Client)
{
    /// <summary>Option --block.</summary>
    public static Option<string?> NewBlockOption() => new("--block") { Description = "Only plants of this block.", HelpName = "NAME" };

    /// <summary>Option --client.</summary>
    public static Option<string?> NewClientOption() => new("--client") { Description = "Only plants in places of this client.", HelpName = "NAME" };

    /// <summary>Whether it names anything.</summary>
    public bool IsNamed => Place is not null || Block is not null || Client is not null;

    /// <summary>In words, such as "block South bed, Hill nursery".</summary>
    public string Words => string.Join(", ", new[] { Block is null ? null : $"block {Block}", Place, Client is null ? null : $"client {Client}" }.OfType<string>()) is { Length: > 0 } words ? words : "all plants";

    /// <summary>Its plants.</summary>
    /// <exception cref="CommandException">There is none.</exception>
    public IReadOnlyList<Plant> Plants(RecordStore store)
        => store.Plants(Place, Block, Client) is { Count: > 0 } plants ? plants : throw new CommandException(ExitCode.WrongUse, $"No plant is on record for {Words}. All plants: leafscan plants");
}
