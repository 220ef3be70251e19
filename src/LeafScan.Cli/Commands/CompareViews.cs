using System.CommandLine;
using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Walks.Foliage;

namespace LeafScan.Cli.Commands;

/// <summary>compare --picture: whole-plant photos of one plant from two months, lined up.</summary>
internal static class CompareViews
{
    /// <summary>A new option.</summary>
    public static Option<string?> NewPictureOption()
    {
        Option<string?> picture = new("--picture")
        {
            Description = "With one plant and --kind plant: lines up a photo of each month, says what has changed in each part of the plant and draws it into this JPEG.",
            HelpName = "FILE",
        };
        picture.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !Path.GetExtension(result.Tokens[0].Value).ToLowerInvariant().StartsWith(".jp", StringComparison.Ordinal))
            {
                result.AddError($"--picture writes a JPEG: name a file such as change.jpg, not \"{result.Tokens[0].Value}\".");
            }
        });
        return picture;
    }

    /// <summary>Whether the picture can be asked for.</summary>
    /// <exception cref="CommandException">It needs one plant and the kind plant.</exception>
    public static void Check(string? picture, string? code, string? kind)
    {
        if (picture is not null && (code is null || kind != "plant"))
        {
            throw new CommandException(ExitCode.WrongUse, "--picture lines up photos of one whole plant: name it and add --kind plant. Nothing was done.");
        }
    }

    /// <summary>Lines up two photos of the months and writes the picture.</summary>
    public static LinedUpViews LineUp(RecordStore store, Plant plant, Month from, Month to, string picture, MeasureOptions options, CancellationToken cancel)
        => PlantViews.LineUp(store, plant, TimeOf(from), TimeOf(to), picture, options, cancel);

    private static ViewTime TimeOf(Month month) => new(month.ToString(), month.Holds);
}
