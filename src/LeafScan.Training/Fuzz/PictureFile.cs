using System.Buffers.Binary;

namespace LeafScan.Training.Fuzz;

/// <summary>Finds the parts of a picture file that damage can aim at.</summary>
internal static class PictureFile
{
    /// <summary>Segments of a JPEG before its scan: marker and where its length field stands (ITU-T T.81, annex B).</summary>
    public static List<(byte Marker, int At, int Length)> JpegSegments(ReadOnlySpan<byte> jpeg)
    {
        List<(byte, int, int)> found = [];
        for (int at = 2; at + 4 <= jpeg.Length && jpeg[at] == 0xFF;)
        {
            int length = BinaryPrimitives.ReadUInt16BigEndian(jpeg[(at + 2)..]);
            found.Add((jpeg[at + 1], at + 2, length));
            if (jpeg[at + 1] == 0xDA)
            {
                break;
            }

            at += 2 + length;
        }

        return found;
    }

    /// <summary>Chunks of a PNG: type, where its data begin, how many bytes (W3C PNG, 5.3).</summary>
    public static List<(string Type, int At, int Length)> PngChunks(ReadOnlySpan<byte> png)
    {
        List<(string, int, int)> found = [];
        for (int at = 8; at + 12 <= png.Length;)
        {
            int length = BinaryPrimitives.ReadInt32BigEndian(png[at..]);
            if (length < 0 || at + 12 + (long)length > png.Length)
            {
                break;
            }

            found.Add((System.Text.Encoding.ASCII.GetString(png.Slice(at + 4, 4)), at + 8, length));
            at += 12 + length;
        }

        return found;
    }

    /// <summary>Writes the checksum that a chunk should have (W3C PNG, annex D).</summary>
    public static void MendChecksum(Span<byte> png, int dataAt, int length)
    {
        uint crc = uint.MaxValue;
        foreach (byte value in png.Slice(dataAt - 4, length + 4))
        {
            crc ^= value;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(png[(dataAt + length)..], ~crc);
    }
}
