using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Tissue;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>
/// The <see cref="ColourFinding"/> of a leaf for two who run side by side: whoever asks first works it out, the other waits for it. Owns it.
/// </summary>
/// <param name="patch">The leaf.</param>
/// <param name="options">Thresholds.</param>
internal sealed class ColourMeanwhile(LeafPatch patch, TissueOptions options) : IDisposable
{
    private readonly Lazy<ColourFinding> _finding = new(() => ColourFinding.Of(patch, options));

    /// <summary>What colour sees.</summary>
    public ColourFinding Finding => _finding.Value;

    /// <inheritdoc />
    public void Dispose()
    {
        if (_finding.IsValueCreated)
        {
            _finding.Value.Dispose();
        }
    }
}
