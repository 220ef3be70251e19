using System.Globalization;
using System.IO.Compression;
using ImageMagick;
using LeafScan.Photos.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Photos.Tests;

public class PhotoReaderTests
{
    private static readonly PhotoLimits Limits = new();

    [Theory]
    [InlineData("red.jpg")]
    [InlineData("no ending")]
    [InlineData("it's \"quoted\" — Überwinterung 植物.png")]
    public void A_jpeg_is_a_jpeg_whatever_it_is_called(string name)
    {
        using TempFolder folder = new();
        File.WriteAllBytes(folder.File(name), Some.Corners().ToByteArray(MagickFormat.Jpeg));
        using PhotoOutcome outcome = PhotoReader.Open(folder.File(name), Limits);
        Assert.NotNull(outcome.Photo);
        Assert.Equal(PhotoFormat.Jpeg, outcome.Photo.Facts.Format);
        Assert.Equal(name, outcome.Photo.Facts.FileName);
        Assert.Equal((160, 100), (outcome.Photo.Facts.WidthPx, outcome.Photo.Facts.HeightPx));
        Assert.Null(outcome.Photo.Facts.Taken);
    }

    [Fact]
    public void The_fingerprint_is_the_files_sha256()
    {
        using TempFolder folder = new();
        byte[] bytes = Some.Corners().ToByteArray(MagickFormat.Png);
        File.WriteAllBytes(folder.File("a.png"), bytes);
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("a.png"), Limits);
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes)), outcome.Photo!.Facts.Sha256);
    }

    /// <summary>
    /// Source: the meaning of orientation 1..8 in the EXIF standard (CIPA DC-008), as listed in the libjpeg manual. The tag is
    /// written by exiftool, which has nothing to do with our decoder. Expected: colour of the four corners of the upright
    /// picture, read from the table of which stored side is shown on top.
    /// </summary>
    [NeedsToolTheory("exiftool")]
    [InlineData(1, "RGBW", 160, 100)]
    [InlineData(2, "GRWB", 160, 100)]
    [InlineData(3, "WBGR", 160, 100)]
    [InlineData(4, "BWRG", 160, 100)]
    [InlineData(5, "RBGW", 100, 160)]
    [InlineData(6, "BRWG", 100, 160)]
    [InlineData(7, "WGBR", 100, 160)]
    [InlineData(8, "GWRB", 100, 160)]
    public void Photos_are_turned_upright_once(int orientation, string corners, int width, int height)
    {
        using TempFolder folder = new();
        string file = folder.File("turned.jpg");
        File.WriteAllBytes(file, Some.Corners().ToByteArray(MagickFormat.Jpeg));
        OutsideTool.Run("exiftool", "-q", "-overwrite_original", "-n", $"-Orientation={orientation.ToString(CultureInfo.InvariantCulture)}", file);
        using PhotoOutcome outcome = PhotoReader.Open(file, Limits);
        Mat pixels = outcome.Photo!.Pixels;
        Assert.Equal((width, height), (pixels.Cols, pixels.Rows));
        string found = string.Concat(
            Letter(pixels, 20, 15), Letter(pixels, width - 20, 15), Letter(pixels, 20, height - 15), Letter(pixels, width - 20, height - 15));
        Assert.Equal(corners, found);
    }

    [NeedsToolFact("exiftool")]
    public void The_capture_time_keeps_its_offset_and_never_guesses_one()
    {
        using TempFolder folder = new();
        string file = folder.File("timed.jpg");
        File.WriteAllBytes(file, Some.Corners().ToByteArray(MagickFormat.Jpeg));
        OutsideTool.Run("exiftool", "-q", "-overwrite_original", "-DateTimeOriginal=2026:07:02 09:14:00", "-GPSLatitude=40.1", "-GPSLongitude=-75.2", file);
        using (PhotoOutcome outcome = PhotoReader.Open(file, Limits))
        {
            Assert.Equal("2026-07-02T09:14:00", outcome.Photo!.Facts.Taken.ToString());
        }

        OutsideTool.Run("exiftool", "-q", "-overwrite_original", "-OffsetTimeOriginal=-04:00", file);
        using (PhotoOutcome outcome = PhotoReader.Open(file, Limits))
        {
            Assert.Equal("2026-07-02T09:14:00-04:00", outcome.Photo!.Facts.Taken.ToString());
        }
    }

    [NeedsToolFact("heif-enc")]
    public void A_heic_is_read_and_not_turned_twice()
    {
        using TempFolder folder = new();
        File.WriteAllBytes(folder.File("a.jpg"), Some.Corners().ToByteArray(MagickFormat.Jpeg));
        OutsideTool.Run("heif-enc", "-q", "90", "-o", folder.File("a.heic"), folder.File("a.jpg"));
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("a.heic"), Limits);
        Assert.NotNull(outcome.Photo);
        Assert.Equal(PhotoFormat.Heic, outcome.Photo.Facts.Format);
        Mat pixels = outcome.Photo.Pixels;
        Assert.Equal("RGBW", string.Concat(Letter(pixels, 20, 15), Letter(pixels, 140, 15), Letter(pixels, 20, 85), Letter(pixels, 140, 85)));

        byte[] heic = File.ReadAllBytes(folder.File("a.heic"));
        File.WriteAllBytes(folder.File("cut.heic"), heic[..(heic.Length * 2 / 3)]);
        using PhotoOutcome cut = PhotoReader.Open(folder.File("cut.heic"), Limits);
        Assert.True(cut.Refusal is not null || cut.Photo!.Flags.Contains("damagedFile"));
    }

    [Fact]
    public void A_jpeg_cut_at_a_third_is_flagged()
        => Assert.Contains("damagedFile", FlagsOf(jpeg => jpeg[..(jpeg.Length / 3)]));

    [Fact]
    public void A_jpeg_that_lacks_its_last_bytes_is_flagged()
        => Assert.Contains("damagedFile", FlagsOf(jpeg => jpeg[..^20]));

    [Fact]
    public void A_whole_jpeg_with_a_film_behind_it_is_not_flagged()
        => Assert.DoesNotContain("damagedFile", FlagsOf(jpeg => [.. jpeg, .. new byte[5000]]));

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_jpeg_with_400_changed_bytes_is_flagged(int seed)
        => Assert.Contains("damagedFile", FlagsOf(jpeg =>
        {
            Random random = new(seed);
            for (int i = 0; i < 400; i++)
            {
                jpeg[random.Next(700, jpeg.Length)] ^= (byte)random.Next(1, 256);
            }

            return jpeg;
        }));

    [Fact]
    public void A_png_cut_in_half_is_refused_or_flagged()
    {
        using TempFolder folder = new();
        byte[] png = Some.Busy().ToByteArray(MagickFormat.Png);
        File.WriteAllBytes(folder.File("a.png"), png[..(png.Length / 2)]);
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("a.png"), Limits);
        Assert.True(outcome.Refusal is not null || outcome.Photo!.Flags.Contains("damagedFile"));
    }

    [Fact]
    public void A_png_of_400_megapixels_is_refused_without_decoding_it()
    {
        using TempFolder folder = new();
        File.WriteAllBytes(folder.File("bomb.png"), Bomb(20_000, 20_000));
        Assert.True(new FileInfo(folder.File("bomb.png")).Length < 1_000_000);
        long before = GC.GetTotalAllocatedBytes();
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("bomb.png"), Limits);
        Assert.Contains("400 megapixels", outcome.Refusal!.Reason, StringComparison.Ordinal);
        Assert.InRange(GC.GetTotalAllocatedBytes() - before, 0, 20_000_000);
    }

    [Fact]
    public void A_header_that_claims_65000_pixels_a_side_is_refused()
    {
        using TempFolder folder = new();
        byte[] jpeg = Some.Busy().ToByteArray(MagickFormat.Jpeg);
        int frame = Array.FindIndex(jpeg, 0, b => b == 0xC0);
        while (jpeg[frame - 1] != 0xFF)
        {
            frame = Array.FindIndex(jpeg, frame + 1, b => b == 0xC0);
        }

        (jpeg[frame + 4], jpeg[frame + 5], jpeg[frame + 6], jpeg[frame + 7]) = (0xFD, 0xE8, 0xFD, 0xE8);
        File.WriteAllBytes(folder.File("liar.jpg"), jpeg);
        using PhotoOutcome outcome = PhotoReader.Open(folder.File("liar.jpg"), Limits);
        Assert.Contains("megapixels", outcome.Refusal!.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Files_that_are_no_photos_are_refused_in_words()
    {
        using TempFolder folder = new();
        File.WriteAllText(folder.File("note.jpg"), "dear gardener");
        File.WriteAllBytes(folder.File("empty.jpg"), []);
        File.WriteAllBytes(folder.File("moving.gif"), "GIF89a0000000000"u8.ToArray());
        Assert.Contains("text file", Refusal(folder.File("note.jpg")).Reason, StringComparison.Ordinal);
        Assert.Contains("empty", Refusal(folder.File("empty.jpg")).Reason, StringComparison.Ordinal);
        Assert.Contains("GIF", Refusal(folder.File("moving.gif")).Reason, StringComparison.Ordinal);
        Assert.Contains("does not exist", Refusal(folder.File("gone.jpg")).Reason, StringComparison.Ordinal);
        Assert.Contains("folder", Refusal(folder.Path).Reason, StringComparison.Ordinal);
        Assert.Contains("MB", Refusal(folder.File("note.jpg"), new PhotoLimits { LargestFileBytes = 5 }).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cmyk_jpeg_comes_out_in_its_own_colours()
    {
        using MagickImage image = Some.Corners();
        image.ColorSpace = ColorSpace.CMYK;
        Mat pixels = Decoded(image.ToByteArray(MagickFormat.Jpeg), out Photo photo);
        using (photo)
        {
            Assert.Equal("RGBW", string.Concat(Letter(pixels, 20, 15), Letter(pixels, 140, 15), Letter(pixels, 20, 85), Letter(pixels, 140, 85)));
        }
    }

    [Fact]
    public void A_16_bit_png_becomes_8_bit()
    {
        using MagickImage image = Some.Corners();
        image.Depth = 16;
        image.Settings.SetDefine(MagickFormat.Png, "bit-depth", "16");
        Mat pixels = Decoded(image.ToByteArray(MagickFormat.Png), out Photo photo);
        using (photo)
        {
            Assert.Equal(MatType.CV_8UC3, pixels.Type());
            Assert.Equal("RGBW", string.Concat(Letter(pixels, 20, 15), Letter(pixels, 140, 15), Letter(pixels, 20, 85), Letter(pixels, 140, 85)));
        }
    }

    [Fact]
    public void A_grey_photo_has_three_equal_channels_and_says_so()
    {
        using MagickImage image = Some.Busy();
        image.ColorSpace = ColorSpace.Gray;
        Mat pixels = Decoded(image.ToByteArray(MagickFormat.Jpeg), out Photo photo);
        using (photo)
        {
            Assert.Contains("noColour", photo.Flags);
            Vec3b at = pixels.At<Vec3b>(10, 10);
            Assert.Equal(at.Item0, at.Item1);
            Assert.Equal(at.Item1, at.Item2);
        }
    }

    [Fact]
    public void A_see_through_png_lies_on_white()
    {
        using MagickImage image = new(MagickColors.Transparent, 100, 100);
        Mat pixels = Decoded(image.ToByteArray(MagickFormat.Png), out Photo photo);
        using (photo)
        {
            Assert.Equal(new Vec3b(255, 255, 255), pixels.At<Vec3b>(50, 50));
        }
    }

    /// <summary>
    /// Source: Adobe RGB (1998) primaries and gamma 2.19921875 against IEC 61966-2-1; the pure Adobe green 0,255,0 lies outside
    /// sRGB, and Adobe 100,150,80 is sRGB 70,151,73 within rounding (computed from both matrices by hand).
    /// </summary>
    [Fact]
    public void An_embedded_profile_is_converted_to_srgb()
    {
        using MagickImage image = new(new MagickColor(100, 150, 80), 100, 100);
        image.SetProfile(ColorProfiles.AdobeRGB1998);
        Mat pixels = Decoded(image.ToByteArray(MagickFormat.Png), out Photo photo);
        using (photo)
        {
            Vec3b at = pixels.At<Vec3b>(50, 50);
            Assert.InRange(at.Item2, 66, 74);
            Assert.InRange(at.Item1, 149, 153);
            Assert.InRange(at.Item0, 70, 77);
        }
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(6, true)]
    public void Blur_is_seen(double sigma, bool blurred)
    {
        using MagickImage image = Some.Busy();
        if (sigma > 0)
        {
            image.GaussianBlur(0, sigma);
        }

        Decoded(image.ToByteArray(MagickFormat.Jpeg), out Photo photo);
        using (photo)
        {
            Assert.Equal(blurred, photo.Flags.Contains("blurred"));
        }
    }

    [Fact]
    public void Darkness_and_burnt_light_are_seen()
    {
        Decoded(new MagickImage(new MagickColor(8, 10, 8), 200, 200).ToByteArray(MagickFormat.Png), out Photo dark);
        Decoded(new MagickImage(MagickColors.White, 200, 200).ToByteArray(MagickFormat.Png), out Photo bright);
        using (dark)
        using (bright)
        {
            Assert.Contains("tooDark", dark.Flags);
            Assert.Contains("tooBright", bright.Flags);
        }
    }

    [Fact]
    public void A_photo_given_back_at_once_still_has_its_flags()
    {
        using TempFolder folder = new();
        using Mat dark = new(1500, 2000, MatType.CV_8UC3, Scalar.All(9));
        File.WriteAllBytes(folder.File("a.jpg"), dark.ToBytes(".jpg"));
        for (int round = 0; round < 5; round++)
        {
            // Flags are looked for while the photo is in use; giving its pixels back waits for that.
            PhotoOutcome outcome = PhotoReader.Open(folder.File("a.jpg"), Limits);
            outcome.Dispose();
            Assert.Contains(Flag.TooDark.Name, outcome.Photo!.Flags);
        }
    }

    private static PhotoRefusal Refusal(string path, PhotoLimits? limits = null)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, limits ?? Limits);
        Assert.NotNull(outcome.Refusal);
        Assert.NotEmpty(outcome.Refusal.Advice);
        return outcome.Refusal;
    }

    private static Mat Decoded(byte[] bytes, out Photo photo)
    {
        using TempFolder folder = new();
        File.WriteAllBytes(folder.File("a"), bytes);
        PhotoOutcome outcome = PhotoReader.Open(folder.File("a"), Limits);
        Assert.NotNull(outcome.Photo);
        photo = outcome.Photo;
        return photo.Pixels;
    }

    private static IReadOnlyList<string> FlagsOf(Func<byte[], byte[]> spoil)
    {
        Decoded(spoil(Some.Busy().ToByteArray(MagickFormat.Jpeg)), out Photo photo);
        using (photo)
        {
            return photo.Flags;
        }
    }

    private static string Letter(Mat pixels, int x, int y)
    {
        Vec3b p = pixels.At<Vec3b>(y, x);
        (bool blue, bool green, bool red) = (p.Item0 > 128, p.Item1 > 128, p.Item2 > 128);
        return (red, green, blue) switch
        {
            (true, false, false) => "R",
            (false, true, false) => "G",
            (false, false, true) => "B",
            (true, true, true) => "W",
            _ => "?",
        };
    }

    // A whole, valid PNG (ISO/IEC 15948) of one grey level.
    private static byte[] Bomb(int width, int height)
    {
        using MemoryStream png = new();
        png.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);
        byte[] header = new byte[13];
        System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(header, width);
        System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = (8, 0);
        Chunk(png, "IHDR", header);
        using MemoryStream data = new();
        using (ZLibStream deflate = new(data, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] row = new byte[width + 1];
            for (int y = 0; y < height; y++)
            {
                deflate.Write(row);
            }
        }

        Chunk(png, "IDAT", data.ToArray());
        Chunk(png, "IEND", []);
        return png.ToArray();
    }

    private static void Chunk(MemoryStream png, string name, byte[] data)
    {
        Span<byte> number = stackalloc byte[4];
        System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        png.Write(number);
        byte[] body = [.. System.Text.Encoding.ASCII.GetBytes(name), .. data];
        png.Write(body);
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(number, Crc(body));
        png.Write(number);
    }

    private static uint Crc(byte[] body)
    {
        uint crc = 0xFFFFFFFF;
        foreach (byte b in body)
        {
            crc ^= b;
            for (int i = 0; i < 8; i++)
            {
                crc = (crc >> 1) ^ (0xEDB88320 & (uint)-(int)(crc & 1));
            }
        }

        return ~crc;
    }
}
