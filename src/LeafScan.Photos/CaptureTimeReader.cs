using System.Globalization;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;

namespace LeafScan.Photos;

/// <summary>Reads the capture time from EXIF. Position is never read.</summary>
internal static class CaptureTimeReader
{
    private const int OffsetTimeOriginal = 0x9011;

    /// <summary>DateTimeOriginal with OffsetTimeOriginal where present; null when the file has neither or they are nonsense.</summary>
    public static CaptureTime? Read(byte[] bytes)
    {
        try
        {
            using MemoryStream stream = new(bytes, writable: false);
            foreach (ExifSubIfdDirectory directory in ImageMetadataReader.ReadMetadata(stream).OfType<ExifSubIfdDirectory>())
            {
                string? text = directory.GetString(ExifDirectoryBase.TagDateTimeOriginal);
                if (text is not null && DateTime.TryParseExact(text.Trim('\0', ' '), "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
                {
                    return new CaptureTime(local, Offset(directory.GetString(OffsetTimeOriginal)));
                }
            }

            return null;
        }
        // Torn metadata make the library fail in ways of its own (a sequence without an element, say): all of them mean that no time can be told.
        catch (Exception problem) when (problem is not OutOfMemoryException)
        {
            return null;
        }
    }

    private static TimeSpan? Offset(string? text)
    {
        if (text is null || text.Length < 6 || text[0] is not ('+' or '-')
            || !TimeSpan.TryParseExact(text.AsSpan(1, 5), @"hh\:mm", CultureInfo.InvariantCulture, out TimeSpan offset) || offset > TimeSpan.FromHours(14))
        {
            return null;
        }

        return text[0] == '-' ? -offset : offset;
    }
}
