using System.CommandLine;
using System.CommandLine.Parsing;
using LeafScan.Training.Rendering;

namespace LeafScan.Training.Commands;

/// <summary>The options that every kind of rendered series takes: how many, from which seed, how hard, where to, how large.</summary>
internal sealed class SeriesOptions
{
    private readonly Option<int> _scenes = new("--scenes") { Description = "How many, 1 to 100000.", DefaultValueFactory = _ => 10 };
    private readonly Option<int> _seed = new("--seed") { Description = "Seed of the first; the others follow.", DefaultValueFactory = _ => 1 };
    private readonly Option<Difficulty> _level = new("--level") { Description = "easy, medium or hard.", DefaultValueFactory = _ => Difficulty.Medium };
    private readonly Option<DirectoryInfo> _folder = new("--out") { Description = "Folder to write to; made when missing. Required." };
    private readonly Option<int> _size = new("--size") { Description = "Long side of the photos in pixels, 400 to 6000.", DefaultValueFactory = _ => 1600 };

    private readonly Option<bool> _keptAside = new("--kept-aside") { Description = "Allows seeds that are kept aside for reporting accuracy." };

    public void AddTo(Command command)
    {
        Within(_scenes, 1, 100_000, "The number of photos is 1 to 100000");
        Within(_size, 400, 6000, "The size of a photo is 400 to 6000 pixels");
        foreach (Option option in (Option[])[_scenes, _seed, _level, _folder, _size, _keptAside])
        {
            command.Options.Add(option);
        }

        command.Validators.Add(Check);
    }

    public (int Count, int Seed, Difficulty Level, string Folder, int SizePx) Read(ParseResult parsed)
        => (parsed.GetValue(_scenes), parsed.GetValue(_seed), parsed.GetValue(_level), parsed.GetValue(_folder)!.FullName, parsed.GetValue(_size));

    private void Check(CommandResult result)
    {
        if (result.GetResult(_folder) is null)
        {
            result.AddError("Say where to write with --out FOLDER; nothing was written.");
        }

        if (Number(result, _seed) is not { } seed || Number(result, _scenes) is not { } scenes)
        {
            return;
        }

        (long first, long count) = (seed, scenes);
        if (first + count - 1 > int.MaxValue)
        {
            result.AddError($"The last seed would be {first + count - 1}, but seeds end at {int.MaxValue}; nothing was written.");
        }

        if (!result.GetValue(_keptAside) && KeptAside.Touches(first, count))
        {
            result.AddError($"Seeds {KeptAside.First} to {KeptAside.Last} are kept aside for reporting accuracy; nothing was written. Choose others, or add --kept-aside when you only report.");
        }
    }

    private static void Within(Option<int> option, int low, int high, string rule) => option.Validators.Add(result =>
    {
        if (Number(result, option) is { } value && (value < low || value > high))
        {
            result.AddError(rule + "; nothing was written.");
        }
    });

    // Null for a word that is no number: the parser refuses it itself, and asking for its value would throw.
    private static int? Number(SymbolResult result, Option<int> option)
        => result.GetResult(option) is { Tokens: [{ } word] } && !int.TryParse(word.Value, out _) ? null : result.GetValue(option);
}
