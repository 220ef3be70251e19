namespace LeafScan.Training.Fuzz;

/// <summary>One damaged file.</summary>
/// <param name="Damage">What was done to it, in words.</param>
/// <param name="Bytes">Its bytes.</param>
/// <param name="Original">Number of the sound file it was made from.</param>
internal sealed record FuzzFile(string Damage, byte[] Bytes, int Original)
{
    /// <summary>Whether the damage can be seen by anyone who looks: data are missing, or a checksum does not hold.</summary>
    public bool IsPlain { get; init; }
}

/// <summary>What became of one damaged file.</summary>
/// <param name="Fate">In words, for counting.</param>
/// <param name="Fault">What must not have happened; null when all went as it should.</param>
internal sealed record FuzzResult(string Fate, string? Fault = null);

/// <summary>One way into the program for files from outside.</summary>
internal interface IFuzzTarget : IDisposable
{
    /// <summary>Its name, one word.</summary>
    string Name { get; }

    /// <summary>Makes a damaged file by chance.</summary>
    FuzzFile Next(Random random);

    /// <summary>Gives the file to the program. An exception that gets out is a fault.</summary>
    FuzzResult Try(FuzzFile file);
}
