using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace LeafScan.Cli.Screen;

/// <summary>The option --json of commands that show a result, and the writing of their documents.</summary>
internal static class JsonOut
{
    /// <summary>Standard output, as a file name.</summary>
    public const string StandardOutput = "-";

    private static readonly JsonSerializerOptions Layout = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        WriteIndented = true,
        NewLine = "\n",
    };

    /// <summary>A new option: alone it means standard output, a file name ends in .json.</summary>
    public static Option<string?> NewOption()
    {
        Option<string?> option = new("--json")
        {
            Description = "Writes the result as one JSON document: alone or with - to standard output, else to a file named *.json.",
            HelpName = "FILE",
            Arity = ArgumentArity.ZeroOrOne,
        };
        option.Validators.Add(result =>
        {
            string? value = result.Tokens.Count > 0 ? result.Tokens[0].Value : null;
            if (value is not null && value != StandardOutput && !value.EndsWith(".json", StringComparison.OrdinalIgnoreCase))
            {
                result.AddError($"\"{value}\" after --json is neither - nor a file named *.json; put --json behind the other words.");
            }
        });
        return option;
    }

    /// <summary>Where the document goes: null when none was asked for.</summary>
    public static string? Target(ParseResult parsed, Option<string?> option) =>
        parsed.GetResult(option) is { Implicit: false } ? parsed.GetValue(option) ?? StandardOutput : null;

    /// <summary>Writes a document.</summary>
    public static void Write(Surroundings world, string target, object document) =>
        WriteText(world, target, JsonSerializer.Serialize(document, Layout));

    /// <summary>Writes a document that is text already.</summary>
    public static void WriteText(Surroundings world, string target, string json)
    {
        if (target == StandardOutput)
        {
            world.Out.Write(json);
            world.Out.Write('\n');
            return;
        }

        SafeFile.Write(target, stream =>
        {
            using StreamWriter writer = new(stream, leaveOpen: true);
            writer.Write(json);
            writer.Write('\n');
        });
    }
}
