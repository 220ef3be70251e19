using System.Globalization;

namespace LeafScan.Photos;

/// <summary>
/// A camera's own date and time. Cameras write local time; the offset from UTC is often missing and is then
/// kept as unknown, never guessed.
/// </summary>
/// <param name="Local">Date and time on the camera's clock; its kind is unspecified.</param>
/// <param name="Offset">Offset from UTC when the file carries one; null when unknown.</param>
public readonly record struct CaptureTime(DateTime Local, TimeSpan? Offset)
{
    /// <summary>ISO 8601: with offset ("2026-07-02T09:14:00-04:00") when known, without when not.</summary>
    public override string ToString()
    {
        string local = Local.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
        if (Offset is not { } offset)
        {
            return local;
        }

        string sign = offset < TimeSpan.Zero ? "-" : "+";
        return local + sign + offset.Duration().ToString(@"hh\:mm", CultureInfo.InvariantCulture);
    }

    /// <summary>Reads what <see cref="ToString"/> writes; null when the text is not such a time.</summary>
    public static CaptureTime? Parse(string? text)
    {
        if (string.IsNullOrEmpty(text) || text.Length < 19
            || !DateTime.TryParseExact(text[..19], "yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            return null;
        }

        if (text.Length == 19)
        {
            return new CaptureTime(local, null);
        }

        if (text.Length == 25 && text[19] is '+' or '-'
            && TimeSpan.TryParseExact(text[20..], @"hh\:mm", CultureInfo.InvariantCulture, out TimeSpan offset))
        {
            return new CaptureTime(local, text[19] == '-' ? -offset : offset);
        }

        return null;
    }
}
