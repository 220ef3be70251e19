using System.Text;

namespace LeafScan.Records.Exchange;

/// <summary>
/// Reads what an archive holds without believing its sizes: a few kilobytes can unpack to gigabytes, and what is read here
/// comes from outside.
/// </summary>
internal static class LimitedReading
{
    /// <summary>Longest file beside the tables, bytes: manifest and settings are some kilobytes.</summary>
    public const int MostFileBytes = 4_000_000;

    /// <summary>Longest row, characters: a leaf with 5000 corners and tens of thousands of specks stays below a tenth of it.</summary>
    public const int LongestRow = 20_000_000;

    /// <summary>The whole of a stream.</summary>
    /// <exception cref="InvalidDataException">It is longer than <see cref="MostFileBytes"/>.</exception>
    public static byte[] Whole(Stream stream)
    {
        using MemoryStream whole = new();
        byte[] buffer = new byte[1 << 16];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            whole.Write(buffer, 0, read);
            if (whole.Length > MostFileBytes)
            {
                throw new InvalidDataException("An entry is longer than any of its kind.");
            }
        }

        return whole.ToArray();
    }

    /// <summary>The lines of a table.</summary>
    /// <exception cref="InvalidDataException">A line is longer than <see cref="LongestRow"/>.</exception>
    public static IEnumerable<string> Lines(TextReader source)
    {
        char[] buffer = new char[1 << 16];
        StringBuilder line = new();
        int read;
        while ((read = source.ReadBlock(buffer)) > 0)
        {
            int from = 0;
            for (int end; (end = Array.IndexOf(buffer, '\n', from, read - from)) >= 0; from = end + 1)
            {
                yield return line.Append(buffer, from, end - from).ToString();
                line.Clear();
            }

            line.Append(buffer, from, read - from);
            if (line.Length > LongestRow)
            {
                throw new InvalidDataException("A row is longer than any of its kind.");
            }
        }

        if (line.Length > 0)
        {
            yield return line.ToString();
        }
    }
}
