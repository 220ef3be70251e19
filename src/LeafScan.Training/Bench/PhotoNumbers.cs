using System.Globalization;

namespace LeafScan.Training.Bench;

/// <summary>Which photos of a folder to take, by the last number in a photo's name: a plain way to keep half of them for checking.</summary>
public enum PhotoNumbers
{
    /// <summary>All photos.</summary>
    All,

    /// <summary>Even numbers only; photos without a number are left out.</summary>
    Even,

    /// <summary>Odd numbers only; photos without a number are left out.</summary>
    Odd,
}

/// <summary>Reads numbers from names.</summary>
public static class PhotoNumbersRule
{
    /// <summary>Whether a photo is one of those wanted.</summary>
    /// <param name="numbers">Which are wanted.</param>
    /// <param name="path">The photo.</param>
    public static bool Has(this PhotoNumbers numbers, string path)
    {
        if (numbers == PhotoNumbers.All)
        {
            return true;
        }

        string name = Path.GetFileNameWithoutExtension(path);
        int end = name.Length;
        while (end > 0 && !char.IsAsciiDigit(name[end - 1]))
        {
            end--;
        }

        // Only the last digit decides whether a number is even.
        return end > 0 && (int.Parse(name.AsSpan(end - 1, 1), CultureInfo.InvariantCulture) % 2 == 0) == (numbers == PhotoNumbers.Even);
    }
}
