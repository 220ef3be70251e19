namespace LeafScan.Web.Measuring;

/// <summary>Lets one photo through at a time, whoever asks: a photo with its working copies may take more than a gigabyte.</summary>
internal sealed class MeasureGate : IDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>Waits for its turn, then works; once begun it is finished.</summary>
    public async Task<T> RunAsync<T>(Func<T> work, CancellationToken cancel)
    {
        await _one.WaitAsync(cancel).ConfigureAwait(false);
        try
        {
            return await Task.Run(work, CancellationToken.None).ConfigureAwait(false);
        }
        finally
        {
            SteadyMemory.Tidy();
            _one.Release();
        }
    }

    /// <summary>The same without a result.</summary>
    public Task RunAsync(Action work, CancellationToken cancel) => RunAsync(
        () =>
        {
            work();
            return 0;
        },
        cancel);

    /// <inheritdoc />
    public void Dispose() => _one.Dispose();
}
