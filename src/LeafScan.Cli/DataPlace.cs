using System.CommandLine;
using LeafScan.Records;

namespace LeafScan.Cli;

/// <summary>Where the record of a command lies: the one place that knows the option and asks <see cref="DataFolder"/>.</summary>
internal static class DataPlace
{
    /// <summary>The option every command takes.</summary>
    public static Option<string?> Option { get; } = new("--data-dir")
    {
        Description = $"Folder of the record. Default: {DataFolder.Variable}, else leafscan in your data folder.",
        HelpName = "DIR",
        Recursive = true,
    };

    /// <summary>Decides the folder.</summary>
    /// <exception cref="RecordException">No folder can be told.</exception>
    public static DataFolder Of(ParseResult parsed, Surroundings world) =>
        DataFolder.Resolve(parsed.GetValue(Option), world.Variable, world.HomeFolder, Environment.CurrentDirectory);

    /// <summary>Opens the record that is there.</summary>
    /// <exception cref="RecordException">There is none, or it cannot be read.</exception>
    public static RecordStore OpenExisting(ParseResult parsed, Surroundings world) =>
        RecordStore.Open(Of(parsed, world).FolderPath, world.Time, new RecordOptions { CreateIfMissing = false });

    /// <summary>Opens the record, or begins one.</summary>
    /// <exception cref="RecordException">It cannot be read or written.</exception>
    public static RecordStore OpenOrBegin(ParseResult parsed, Surroundings world) =>
        RecordStore.Open(Of(parsed, world).FolderPath, world.Time);
}
