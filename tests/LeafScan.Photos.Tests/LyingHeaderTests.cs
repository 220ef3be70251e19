using System.Buffers.Binary;
using ImageMagick;
using LeafScan.Photos.Tests.Support;

namespace LeafScan.Photos.Tests;

/// <summary>Headers that tell of more than the file holds, and files whose parts do not fit together. Each was found by <c>leafscan-training fuzz</c>.</summary>
public sealed class LyingHeaderTests
{
    private static readonly PhotoLimits Limits = new();

    [Fact]
    public void A_small_jpeg_whose_header_tells_of_a_huge_picture_is_refused_before_it_is_decoded()
    {
        using TempFolder folder = new();
        using MagickImage image = new("plasma:green-white", 160, 120) { Quality = 85 };
        byte[] bytes = image.ToByteArray(MagickFormat.Jpeg);

        // Height and width stand five bytes behind the marker of the frame (ITU-T T.81, B.2.2).
        int frame = bytes.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xC0]);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame + 5), 9000);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame + 7), 12_000);
        File.WriteAllBytes(folder.File("lie.jpg"), bytes);
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("lie.jpg"), Limits);
        Assert.Contains("far too small for a picture of 12000 x 9000 pixels", outcome.Refusal!.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(MagickFormat.Jpeg)]
    [InlineData(MagickFormat.Pjpeg)]
    [InlineData(MagickFormat.Png24)]
    public void A_blank_sheet_that_packs_as_small_as_any_photo_is_not_taken_for_a_lie(MagickFormat format)
    {
        using TempFolder folder = new();
        using MagickImage image = new(new MagickColor(236, 238, 240), 2000, 1500) { Quality = 92 };
        image.AddNoise(NoiseType.Gaussian, 0.05);
        image.Write(folder.File("blank"), format);
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("blank"), Limits);
        Assert.NotNull(outcome.Photo);
    }

    [Fact]
    public void Torn_metadata_that_the_library_stumbles_over_cost_the_capture_time_and_nothing_else()
    {
        using TempFolder folder = new();
        using MagickImage image = new("plasma:green-white", 160, 120);
        byte[] bytes = image.ToByteArray(MagickFormat.Jpeg);

        // A table that is longer than it says: the library then finds the next marker inside it.
        int table = bytes.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xC4]);
        for (int length = 0; length < 400; length += 7)
        {
            byte[] torn = [.. bytes];
            BinaryPrimitives.WriteUInt16BigEndian(torn.AsSpan(table + 2), (ushort)length);
            File.WriteAllBytes(folder.File("torn.jpg"), torn);
            PhotoGlance glance = PhotoGlance.At(folder.File("torn.jpg"), Limits);
            Assert.Null(glance.Taken);
        }
    }

    [NeedsToolFact("heif-enc")]
    public void A_heic_of_which_a_piece_is_missing_never_passes_for_whole()
    {
        using TempFolder folder = new();
        using (MagickImage image = new("plasma:green-white", 320, 240))
        {
            image.Write(folder.File("a.png"), MagickFormat.Png24);
        }

        OutsideTool.Run("heif-enc", "-q", "80", "-o", folder.File("a.heic"), folder.File("a.png"));
        byte[] whole = File.ReadAllBytes(folder.File("a.heic"));
        using (PhotoOutcome outcome = PhotoReader.Open(folder.File("a.heic"), Limits))
        {
            Assert.DoesNotContain(Flag.DamagedFile.Name, outcome.Photo!.Flags);
        }

        foreach (int missing in (int[])[1, 16, 40, 200, 1000])
        {
            AssertSaid([.. whole[..^missing]]);
            AssertSaid([.. whole[..^(missing + 300)], .. whole[^300..]]);
        }

        void AssertSaid(byte[] bytes)
        {
            File.WriteAllBytes(folder.File("cut.heic"), bytes);
            using PhotoOutcome outcome = PhotoReader.Open(folder.File("cut.heic"), Limits);
            Assert.True(outcome.Refusal is not null || outcome.Photo!.Flags.Contains(Flag.DamagedFile.Name));
        }
    }
}
