using System.Security.Cryptography;
using ImageMagick;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Cli.Tests.Support;

/// <summary>Photos on record that nobody has measured: quick, and with figures a test can foresee.</summary>
internal static class SomeRecord
{
    /// <summary>Puts a photo with one leaf on record.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plant">Plant code.</param>
    /// <param name="day">Day of the walk.</param>
    /// <param name="damage">Damage of its leaf, all of it stippled.</param>
    /// <param name="number">Makes photos of one day differ.</param>
    /// <param name="file">The photo's file; null for one that is nowhere.</param>
    public static void Photo(RecordStore store, string plant, DateOnly day, double damage, int number = 0, string? file = null)
        => Photo(store, plant, day, damage, number, file, "leaf", leaf => leaf);

    /// <summary>A whole plant, all of its damage yellowed.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plant">Plant code.</param>
    /// <param name="day">Day of the walk.</param>
    /// <param name="thinning">Share of its crown that is gap; null for a reading from before it was kept.</param>
    /// <param name="side">The side that stands out.</param>
    /// <param name="number">Makes photos of one day differ.</param>
    public static void WholePlant(RecordStore store, string plant, DateOnly day, double? thinning, string side = "left", int number = 0)
        => Photo(store, plant, day, 0.1, number, null, "plant", leaf => leaf with
        {
            Shares = new LeafShares(0.9, 0, 0.1, 0, 0, 0),
            SpeckCount = 0,
            SpeckDiameterMedianPx = 0,
            SpeckCentres = [],
            Crown = thinning is not { } gaps ? null : new CrownReading
            {
                Thinning = gaps,
                ThinningLow = gaps - 0.02,
                ThinningHigh = gaps + 0.02,
                WorstSide = side,
                WorstHeight = "low",
                FallColour = 0,
                Sectors = [new CrownSector("left", "low", 0.2, gaps, null)],
            },
        });

    /// <summary>A twig beside a scale, with its specks per cm of needle.</summary>
    public static void Twig(RecordStore store, string plant, DateOnly day, double? specksPerCm, int number = 0)
        => Photo(store, plant, day, 0.1, number, null, "twig", leaf => leaf with { NeedleLengthMm = specksPerCm is null ? null : 30 / specksPerCm, SpecksPerCmOfNeedle = specksPerCm });

    private static void Photo(RecordStore store, string plant, DateOnly day, double damage, int number, string? file, string kind, Func<LeafReading, LeafReading> change)
    {
        string sha = file is null
            ? Convert.ToHexStringLower(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes($"{plant} {day:yyyy-MM-dd} {number}")))
            : Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)));
        string path = file ?? $"/nowhere/{plant}-{number}.jpg";
        LeafReading leaf = new()
        {
            Outline = [new(10, 10), new(90, 10), new(90, 90), new(10, 90)],
            AreaPx = 6400,
            Shares = new LeafShares(1 - damage, damage, 0, 0, 0, 0),
            Damage = damage,
            DamageLow = damage * 0.9,
            DamageHigh = damage * 1.1,
            SpeckCount = 3,
            SpeckDiameterMedianPx = 4,
            SpeckCentres = [new(20, 20, 4)],
            Causes = [new("miteStippling", 0.9, ["3 pale specks"])],
            Flags = [],
        };
        store.RecordPhoto(new NewPhoto
        {
            WalkId = store.FindOrAddWalk(store.FindOrAddPlace("Hill nursery").Id, day).Id,
            Facts = new PhotoFacts { FileName = Path.GetFileName(path), Path = path, Sha256 = sha, ByteLength = 9, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
            Reading = new PhotoReading { File = Path.GetFileName(path), Sha256 = sha, Width = 100, Height = 100, Kind = kind, PixelsPerMm = kind == "twig" ? 10 : null, Flags = [], Leaves = [change(leaf)] },
            Origin = new ReadingOrigin("0.0.1", "0123456789abcdef"),
            Plant = PlantGuess.ByHand(plant),
        });
    }

    /// <summary>Writes a position, a time and a camera's name into a photo, as a phone does (EXIF 2.32, GPS tags).</summary>
    public static string WithPosition(string path)
    {
        using MagickImage image = new(path);
        ExifProfile exif = new();
        exif.SetValue(ExifTag.Make, "Some phone");
        exif.SetValue(ExifTag.DateTimeOriginal, "2026:07:02 09:14:00");
        exif.SetValue(ExifTag.GPSLatitudeRef, "N");
        exif.SetValue(ExifTag.GPSLatitude, [new Rational(52), new Rational(31), new Rational(12)]);
        exif.SetValue(ExifTag.GPSLongitudeRef, "E");
        exif.SetValue(ExifTag.GPSLongitude, [new Rational(13), new Rational(24), new Rational(36)]);
        image.SetProfile(exif);
        image.Write(path);
        File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddHours(-1));
        return path;
    }
}
