namespace LeafScan.Photos;

/// <summary>Orders names as people do: digits by their number, so that 2 comes before 10; otherwise by character.</summary>
public static class NaturalOrder
{
    /// <summary>The comparer; total, culture-free.</summary>
    public static IComparer<string> Comparer { get; } = Comparer<string>.Create(Compare);

    private static int Compare(string? a, string? b)
    {
        ReadOnlySpan<char> x = a;
        ReadOnlySpan<char> y = b;
        while (!x.IsEmpty && !y.IsEmpty)
        {
            int order;
            if (char.IsAsciiDigit(x[0]) && char.IsAsciiDigit(y[0]))
            {
                ReadOnlySpan<char> p = Digits(ref x);
                ReadOnlySpan<char> q = Digits(ref y);
                order = p.Length != q.Length ? p.Length.CompareTo(q.Length) : p.SequenceCompareTo(q);
            }
            else
            {
                order = char.ToUpperInvariant(x[0]).CompareTo(char.ToUpperInvariant(y[0]));
                x = x[1..];
                y = y[1..];
            }

            if (order != 0)
            {
                return order;
            }
        }

        int rest = x.Length.CompareTo(y.Length);
        return rest != 0 ? rest : string.CompareOrdinal(a, b);
    }

    private static ReadOnlySpan<char> Digits(ref ReadOnlySpan<char> text)
    {
        int end = 0;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }

        ReadOnlySpan<char> digits = text[..end].TrimStart('0');
        text = text[end..];
        return digits;
    }
}
