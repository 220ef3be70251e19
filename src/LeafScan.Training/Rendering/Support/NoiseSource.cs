namespace LeafScan.Training.Rendering.Support;

/// <summary>
/// Fast normal noise for pictures: a table of normal values read in an order given by a shift register (Marsaglia 2003,
/// Journal of Statistical Software 8(14)). System.Random alone would take most of the time of a photo.
/// </summary>
internal sealed class NoiseSource
{
    private const int Size = 1 << 14;
    private readonly float[] _table = new float[Size];
    private uint _state;

    public NoiseSource(Random random)
    {
        for (int i = 0; i < Size; i++)
        {
            _table[i] = (float)random.Normal();
        }

        _state = (uint)random.Next(1, int.MaxValue);
    }

    /// <summary>A normal value with mean 0 and spread 1.</summary>
    public float Next()
    {
        _state ^= _state << 13;
        _state ^= _state >> 17;
        _state ^= _state << 5;
        return _table[_state & (Size - 1)];
    }
}
