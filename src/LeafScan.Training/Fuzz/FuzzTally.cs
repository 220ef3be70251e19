namespace LeafScan.Training.Fuzz;

/// <summary>What came of the files of one way in.</summary>
/// <param name="name">The way in.</param>
internal sealed class FuzzTally(string name)
{
    private readonly SortedDictionary<string, int> _fates = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, SortedDictionary<string, int>> _fatesByDamage = new(StringComparer.Ordinal);

    /// <summary>The way in.</summary>
    public string Name { get; } = name;

    /// <summary>Files tried.</summary>
    public int Files { get; private set; }

    /// <summary>Files at which something went wrong.</summary>
    public int Faults { get; private set; }

    /// <summary>Longest time of a file in seconds, see <see cref="FuzzOptions.MostSeconds"/>.</summary>
    public double MostSeconds { get; set; }

    /// <summary>Most memory that a file added to what the process held before, megabytes (10^6 bytes).</summary>
    public double MostAddedMb { get; set; }

    /// <summary>How often each fate.</summary>
    public IReadOnlyDictionary<string, int> Fates => _fates;

    /// <summary>The same by damage.</summary>
    public IReadOnlyDictionary<string, SortedDictionary<string, int>> FatesByDamage => _fatesByDamage;

    /// <summary>Counts a file.</summary>
    public void Count(FuzzFile file, FuzzResult result)
    {
        Files++;
        Faults += result.Fault is null ? 0 : 1;
        _fates[result.Fate] = _fates.GetValueOrDefault(result.Fate) + 1;
        SortedDictionary<string, int> ofDamage = _fatesByDamage.TryGetValue(file.Damage, out SortedDictionary<string, int>? known) ? known : _fatesByDamage[file.Damage] = new(StringComparer.Ordinal);
        ofDamage[result.Fate] = ofDamage.GetValueOrDefault(result.Fate) + 1;
    }
}
