using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Cli.Commands;

/// <summary>thresholds: the numbers from which something is done, with source and region.</summary>
internal static class ThresholdsCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "thresholds", "Lists the numbers from which something is done, each with source and region; your own come before published ones.", "leafscan thresholds", "leafscan thresholds --json")
        {
            json, BuildSet(world), BuildReset(world),
        };
        command.SetAction(parsed =>
        {
            // Without a record the published ones are worth a look all the same.
            using RecordStore? store = RecordStore.Exists(DataPlace.Of(parsed, world).FolderPath) ? DataPlace.OpenExisting(parsed, world) : null;
            ThresholdTable table = RecordThresholds.Load(store);
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, ThresholdDocument.Of(table));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world.Out, table);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand BuildSet(Surroundings world)
    {
        Argument<string> measure = NewMeasure();
        Argument<double> value = new("NUMBER") { Description = "The number; % where the list shows %." };
        Option<string?> species = NewSpecies();
        Option<string?> client = NewClient();
        Option<string> source = new("--source") { Description = "Who says so: a page, a trial, your own records.", HelpName = "TEXT", Required = true };
        Option<string?> region = new("--region") { Description = "Where it holds.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "set", "Sets a threshold of your own.", "leafscan thresholds set mites-per-tap 5 --species \"Euonymus alatus\" --source \"own records 2024 to 2026\" --region \"Hudson valley\"")
        {
            measure, value, species, client, source, region, json,
        };
        command.SetAction(parsed =>
        {
            ThresholdMeasure kind = ThresholdWords.MeasureOf(parsed.GetValue(measure)!)!.Value;
            double number = parsed.GetValue(value) / (ThresholdWords.IsPercent(kind) ? 100 : 1);
            string? fault = ThresholdWords.FaultOf(kind, number) ?? (Clean(parsed.GetValue(source)) is null ? "A threshold needs a source" : null);
            if (fault is not null)
            {
                throw new CommandException(ExitCode.WrongUse, $"{fault}. Nothing was set.");
            }

            using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
            Threshold threshold = new(kind, number, Clean(parsed.GetValue(species)), Clean(parsed.GetValue(client)), Clean(parsed.GetValue(region)) ?? string.Empty, Clean(parsed.GetValue(source))!, true);
            ThresholdTable table = RecordThresholds.Set(store, threshold);
            return Answer.Give(world, parsed, json, ThresholdDocument.Of(table), $"Set: {parsed.GetValue(measure)} {ThresholdWords.NumberOf(threshold)}{Scope(threshold)}.");
        });
        return command;
    }

    private static ExampleCommand BuildReset(Surroundings world)
    {
        Argument<string> measure = NewMeasure();
        Option<string?> species = NewSpecies();
        Option<string?> client = NewClient();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("reset", "Drops a threshold of your own; the published one, if any, holds again.", "leafscan thresholds reset mites-per-tap --species \"Euonymus alatus\"")
        {
            measure, species, client, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            Threshold gone = RecordThresholds.Drop(store, ThresholdWords.MeasureOf(parsed.GetValue(measure)!)!.Value, Clean(parsed.GetValue(species)), Clean(parsed.GetValue(client)))
                ?? throw new CommandException(ExitCode.WrongUse, $"You have set no {parsed.GetValue(measure)} for just these plants and this client. All thresholds: leafscan thresholds");
            return Answer.Give(
                world, parsed, json, ThresholdDocument.Of(RecordThresholds.Load(store)), $"Dropped: {parsed.GetValue(measure)} {ThresholdWords.NumberOf(gone)}{Scope(gone)}. Published ones hold again where there are any.");
        });
        return command;
    }

    private static void Write(TextWriter writer, ThresholdTable table)
    {
        TextTable text = new("threshold", ">number", "plants", "client", "whose", "source");
        foreach (Threshold threshold in table.All.OrderBy(threshold => threshold.Measure).ThenBy(threshold => !threshold.IsOwn))
        {
            string region = threshold.Region.Length > 0 ? $" ({threshold.Region})" : string.Empty;
            text.Add(
                ThresholdWords.NameOf(threshold.Measure), ThresholdWords.NumberOf(threshold), threshold.Plants ?? "all", threshold.Client ?? "all", threshold.IsOwn ? "yours" : "published",
                threshold.Source + region);
        }

        text.WriteTo(writer);
        foreach (string name in ThresholdWords.All)
        {
            writer.WriteLine($"{name}: {ThresholdWords.MeaningOf(ThresholdWords.MeasureOf(name)!.Value)}.");
        }

        writer.WriteLine("No threshold per tap is published for burning bush, boxwood, rose or other broadleaf ornamentals. Regions differ; the local label and law bind.");
    }

    private static string Scope(Threshold threshold)
        => (threshold.Plants is { } plants ? $" for {plants}" : " for all plants") + (threshold.Client is { } client ? $" of {client}" : string.Empty);

    private static string? Clean(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static Argument<string> NewMeasure()
    {
        Argument<string> measure = new("THRESHOLD") { Description = string.Join(", ", ThresholdWords.All) + "." };
        measure.OnlyOneOf(ThresholdWords.All);
        return measure;
    }

    private static Option<string?> NewSpecies() => new("--species") { Description = "Genus or species it holds for, or \"conifers\". Default: all plants.", HelpName = "NAME" };

    private static Option<string?> NewClient() => new("--client") { Description = "Client it holds for. Default: all.", HelpName = "NAME" };
}
