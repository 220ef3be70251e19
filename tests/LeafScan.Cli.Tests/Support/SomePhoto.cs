using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using ImageMagick;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Tags;
using LeafScan.Photos.Pictures;
using LeafScan.Web.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Cli.Tests.Support;

/// <summary>Small photos of every kind, good and bad.</summary>
internal static class SomePhoto
{
    /// <summary>A green leaf with pale specks and a brown spot on white, as JPEG.</summary>
    public static string Leaf(string path, int seed = 1, int width = 480, int height = 320)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using Mat picture = LeafPixels(seed, width, height);
        PictureWriter.WriteJpeg(picture, path, 92);
        // Yesterday's file: one written a moment ago counts as still being copied.
        File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddHours(-1));
        return path;
    }

    public static Mat LeafPixels(int seed, int width = 480, int height = 320)
    {
        Random random = new(seed);
        Mat picture = new(height, width, MatType.CV_8UC3, new Scalar(236, 238, 240));
        Cv2.Ellipse(picture, new Point(width / 2, height / 2), new Size(width * 0.38, height * 0.32), 0, 0, 360, new Scalar(60, 130, 70), -1, LineTypes.AntiAlias);
        for (int i = 0; i < 60; i++)
        {
            Point at = new((width / 2) + random.Next(-width / 4, width / 4), (height / 2) + random.Next(-height / 6, height / 6));
            Cv2.Circle(picture, at, 3, new Scalar(120, 190, 185), -1, LineTypes.AntiAlias);
        }

        Cv2.Circle(picture, new Point(width / 2, height / 2), 14, new Scalar(40, 65, 105), -1, LineTypes.AntiAlias);
        using Mat noise = new(picture.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG((ulong)seed);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(2));
        Cv2.Add(picture, noise, picture, null, (int)MatType.CV_8U);
        return picture;
    }

    /// <summary>A printed plant tag on soil, as JPEG; blurred beyond reading when asked.</summary>
    public static string Tag(string path, string code, bool blurred = false)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using Mat picture = new(360, 480, MatType.CV_8UC3, new Scalar(38, 55, 82));
        using Mat noise = new(picture.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG(5);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(22));
        Cv2.GaussianBlur(noise, noise, default, 1.2);
        Cv2.Add(picture, noise, picture, null, (int)MatType.CV_8U);
        PaperPage page = TagPages.Of([new PlantTag(code)], new TagLayout(PaperSize.A4))[0];
        const double PxPerMm = 6;
        Rect At(SheetArea a) => new((int)Math.Round(50 + ((a.LeftMm - TagLayout.EdgeMm) * PxPerMm)), (int)Math.Round(80 + ((a.TopMm - TagLayout.EdgeMm) * PxPerMm)), (int)Math.Round(a.WidthMm * PxPerMm), (int)Math.Round(a.HeightMm * PxPerMm));
        Cv2.Rectangle(picture, new Rect(50, 80, 380, 192), Scalar.All(232), -1);
        foreach (SheetArea square in page.Shapes.OfType<FilledBoxes>().Single().Areas)
        {
            Cv2.Rectangle(picture, At(square), Scalar.All(40), -1);
        }

        Cv2.PutText(picture, code, new Point(220, 150), HersheyFonts.HersheySimplex, 1.2, Scalar.All(40), 3);
        Cv2.GaussianBlur(picture, picture, default, blurred ? 7 : 0.8);
        PictureWriter.WriteJpeg(picture, path, 92);
        return Old(path);
    }

    /// <summary>A round bush of small leaves before a pale sky and a path, as JPEG.</summary>
    public static string Bush(string path)
    {
        const int Side = 900;
        Random random = new(11);
        using Mat picture = new(Side, Side, MatType.CV_8UC3, new Scalar(232, 222, 214));
        Cv2.Rectangle(picture, new Rect(0, 720, Side, 180), new Scalar(150, 160, 168), -1);
        for (int i = 0; i < 9000; i++)
        {
            double turn = random.NextDouble() * Math.Tau;
            double far = 270 * Math.Sqrt(random.NextDouble());
            Point at = new(450 + (int)(far * Math.Cos(turn)), 470 + (int)(far * Math.Sin(turn)));
            int light = random.Next(-25, 26);
            Cv2.Ellipse(picture, at, new Size(9, 5), random.Next(180), 0, 360, new Scalar(50 + light, 115 + light, 60 + light), -1, LineTypes.AntiAlias);
        }

        PictureWriter.WriteJpeg(picture, path, 92);
        return Old(path);
    }

    /// <summary>A bush of tufts before a rough wall, its left half brown as far as asked; the same bush each time, from a step aside where asked.</summary>
    public static string BushBeforeWall(string path, double brown, int aside = 0)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, DrawnPlant.Bush(brown, aside));
        return Old(path);
    }

    /// <summary>Writes a capture time into a photo, as a camera does (EXIF 2.32, DateTimeOriginal).</summary>
    public static string TakenAt(string path, DateTime local)
    {
        using MagickImage image = new(path);
        ExifProfile exif = new();
        exif.SetValue(ExifTag.DateTimeOriginal, local.ToString("yyyy:MM:dd HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture));
        image.SetProfile(exif);
        image.Write(path);
        return Old(path);
    }

    /// <summary>A sheet with nothing on it.</summary>
    public static string Empty(string path)
    {
        using Mat picture = new(320, 480, MatType.CV_8UC3, new Scalar(236, 238, 240));
        PictureWriter.WriteJpeg(picture, path);
        return Old(path);
    }

    /// <summary>The first third of a photo, as a broken copy leaves it.</summary>
    public static string CutAtAThird(string path)
    {
        byte[] whole = File.ReadAllBytes(Leaf(path));
        File.WriteAllBytes(path, whole[..(whole.Length / 3)]);
        return Old(path);
    }

    /// <summary>A photo with 400 bytes changed behind its header.</summary>
    public static string Flipped(string path)
    {
        byte[] bytes = File.ReadAllBytes(Leaf(path, seed: 3, width: 1200, height: 800));
        Random random = new(7);
        for (int i = 0; i < 400; i++)
        {
            bytes[random.Next(1000, bytes.Length - 2)] ^= (byte)random.Next(1, 256);
        }

        File.WriteAllBytes(path, bytes);
        return Old(path);
    }

    /// <summary>A small PNG of 20000 x 20000 pixels of one bit: 400 megapixels in some 50 kB (W3C PNG, chunks IHDR, IDAT, IEND).</summary>
    public static string Bomb(string path)
    {
        const int Side = 20_000;
        using FileStream file = File.Create(path);
        file.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        byte[] header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, Side);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), Side);
        header[8] = 1;
        Chunk(file, "IHDR", header);
        using MemoryStream packed = new();
        using (ZLibStream zlib = new(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] row = new byte[1 + (Side / 8)];
            for (int y = 0; y < Side; y++)
            {
                zlib.Write(row);
            }
        }

        Chunk(file, "IDAT", packed.ToArray());
        Chunk(file, "IEND", []);
        file.Dispose();
        return Old(path);
    }

    /// <summary>A JPEG in printing inks.</summary>
    public static string Cmyk(string path)
    {
        using MagickImage image = new(Leaf(path));
        image.ColorSpace = ColorSpace.CMYK;
        image.Write(path, MagickFormat.Jpeg);
        return Old(path);
    }

    /// <summary>A PNG with 16 bits a channel.</summary>
    public static string SixteenBit(string path)
    {
        using Mat eight = LeafPixels(4);
        using Mat sixteen = new();
        eight.ConvertTo(sixteen, MatType.CV_16UC3, 257);
        Cv2.ImWrite(path, sixteen);
        return Old(path);
    }

    /// <summary>A JPEG of one channel.</summary>
    public static string Grey(string path)
    {
        using Mat colour = LeafPixels(5);
        using Mat grey = new();
        Cv2.CvtColor(colour, grey, ColorConversionCodes.BGR2GRAY);
        Cv2.ImWrite(path, grey);
        return Old(path);
    }

    /// <summary>A text file under any name.</summary>
    public static string Text(string path, string words = "Not a photo.\n")
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, words);
        return Old(path);
    }

    private static string Old(string path)
    {
        File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddHours(-1));
        return path;
    }

    private static void Chunk(Stream stream, string name, byte[] data)
    {
        byte[] body = [.. Encoding.ASCII.GetBytes(name), .. data];
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        stream.Write(number);
        stream.Write(body);
        uint crc = uint.MaxValue;
        foreach (byte value in body)
        {
            crc ^= value;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        BinaryPrimitives.WriteUInt32BigEndian(number, ~crc);
        stream.Write(number);
    }
}
