namespace LeafScan.Photos.Gate;

/// <summary>Tells what a file is by its first bytes; its name plays no part.</summary>
internal static class FirstBytes
{
    /// <summary>The format when it is one that is read; null otherwise.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="other">What it is instead, in words.</param>
    public static PhotoFormat? Tell(ReadOnlySpan<byte> bytes, out string other)
    {
        other = "no picture";
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]))
        {
            return PhotoFormat.Jpeg;
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]))
        {
            return PhotoFormat.Png;
        }

        if (bytes.Length > 12 && bytes[4..8].SequenceEqual("ftyp"u8))
        {
            return Brand(bytes[8..12], out other);
        }

        other = Other(bytes);
        return null;
    }

    private static PhotoFormat? Brand(ReadOnlySpan<byte> brand, out string other)
    {
        other = "a video";
        if (brand.SequenceEqual("heic"u8) || brand.SequenceEqual("heix"u8) || brand.SequenceEqual("mif1"u8)
            || brand.SequenceEqual("heim"u8) || brand.SequenceEqual("heis"u8))
        {
            return PhotoFormat.Heic;
        }

        if (brand.SequenceEqual("avif"u8) || brand.SequenceEqual("avis"u8))
        {
            other = "an AVIF picture";
        }

        return null;
    }

    private static string Other(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith("GIF8"u8))
        {
            return "a GIF picture";
        }

        if (bytes.Length > 12 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8))
        {
            return "a WebP picture";
        }

        if (bytes.StartsWith("II*\0"u8) || bytes.StartsWith("MM\0*"u8))
        {
            return "a TIFF or camera raw file";
        }

        if (bytes.StartsWith("BM"u8))
        {
            return "a BMP picture";
        }

        if (bytes.StartsWith("%PDF"u8))
        {
            return "a PDF";
        }

        return bytes.IndexOf((byte)0) < 0 ? "a text file" : "no picture";
    }
}
