using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Verdicts;
using LeafScan.Web.Api;
using Microsoft.Extensions.Hosting;

namespace LeafScan.Web.Measuring;

/// <summary>Judges all plants once when the server starts, and looks at what their leaves say for the next steps, so that the first look at a large nursery need not wait for it.</summary>
internal sealed class VerdictsAhead(RecordStore store, KeptVerdicts verdicts, KeptLeafStates leaves, KeptEntries entries, ServerOptions options) : BackgroundService
{
    protected override Task ExecuteAsync(CancellationToken stoppingToken) => Task.Run(
        () =>
        {
            try
            {
                foreach (Plant[] some in store.Plants().Chunk(PlantsAtOnce))
                {
                    if (stoppingToken.IsCancellationRequested)
                    {
                        return;
                    }

                    verdicts.Of(some.Select(plant => plant.Id));
                    leaves.Of(some, Today.At(options.Clock));
                    entries.Of([.. some.Select(plant => plant.Id)]);
                }
            }
            catch (RecordException)
            {
                // Whoever asks for the list gets the trouble in words.
            }
        },
        stoppingToken);

    private const int PlantsAtOnce = 200;
}
