using System.CommandLine;
using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Photos;
using LeafScan.Training.Bench;
using LeafScan.Training.Bench.Foliage;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using LeafScan.Training.Rendering.Twigs;
using LeafScan.Trends.Statistics;

namespace LeafScan.Training.Commands;

/// <summary>healthy-check: what a healthy photo is worth where a twig or plant is discoloured all over.</summary>
internal static class HealthyCheckCommand
{
    public static Command Build()
    {
        SeriesOptions options = new();
        Option<bool> plants = new("--plants") { Description = "Whole plants; without it twigs." };
        Command command = new("healthy-check", "Renders twigs or plants in health and with hardly any green left, and measures the later photo without and with the healthy one.") { plants };
        options.AddTo(command);
        command.SetAction((parsed, cancel) =>
        {
            (int count, int seed, Difficulty level, string folder, int size) = options.Read(parsed);
            List<(FoliageScore Alone, FoliageScore Beside)> scores = [];
            for (int i = 0; i < count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                (FoliageScore Alone, FoliageScore Beside)? one = Measure(parsed.GetValue(plants), seed + i, level, folder, size, cancel);
                if (one is { } both && both.Alone.Reading is not null)
                {
                    scores.Add(both);
                    Console.Out.WriteLine($"{Line(both.Alone)}\n  beside {Line(both.Beside)}");
                }
                else
                {
                    Console.Out.WriteLine($"{seed + i} refused");
                }
            }

            Totals("alone", [.. scores.Select(s => s.Alone)]);
            Totals("beside the healthy photo", [.. scores.Select(s => s.Beside)]);
            return Task.FromResult(0);
        });
        return command;
    }

    private static (FoliageScore Alone, FoliageScore Beside)? Measure(bool plants, int seed, Difficulty level, string folder, int size, CancellationToken cancel)
    {
        (string healthy, string later) = plants ? Plant(seed, level, folder, size) : Twig(seed, level, folder, size);
        MeasureOptions how = new() { Kind = plants ? "plant" : "twig" };
        using PhotoOutcome opened = PhotoReader.Open(Path.Combine(folder, healthy + ".jpg"), new PhotoLimits(), cancel);
        HealthyPhoto sound = HealthyPhoto.Read(opened.Photo!, how, cancel);
        if (sound.Colour is null)
        {
            return null;
        }

        TruthCase one = BenchRun.Cases([folder], PhotoNumbers.All).Single(c => Path.GetFileNameWithoutExtension(c.PhotoPath) == later);
        return (FoliageScore.Of(one, null, cancel), FoliageScore.Of(one, null, cancel, sound.Colour));
    }

    private static (string Healthy, string Later) Twig(int seed, Difficulty level, string folder, int size)
    {
        (TwigSpec healthy, TwigSpec later) = AllOver.Twig(seed, level, size);
        foreach (TwigSpec spec in new[] { healthy, later })
        {
            using RenderedTwig twig = TwigRenderer.Render(spec);
            TwigWriter.Write(twig, folder);
        }

        return (healthy.Name, later.Name);
    }

    private static (string Healthy, string Later) Plant(int seed, Difficulty level, string folder, int size)
    {
        (PlantSpec healthy, PlantSpec later) = AllOver.Plant(seed, level, size);
        foreach (PlantSpec spec in new[] { healthy, later })
        {
            using RenderedPlant plant = PlantRenderer.Render(spec);
            PlantWriter.Write(plant, folder);
        }

        return (healthy.Name, later.Name);
    }

    private static void Totals(string name, FoliageScore[] scores)
    {
        if (scores.Length < 2)
        {
            return;
        }

        double ccc = Concordance.Of([.. scores.Select(s => s.Reading!.Damage)], [.. scores.Select(s => s.Truth.Discoloured)]).Ccc;
        double error = scores.Average(s => Math.Abs(s.Reading!.Damage - s.Truth.Discoloured));
        int inside = scores.Count(s => s.Truth.Discoloured >= s.Reading!.DamageLow && s.Truth.Discoloured <= s.Reading.DamageHigh);
        int unsure = scores.Count(s => s.Reading!.Flags.Contains(Flag.SoundColourUnsure.Name));
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{name}: CCC {ccc:0.000}, mean absolute error {error:0.000}, truth inside the interval {inside} of {scores.Length}, flagged unsure {unsure}"));
    }

    private static string Line(FoliageScore s) => string.Create(CultureInfo.InvariantCulture,
        $"{s.Name} {s.Truth.Host} {s.Reading!.Damage:0.000}/{s.Truth.Discoloured:0.000} [{s.Reading.DamageLow:0.00} {s.Reading.DamageHigh:0.00}] {string.Join(' ', s.Reading.Flags)}");
}
