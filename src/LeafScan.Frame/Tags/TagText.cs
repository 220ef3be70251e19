using System.Globalization;

namespace LeafScan.Frame.Tags;

/// <summary>
/// What the QR code of a plant tag says: our word, the code's printed side, the plant's code. In that order, so that
/// a plant's code may hold any character.
/// </summary>
/// <param name="PlantCode">The plant's short code as printed beside it; not empty.</param>
/// <param name="SideMm">Printed side of the QR code without its quiet zone, in mm; gives scale where there is no sheet.</param>
/// <remarks>Upper-case codes of digits, letters and <c>$%*+-./:</c> keep the whole text in QR's alphanumeric mode (ISO/IEC 18004), hence smaller.</remarks>
public sealed record TagText(string PlantCode, double SideMm)
{
    private const string Word = "LEAF1";

    /// <summary>The text to encode, such as <c>LEAF1/200/B12</c> for plant B12 and a side of 20.0 mm.</summary>
    public string Write() => string.Create(CultureInfo.InvariantCulture, $"{Word}/{Math.Round(SideMm * 10):0}/{PlantCode}");

    /// <summary>Reads a decoded QR text; null for a code that is none of our tags.</summary>
    /// <param name="text">The decoded text.</param>
    public static TagText? Read(string? text)
    {
        string[] parts = text?.Split('/', 3) ?? [];
        return parts is [Word, string tenths, { Length: > 0 } code]
            && int.TryParse(tenths, NumberStyles.None, CultureInfo.InvariantCulture, out int side) && side is > 0 and < 10_000
                ? new(code, side / 10.0)
                : null;
    }
}
