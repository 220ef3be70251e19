using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Walks.Foliage;

namespace LeafScan.Cli.Commands;

/// <summary>compare: plants in one month beside the same plants in another, each alone and all together.</summary>
internal static class CompareCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant. Without it, all plants (of --block, --place, --client), and all of them together.", Arity = ArgumentArity.ZeroOrOne };
        Option<Month?> from = MonthOption("--from", "The earlier month.");
        Option<Month?> to = MonthOption("--to", "The later month.");
        Option<string?> place = new("--place") { Description = "Only plants of this place.", HelpName = "NAME" };
        Option<string?> block = GroupChoice.NewBlockOption();
        Option<string?> client = GroupChoice.NewClientOption();
        Option<string> kind = KindOption.OnRecord();
        Option<string?> picture = CompareViews.NewPictureOption();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "compare", "Shows plants in one month beside another month: how much more damage, how sure, and how many leaves would settle it.",
            "leafscan compare --from 2026-06 --to 2026-07", "leafscan compare EU-1 --from 2026-06 --to 2026-07", "leafscan compare --block \"South bed\" --from 2026-06 --to 2026-07 --json",
            "leafscan compare SPRUCE-4 --from 2026-06 --to 2026-07 --kind plant --picture change.jpg")
        {
            code, from, to, place, block, client, kind, picture, json,
        };
        command.SetAction((parsed, cancel) =>
        {
            (Month first, Month second) = (parsed.GetValue(from)!.Value, parsed.GetValue(to)!.Value);
            if (first.FirstDay >= second.FirstDay)
            {
                throw new CommandException(ExitCode.WrongUse, $"--from {first} does not lie before --to {second}. Nothing was done.");
            }

            string? drawing = parsed.GetValue(picture);
            CompareViews.Check(drawing, parsed.GetValue(code), parsed.GetValue(kind));
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            GroupChoice group = new(parsed.GetValue(place), parsed.GetValue(block), parsed.GetValue(client));
            string? one = parsed.GetValue(code);
            IReadOnlyList<Plant> plants = one is not null ? [PlantChoice.One(store, one, group.Place)] : group.IsNamed ? group.Plants(store) : store.Plants();
            CompareView view = Compare(store, plants, first, second, parsed.GetValue(kind)) with { Of = one is null ? group.Words : null };
            if (view.Kinds.Nothing(parsed.GetValue(kind)) is { } nothing)
            {
                world.Err.WriteLine(nothing);
            }

            if (drawing is not null)
            {
                view = view with { Views = CompareViews.LineUp(store, plants[0], first, second, drawing, PrinterScale.Options(parsed, world, "plant"), cancel) };
            }

            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, CompareDocument.Of(view));
            }

            if (target != JsonOut.StandardOutput)
            {
                CompareTable.Write(world.Out, view);
                ViewTable.Write(world.Out, view.Views);
            }

            return Task.FromResult(view.Views is { Change: null } ? ExitCode.NothingMeasurable : ExitCode.Done);
        });
        return command;
    }

    /// <summary>Compares every plant that has a leaf in one of the months, and all of them together.</summary>
    public static CompareView Compare(RecordStore store, IReadOnlyList<Plant> plants, Month from, Month to, string? kind = null)
    {
        long[] ids = [.. plants.Select(plant => plant.Id)];

        // Two questions, so that the leaves of the months between are never read.
        LeafOnRecord[] all = [.. store.LeavesOfPlants(ids, from.FirstDay, from.LastDay, kind), .. store.LeavesOfPlants(ids, to.FirstDay, to.LastDay, kind)];
        ILookup<long, LeafOnRecord> leaves = all.ToLookup(leaf => leaf.PlantId);
        return new CompareView(
            from,
            to,
            [
                .. plants.Where(plant => leaves.Contains(plant.Id)).AsParallel().AsOrdered()
                    .Select(plant => (plant, MonthComparison.Of(leaves[plant.Id], from, to, null, SteadyChance.New))),
            ],
            GroupComparison.Of(all, from, to))
        {
            Kinds = KindsShown.Of(all),
        };
    }

    private static Option<Month?> MonthOption(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "YYYY-MM",
        Required = true,
        CustomParser = result =>
        {
            Month? month = Month.Parse(result.Tokens[0].Value);
            if (month is null)
            {
                result.AddError($"{name} takes a month such as 2026-07, not \"{result.Tokens[0].Value}\".");
            }

            return month;
        },
    };
}

/// <summary>What is shown of two months.</summary>
/// <param name="From">The earlier month.</param>
/// <param name="To">The later month.</param>
/// <param name="Plants">Each plant.</param>
/// <param name="Together">All of them together.</param>
internal sealed record CompareView(Month From, Month To, IReadOnlyList<(Plant Plant, MonthComparison Months)> Plants, GroupComparison Together)
{
    /// <summary>What the plants are together, in words; null for a single plant that was named.</summary>
    public string? Of { get; init; }

    /// <summary>Two whole-plant photos lined up; null where that was not asked for.</summary>
    public LinedUpViews? Views { get; init; }

    /// <summary>What the readings are of.</summary>
    public required KindsShown Kinds { get; init; }
}
