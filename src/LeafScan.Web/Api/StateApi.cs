using LeafScan.Leaves;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Measuring;

namespace LeafScan.Web.Api;

/// <summary>/api/state: what the record holds and how the server stands.</summary>
internal static class StateApi
{
    public static void Map(IEndpointRouteBuilder api)
        => api.MapGet("/state", State).WithSummary("What the record holds and how the server stands.").WithTags("State");

    private static StateDocument State(RecordStore store, ServerOptions options, ServerHealth health)
    {
        IReadOnlyDictionary<long, int> walks = store.WalkCounts();
        ILookup<long, Plant> plants = store.Plants().ToLookup(plant => plant.PlaceId);
        return new StateDocument(
            ToolVersion.Current,
            [.. store.Places().Select(place => new PlaceDocument(place.Id, place.Name, place.ClientName, plants[place.Id].Count(), walks.GetValueOrDefault(place.Id)))],
            store.Describe().Photos,
            store.CountUploads().Waiting,
            options.Lan,
            false,
            Today.At(options.Clock),
            health.Problems);
    }
}
