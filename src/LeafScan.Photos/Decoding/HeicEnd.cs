using System.Buffers.Binary;

namespace LeafScan.Photos.Decoding;

/// <summary>
/// Whether the boxes of a HEIC file fill it: the decoder makes a picture from a file from which a piece was taken or whose
/// last bytes are missing, and says nothing (ISO/IEC 14496-12, 4.2: a box gives its own size).
/// </summary>
internal static class HeicEnd
{
    /// <summary>Walks the outermost boxes; false when one runs past the end or something else than a box follows.</summary>
    public static bool IsWhole(ReadOnlySpan<byte> file)
    {
        long at = 0;
        while (at < file.Length)
        {
            ReadOnlySpan<byte> rest = file[(int)at..];

            // Some programs fill the end with zeros.
            if (!rest.ContainsAnyExcept((byte)0))
            {
                return true;
            }

            if (rest.Length < 8 || !IsName(rest[4..8]))
            {
                return false;
            }

            ulong size = BinaryPrimitives.ReadUInt32BigEndian(rest);
            if (size == 0)
            {
                return true;
            }

            if (size == 1)
            {
                size = rest.Length < 16 ? ulong.MaxValue : BinaryPrimitives.ReadUInt64BigEndian(rest[8..]);
            }

            if (size < 8 || size > (ulong)rest.Length)
            {
                return false;
            }

            at += (long)size;
        }

        return true;
    }

    // Four letters that can be printed; makers have names of their own.
    private static bool IsName(ReadOnlySpan<byte> name) => !name.ContainsAnyExceptInRange((byte)0x20, (byte)0x7E);
}
