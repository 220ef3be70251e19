using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Trends;
using LeafScan.Trends.Progress;

namespace LeafScan.Cli.Commands;

/// <summary>series: one plant, walk by walk, with what was done to it between; or a block, a place or a client, day by day.</summary>
internal static class SeriesCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant. Without it, name --block, --place or --client.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> block = GroupChoice.NewBlockOption();
        Option<string?> client = GroupChoice.NewClientOption();
        Option<string> kind = KindOption.OnRecord();
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "series", "Shows a plant walk by walk, with care and taps between; or a block, a place or a client day by day.",
            "leafscan series EU-1", "leafscan series EU-1 --json", "leafscan series --block \"South bed\"")
        {
            code, place, block, client, kind, json,
        };
        command.SetAction(parsed =>
        {
            GroupChoice group = new(parsed.GetValue(place), parsed.GetValue(block), parsed.GetValue(client));
            string? one = parsed.GetValue(code);
            if (one is null ? !group.IsNamed : group.Block is not null || group.Client is not null)
            {
                throw new CommandException(ExitCode.WrongUse, one is null
                    ? "Say which: leafscan series PLANT, or --block, --place or --client. All plants: leafscan plants"
                    : "A plant needs no --block and no --client; of two plants with one code --place tells which.");
            }

            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string? target = JsonOut.Target(parsed, json);
            if (one is null)
            {
                GroupSeriesView view = OfGroup(store, group, parsed.GetValue(kind));
                Give(world, target, view.Kinds.Nothing(parsed.GetValue(kind)), () => SeriesDocument.Of(view), () => SeriesScreen.Write(world.Out, view));
            }
            else
            {
                PlantSeriesView view = OfPlant(store, PlantChoice.One(store, one, group.Place), parsed.GetValue(kind));
                Give(world, target, view.Kinds.Nothing(parsed.GetValue(kind)), () => SeriesDocument.Of(view), () => SeriesScreen.Write(world.Out, view));
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static PlantSeriesView OfPlant(RecordStore store, Plant plant, string? kind)
    {
        IReadOnlyList<LeafOnRecord> leaves = store.LeavesOfPlant(plant.Id, kind);
        IReadOnlyList<TapOnRecord> taps = store.TapsOfPlant(plant.Id);
        IReadOnlyList<SeriesPoint> OfAge(LeafGrowth age) => SteadyChance.SeriesOf(leaves.Where(leaf => leaf.Age == age));
        return new PlantSeriesView(
            plant, SteadyChance.SeriesOf(leaves), OfAge(LeafGrowth.Old), OfAge(LeafGrowth.New), TaggedLeaf.Of(leaves), store.CareOfPlant(plant.Id), taps, TapDay.Of(taps), DamageTrend.Of(leaves))
        {
            Kinds = KindsShown.Of(leaves),
        };
    }

    private static GroupSeriesView OfGroup(RecordStore store, GroupChoice group, string? kind)
    {
        IReadOnlyList<Plant> plants = group.Plants(store);
        long[] ids = [.. plants.Select(plant => plant.Id)];
        IReadOnlyList<LeafDamage> leaves = store.DamageOfPlants(ids, kind);
        return new GroupSeriesView(group, plants.Count, GroupSeries.Of(leaves, null, SteadyChance.New), TapDay.Of(store.TapsOfPlants(ids).SelectMany(plant => plant)))
        {
            Kinds = KindsShown.Of(leaves),
        };
    }

    private static void Give(Surroundings world, string? target, string? nothing, Func<object> document, Action screen)
    {
        if (nothing is not null)
        {
            world.Err.WriteLine(nothing);
        }

        if (target is not null)
        {
            JsonOut.Write(world, target, document());
        }

        if (target != JsonOut.StandardOutput)
        {
            screen();
        }
    }
}

/// <summary>What is shown of one plant.</summary>
/// <param name="Plant">The plant.</param>
/// <param name="Points">All its leaves.</param>
/// <param name="Old">Those noted as old.</param>
/// <param name="NewGrowth">Those noted as new growth.</param>
/// <param name="Tagged">Tagged leaves one by one.</param>
/// <param name="Care">Care.</param>
/// <param name="Taps">Taps.</param>
/// <param name="TapDays">Days with taps and mite-days.</param>
/// <param name="Trend">Direction of its damage; null with too few visits.</param>
internal sealed record PlantSeriesView(
    Plant Plant, IReadOnlyList<SeriesPoint> Points, IReadOnlyList<SeriesPoint> Old, IReadOnlyList<SeriesPoint> NewGrowth, IReadOnlyList<TaggedLeaf> Tagged,
    IReadOnlyList<CareEntry> Care, IReadOnlyList<TapOnRecord> Taps, IReadOnlyList<TapDay> TapDays, DamageTrend? Trend)
{
    /// <summary>What the readings are of.</summary>
    public required KindsShown Kinds { get; init; }
}

/// <summary>What is shown of a block, a place or a client.</summary>
/// <param name="Group">Which.</param>
/// <param name="PlantCount">Plants on record there.</param>
/// <param name="Points">One a day with walks.</param>
/// <param name="TapDays">Days with taps and mite-days.</param>
internal sealed record GroupSeriesView(GroupChoice Group, int PlantCount, IReadOnlyList<GroupPoint> Points, IReadOnlyList<TapDay> TapDays)
{
    /// <summary>What the readings are of.</summary>
    public required KindsShown Kinds { get; init; }
}
