using System.Numerics;

namespace LeafScan.Photos.Pictures;

/// <summary>Finds the value of a rank without sorting all others: over a picture's pixels sorting takes ten times as long.</summary>
public static class Ranked
{
    // Below this a plain sort is as fast.
    private const int Few = 24;

    /// <summary>The value that would stand at a place if all were sorted, smallest first; not-a-numbers come first, as they do in sorting.</summary>
    /// <param name="values">Values, at least one; their order is changed.</param>
    /// <param name="rank">Place, counted from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such place.</exception>
    /// <remarks>Hoare's selection (Algorithm 65: Find, Communications of the ACM 4, 1961), with the middle one of three to part by.</remarks>
    public static T At<T>(Span<T> values, int rank)
        where T : struct, IBinaryFloatingPointIeee754<T>
    {
        ArgumentOutOfRangeException.ThrowIfNegative(rank);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(rank, values.Length);
        int none = NotNumbersFirst(values);
        if (rank < none)
        {
            return T.NaN;
        }

        int left = none, right = values.Length - 1;
        while (right - left > Few)
        {
            T middle = MiddleOf(values[left], values[(left + right) / 2], values[right]);
            (int i, int j) = (left, right);
            while (i <= j)
            {
                while (values[i] < middle)
                {
                    i++;
                }

                while (values[j] > middle)
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            // From left to j all are at most the middle one, from i to right at least; between them all are it.
            if (rank <= j)
            {
                right = j;
            }
            else if (rank >= i)
            {
                left = i;
            }
            else
            {
                return middle;
            }
        }

        values[left..(right + 1)].Sort();
        return values[rank];
    }

    private static int NotNumbersFirst<T>(Span<T> values)
        where T : struct, IBinaryFloatingPointIeee754<T>
    {
        int none = 0;
        for (int i = 0; i < values.Length; i++)
        {
            if (T.IsNaN(values[i]))
            {
                (values[none], values[i]) = (values[i], values[none]);
                none++;
            }
        }

        return none;
    }

    private static T MiddleOf<T>(T a, T b, T c)
        where T : struct, IBinaryFloatingPointIeee754<T> => T.Max(T.Min(a, b), T.Min(T.Max(a, b), c));
}
