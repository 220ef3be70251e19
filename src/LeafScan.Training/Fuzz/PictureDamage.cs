using System.Buffers.Binary;
using LeafScan.Photos;
using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Fuzz;

/// <summary>Damage to picture files: what cards and cables do, and headers that lie.</summary>
internal static class PictureDamage
{
    // What ends a PNG, and a HEIC's last bytes: without them all pixels may still be there.
    private const int EndBytes = 16;

    /// <summary>Damages a sound picture.</summary>
    public static FuzzFile Of(byte[] whole, PhotoFormat? format, int original, Random random)
    {
        switch (random.Next(8))
        {
            case 0 or 1:
                return new FuzzFile("cut off", ByteDamage.Cut(whole, random, format == PhotoFormat.Jpeg ? 3 : EndBytes), original) { IsPlain = format is not null };
            case 2:
                return new FuzzFile("header lies", Lie(whole, format, random), original);
            case 3:
                return InPicture(whole, format, original, random);
            case 4:
                return new FuzzFile("metadata torn", Tear(whole, format, random), original);
            case 5:
                byte[] other = [.. whole];
                random.Pick(Beginnings).CopyTo(other, 0);
                return new FuzzFile("another's first bytes", other, original);
            default:
                (string damage, byte[] bytes) = ByteDamage.Any(whole, random);
                return new FuzzFile(damage, bytes, original);
        }
    }

    private static readonly byte[][] Beginnings =
    [
        [0xFF, 0xD8, 0xFF, 0xE0], [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A], [0, 0, 0, 0x18, (byte)'f', (byte)'t', (byte)'y', (byte)'p', (byte)'h', (byte)'e', (byte)'i', (byte)'c'],
        "II*\0"u8.ToArray(), "GIF89a"u8.ToArray(), [.. "RIFF\x10\0\0\0WEBP"u8],
    ];

    // Width and height as the header tells them; now and then something else of it.
    private static byte[] Lie(byte[] whole, PhotoFormat? format, Random random)
    {
        byte[] bytes = [.. whole];
        (int width, int height) = (SomeSize(random), SomeSize(random));
        if (format == PhotoFormat.Jpeg && PictureFile.JpegSegments(bytes).FirstOrDefault(segment => segment.Marker is 0xC0 or 0xC1 or 0xC2) is { At: > 0 } frame)
        {
            BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame.At + 3), (ushort)height);
            BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame.At + 5), (ushort)width);
            if (random.Hit(0.25))
            {
                bytes[frame.At + 2 + random.Next(frame.Length - 2)] = (byte)random.Next(256);
            }
        }
        else if (format == PhotoFormat.Png)
        {
            BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(16), width);
            BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(20), height);
            if (random.Hit(0.25))
            {
                bytes[24 + random.Next(5)] = (byte)random.Next(20);
            }

            PictureFile.MendChecksum(bytes, 16, 13);
        }
        else if (bytes.AsSpan().IndexOf("ispe"u8) is > 0 and int box)
        {
            BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(box + 8), width);
            BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(box + 12), height);
        }
        else
        {
            bytes[random.Next(4, Math.Min(64, bytes.Length))] = (byte)random.Next(256);
        }

        return bytes;
    }

    private static int SomeSize(Random random) => random.Next(4) switch
    {
        0 => random.Next(0, 70),
        1 => random.Next(60, 1200),
        2 => random.Next(1000, 12_000),
        _ => random.Next(1, 65_536),
    };

    // In the picture data alone: a PNG has a checksum over them, mended here every second time.
    private static FuzzFile InPicture(byte[] whole, PhotoFormat? format, int original, Random random)
    {
        if (format == PhotoFormat.Png && PictureFile.PngChunks(whole).Where(chunk => chunk.Type == "IDAT").ToList() is { Count: > 0 } data)
        {
            byte[] bytes = [.. whole];
            (_, int at, int length) = random.Pick(data);
            bytes[at + random.Next(length)] ^= (byte)random.Next(1, 256);
            if (random.Hit(0.5))
            {
                PictureFile.MendChecksum(bytes, at, length);
                return new FuzzFile("picture data changed, checksum mended", bytes, original);
            }

            return new FuzzFile("picture data changed", bytes, original) { IsPlain = true };
        }

        int from = format == PhotoFormat.Jpeg && PictureFile.JpegSegments(whole) is { Count: > 0 } segments ? segments[^1].At + segments[^1].Length : whole.Length / 2;
        return new FuzzFile("picture data changed", ByteDamage.Change(whole, random, from), original);
    }

    private static byte[] Tear(byte[] whole, PhotoFormat? format, Random random)
    {
        byte[] bytes = [.. whole];
        (int at, int length) = format switch
        {
            PhotoFormat.Jpeg when PictureFile.JpegSegments(bytes).Where(segment => segment.Marker is >= 0xE0 and <= 0xEF).ToList() is { Count: > 0 } segments
                => random.Pick(segments.Select(segment => (segment.At, segment.Length)).ToList()),
            PhotoFormat.Png when PictureFile.PngChunks(bytes).Where(chunk => chunk.Type is not ("IHDR" or "IDAT" or "IEND")).ToList() is { Count: > 0 } chunks
                => random.Pick(chunks.Select(chunk => (chunk.At, chunk.Length)).ToList()),
            _ => (0, bytes.Length / 3),
        };
        for (int i = random.Next(1, 12); i > 0 && length > 0; i--)
        {
            bytes[at + random.Next(length)] = (byte)random.Next(256);
        }

        return bytes;
    }
}
