using System.Diagnostics;
using ImageMagick;

namespace LeafScan.Photos.Tests;

/// <summary>
/// Photo files with random damage and lying headers: opening one ends in a photo or in a refusal, never in an exception, and
/// soon. A JPEG that was cut off is never opened without the flag damagedFile. Long form: LEAFSCAN_FUZZ=10000.
/// </summary>
public sealed class MutatedFileTests : IDisposable
{
    private static readonly int Count = int.TryParse(Environment.GetEnvironmentVariable("LEAFSCAN_FUZZ"), out int count) ? count : 150;

    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-mutated-").FullName;

    [Fact]
    public void Every_mutated_file_ends_in_a_photo_or_a_refusal_within_five_seconds()
    {
        byte[][] whole = [Picture(MagickFormat.Jpeg), Picture(MagickFormat.Pjpeg), Picture(MagickFormat.Png)];
        Random random = new(20261125);
        string path = Path.Combine(_folder, "mutated");
        for (int i = 0; i < Count; i++)
        {
            byte[] bytes = Mutated(whole[i % whole.Length], random, out bool cutJpeg);
            File.WriteAllBytes(path, bytes);
            long start = Stopwatch.GetTimestamp();
            using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
            double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
            Assert.True(seconds < 5, $"file {i} took {seconds:F1} s");
            Assert.True(outcome.Photo is null != outcome.Refusal is null, $"file {i} gave both or neither");
            if (cutJpeg && outcome.Photo is { } photo)
            {
                Assert.Contains(Flag.DamagedFile.Name, photo.Flags);
            }
        }
    }

    // Cut off, bytes changed anywhere, a run of bytes changed, a size in the header that lies, or bytes taken out.
    private static byte[] Mutated(byte[] whole, Random random, out bool cutJpeg)
    {
        byte[] bytes = [.. whole];
        cutJpeg = false;
        switch (random.Next(5))
        {
            case 0:
                cutJpeg = bytes[0] == 0xFF;
                return bytes[..random.Next(1, bytes.Length - 4)];
            case 1:
                for (int k = random.Next(1, 40); k > 0; k--)
                {
                    bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                }

                return bytes;
            case 2:
                random.NextBytes(bytes.AsSpan(random.Next(bytes.Length / 2), random.Next(1, bytes.Length / 2)));
                return bytes;
            case 3:
                Lie(bytes, random);
                return bytes;
            default:
                int from = random.Next(bytes.Length / 2);
                return [.. bytes[..from], .. bytes[(from + random.Next(1, bytes.Length / 4))..]];
        }
    }

    // Height and width: in a PNG's IHDR at byte 16 (W3C PNG), in a JPEG five bytes behind the marker of the frame (ITU-T T.81).
    private static void Lie(byte[] bytes, Random random)
    {
        int at = bytes[0] == 0xFF ? Frame(bytes) + 5 : 16;
        random.NextBytes(bytes.AsSpan(at, bytes[0] == 0xFF ? 4 : 8));
    }

    private static int Frame(byte[] bytes)
    {
        for (int i = 2; i + 9 < bytes.Length; i++)
        {
            if (bytes[i] == 0xFF && bytes[i + 1] is 0xC0 or 0xC2)
            {
                return i;
            }
        }

        return 2;
    }

    private static byte[] Picture(MagickFormat format)
    {
        using MagickImage image = new("plasma:green-white", 160, 120) { Quality = 85 };
        return image.ToByteArray(format);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
