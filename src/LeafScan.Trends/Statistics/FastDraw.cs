using System.Numerics;
using System.Runtime.CompilerServices;

namespace LeafScan.Trends.Statistics;

/// <summary>
/// Draws places of a list with equal chance: xoshiro256** (Blackman and Vigna 2021, ACM Trans. Math. Software 47:36), two draws from each
/// word, brought to range by multiplying (Lemire 2019, without the rejection: the bias stays under count/2^32). Drawing again needs millions of
/// places, and a seeded <see cref="Random"/> takes about ten times as long for each.
/// </summary>
internal struct FastDraw
{
    private ulong _s0, _s1, _s2, _s3, _half;
    private bool _hasHalf;

    /// <summary>Starts from a number, such as one from a source of chance.</summary>
    public FastDraw(long start)
    {
        // SplitMix64 spreads one number over the four words, as the generator's authors ask for.
        ulong seed = unchecked((ulong)start);
        _s0 = Split(ref seed);
        _s1 = Split(ref seed);
        _s2 = Split(ref seed);
        _s3 = Split(ref seed);
    }

    /// <summary>A place from 0 to <paramref name="count"/> - 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Next(int count)
    {
        ulong word;
        if (_hasHalf)
        {
            word = _half;
            _hasHalf = false;
        }
        else
        {
            ulong next = Word();
            word = next >> 32;
            _half = next & uint.MaxValue;
            _hasHalf = true;
        }

        return (int)((word * (uint)count) >> 32);
    }

    /// <summary>The next 64 bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ulong Word()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9;
        ulong shifted = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= shifted;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>For tests: the generator with its four words given.</summary>
    internal static FastDraw FromWords(ulong s0, ulong s1, ulong s2, ulong s3) => new() { _s0 = s0, _s1 = s1, _s2 = s2, _s3 = s3 };

    private static ulong Split(ref ulong state)
    {
        state += 0x9E3779B97F4A7C15;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
