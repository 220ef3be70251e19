using System.CommandLine;
using System.Globalization;
using LeafScan.Training.Bench.Taps;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;

namespace LeafScan.Training.Commands;

/// <summary>tap-check: how well walkers are found on rendered sheets.</summary>
internal static class TapBenchCommand
{
    public static Command Build()
    {
        Option<double[]> mites = new("--mite-px") { Description = "Lengths of a usual mite (0.4 mm) in pixels.", DefaultValueFactory = _ => [4, 3], AllowMultipleArgumentsPerToken = true };
        Option<Difficulty> level = new("--level") { Description = "easy, medium or hard.", DefaultValueFactory = _ => Difficulty.Hard };
        Option<int> seed = new("--seed") { Description = "Seed of the first pair; 900000 and more are kept for reporting.", DefaultValueFactory = _ => 1 };
        Option<int> pairs = new("--pairs") { Description = "Pairs for each length.", DefaultValueFactory = _ => 40 };
        Option<int> none = new("--none") { Description = "Pairs on which nothing lives.", DefaultValueFactory = _ => 20 };
        Option<int> size = new("--size") { Description = "Long side of the photos in pixels.", DefaultValueFactory = _ => 1600 };
        Option<bool> scale = new("--with-scale") { Description = "Tells the scale, as a printed sheet does." };
        Option<int> troubled = new("--troubled") { Description = "Pairs of each trouble (blurred, shaken, tilted, folded, sunlit, half out of the frame), at the first length.", DefaultValueFactory = _ => 0 };
        Option<int> photos = new("--photos") { Description = "Photos of each sheet, 2 to 9: more are a burst over the same time.", DefaultValueFactory = _ => 2 };
        Option<bool> each = new("--each") { Description = "Also a line for each pair." };
        Option<string?> keep = new("--keep") { Description = "Folder that keeps the pairs." };
        Command command = new("tap-check", "Reads rendered tap sheets and prints how well walkers are found.") { mites, level, seed, pairs, none, size, scale, troubled, photos, each, keep };
        command.SetAction((parsed, cancel) =>
        {
            foreach (double px in parsed.GetValue(mites)!)
            {
                Run($"{px.ToString(CultureInfo.InvariantCulture)} px a mite", parsed.GetValue(pairs), new TapWish { MiteLengthPx = px });
                Run($"{px.ToString(CultureInfo.InvariantCulture)} px, none alive", parsed.GetValue(none), new TapWish { MiteLengthPx = px, NoneAlive = true });
            }

            foreach (TapTrouble trouble in parsed.GetValue(troubled) > 0 ? Enum.GetValues<TapTrouble>().Skip(1) : [])
            {
                Run($"{parsed.GetValue(mites)![0].ToString(CultureInfo.InvariantCulture)} px, {trouble}", parsed.GetValue(troubled), new TapWish { MiteLengthPx = parsed.GetValue(mites)![0], Trouble = trouble });
            }

            return Task.FromResult(0);

            void Run(string name, int count, TapWish wish)
            {
                List<TapScore> scores = [];
                for (int i = 0; i < count; i++)
                {
                    cancel.ThrowIfCancellationRequested();
                    TapScore score = TapRun.One(parsed.GetValue(seed) + i, parsed.GetValue(level), parsed.GetValue(size), wish, parsed.GetValue(scale), parsed.GetValue(keep), parsed.GetValue(photos));
                    scores.Add(score);
                    if (parsed.GetValue(each))
                    {
                        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                            $"  {parsed.GetValue(seed) + i}: {score.Walkers} walkers, {score.Found} found, {score.False} false, seen once {score.SeenOnce}, said {score.Reported} [{score.Low}, {score.High}], debris {score.Debris}, predators {score.PredatorsSaid} of {score.Predators}, alignment {score.AlignmentErrorPx:0.00} px {string.Join(' ', score.Flags)} {score.Refused}"));
                        foreach (string mistake in score.Mistakes)
                        {
                            Console.Out.WriteLine("     wrong: " + mistake);
                        }

                        foreach (string missed in score.Missed)
                        {
                            Console.Out.WriteLine("     missed: " + missed);
                        }
                    }
                }

                if (count > 0)
                {
                    Console.Out.WriteLine($"{name}: {new TapTotals(scores).Line()}");
                    IEnumerable<string> said = scores.SelectMany(s => s.Refused is { } why ? [why.Contains("lined up", StringComparison.Ordinal) ? "refused: not lined up" : why.Contains("blurred", StringComparison.Ordinal) ? "refused: too blurred" : why.Contains("shaken", StringComparison.Ordinal) ? "refused: too shaken" : "refused: too little in common"] : s.Flags)
                        .GroupBy(word => word).OrderByDescending(word => word.Count()).Select(word => $"{word.Key} {word.Count()}");
                    Console.Out.WriteLine($"  said: {string.Join(", ", said)}");
                }
            }
        });
        return command;
    }
}
