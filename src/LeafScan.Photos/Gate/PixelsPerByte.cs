namespace LeafScan.Photos.Gate;

/// <summary>
/// How many pixels a byte can hold at most. A header that tells of more lies, or most of the file is missing: decoding it would
/// cost the time and memory of a large photo for nothing.
/// </summary>
internal static class PixelsPerByte
{
    // Each block of 8 x 8 costs a sequential JPEG at least two bits (ITU-T T.81, F.1.2: a code for its mean, a code for its end), and with
    // colour at half size there are six blocks to 16 x 16 pixels: 170 pixels a byte. Photos have 3 to 30.
    private const double Jpeg = 200;

    // Deflate packs at most 1032 bytes into one (zlib's technical details: 258 bytes in two bits).
    private const double Deflate = 1032;

    /// <summary>Pixels a byte.</summary>
    /// <param name="format">Format of the file.</param>
    /// <param name="bitsPerPx">Bits of a pixel, as its header tells; 0 for unknown.</param>
    public static double Most(PhotoFormat format, int bitsPerPx) => format switch
    {
        PhotoFormat.Jpeg => Jpeg,
        PhotoFormat.Png => Deflate * 8 / Math.Max(1, bitsPerPx),
        _ => double.PositiveInfinity,
    };
}
