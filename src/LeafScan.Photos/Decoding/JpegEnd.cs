namespace LeafScan.Photos.Decoding;

/// <summary>
/// Whether a JPEG's main picture ends with its end marker. Ordinary decoders return a full-size picture from a third of a
/// file and say nothing.
/// </summary>
internal static class JpegEnd
{
    /// <summary>Walks the segments to the scan data and looks for the end marker behind it; false when there is none.</summary>
    public static bool IsWhole(ReadOnlySpan<byte> jpeg)
    {
        int at = 2;
        while (at + 4 <= jpeg.Length)
        {
            if (jpeg[at] != 0xFF)
            {
                return false;
            }

            byte marker = jpeg[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }

            if (marker == 0xD9)
            {
                return true;
            }

            int length = (jpeg[at + 2] << 8) | jpeg[at + 3];
            at += 2 + length;
            if (marker == 0xDA)
            {
                at = SkipScan(jpeg, at);
            }
        }

        return at + 2 <= jpeg.Length && jpeg[at] == 0xFF && jpeg[at + 1] == 0xD9;
    }

    // Scan data runs on until a marker that is neither a stuffed zero nor a restart.
    private static int SkipScan(ReadOnlySpan<byte> jpeg, int from)
    {
        int at = from;
        while (at + 1 < jpeg.Length)
        {
            int next = jpeg[at..].IndexOf((byte)0xFF);
            if (next < 0 || at + next + 1 >= jpeg.Length)
            {
                return jpeg.Length;
            }

            at += next;
            byte marker = jpeg[at + 1];
            if (marker is 0x00 or (>= 0xD0 and <= 0xD7))
            {
                at += 2;
            }
            else if (marker == 0xFF)
            {
                at++;
            }
            else
            {
                return at;
            }
        }

        return jpeg.Length;
    }
}
