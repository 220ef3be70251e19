using System.Security.Cryptography;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Metadata.Profiles.Exif;
using SixLabors.ImageSharp.Processing;

namespace LeafScan.Web.Tests.Support;

/// <summary>Things to put into a record or to send.</summary>
internal static class Some
{
    private static readonly string Samples = Path.Combine(AppContext.BaseDirectory, "sample-images");

    public static string Sha(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>A sample leaf made small, with a position in its EXIF; each number gives other bytes.</summary>
    public static byte[] LeafPhoto(int number = 0)
    {
        string[] files = [.. Directory.EnumerateFiles(Path.Combine(Samples, "walk-2026-07-02"), "*.jpg", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        using Image image = Image.Load(files[number % files.Length]);
        image.Mutate(picture => picture.Resize(700, 0));
        image.Metadata.ExifProfile ??= new ExifProfile();
        image.Metadata.ExifProfile.SetValue(ExifTag.GPSLatitudeRef, "N");
        image.Metadata.ExifProfile.SetValue(ExifTag.GPSLatitude, [new Rational(51), new Rational(28), new Rational((uint)number)]);
        image.Metadata.ExifProfile.SetValue(ExifTag.ImageDescription, "SECRET-GARDEN-OF-MILLER");
        using MemoryStream stream = new();
        image.SaveAsJpeg(stream);
        return stream.ToArray();
    }

    public static LeafReading Leaf(double damage) => new()
    {
        Outline = [new(10, 10), new(90, 10), new(90, 90), new(10, 90)],
        AreaPx = 6400,
        Shares = new LeafShares(1 - damage, damage, 0, 0, 0, 0),
        Damage = damage,
        DamageLow = Math.Max(0, damage - 0.01),
        DamageHigh = damage + 0.01,
        SpeckCount = 3,
        SpeckDiameterMedianPx = 4,
        SpeckCentres = [new(20, 20, 4)],
        Causes = [new("miteStippling", 0.9, ["3 pale specks"])],
        Flags = [],
    };

    public static LeafReading WholePlant(double thinning, string side) => Leaf(0.1) with
    {
        SpeckCount = 0,
        SpeckCentres = [],
        SpeckDiameterMedianPx = 0,
        Crown = new CrownReading { Thinning = thinning, ThinningLow = thinning / 2, ThinningHigh = thinning * 2, WorstSide = side, WorstHeight = "none", FallColour = 0, Sectors = [] },
    };

    /// <summary>A measured photo whose file is nowhere.</summary>
    public static PhotoOnRecord Photo(RecordStore store, string place, DateOnly day, string plant, string file, params double[] damages)
        => Photo(store, place, day, plant, file, "leaf", [.. damages.Select(Leaf)]);

    /// <summary>The same of any kind.</summary>
    public static PhotoOnRecord Photo(RecordStore store, string place, DateOnly day, string plant, string file, string kind, IReadOnlyList<LeafReading> leaves)
    {
        string sha = Sha(System.Text.Encoding.UTF8.GetBytes($"{place}|{day}|{plant}|{file}"));
        return store.RecordPhoto(new NewPhoto
        {
            WalkId = store.FindOrAddWalk(store.FindOrAddPlace(place).Id, day).Id,
            Facts = new PhotoFacts { FileName = file, Path = $"/nowhere/{file}", Sha256 = sha, ByteLength = 9, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
            Reading = new PhotoReading { File = file, Sha256 = sha, Width = 100, Height = 100, Kind = kind, Flags = ["noScale"], Leaves = leaves },
            Origin = new ReadingOrigin("0.0.1", "0123456789abcdef"),
            Plant = PlantGuess.ByHand(plant),
        }).Photo;
    }

    /// <summary>Two plants over two months.</summary>
    public static void Season(RecordStore store)
    {
        Photo(store, "Hill nursery", new DateOnly(2026, 6, 10), "EU-1", "a.jpg", 0.05, 0.06, 0.07, 0.05, 0.06, 0.07);
        Photo(store, "Hill nursery", new DateOnly(2026, 7, 10), "EU-1", "b.jpg", 0.15, 0.16, 0.17, 0.15, 0.16, 0.17);
        Photo(store, "Hill nursery", new DateOnly(2026, 6, 10), "EU-2", "c.jpg", 0.01, 0.02);
        Plant plant = store.FindPlants("EU-1")[0];
        store.EditPlant(plant.Id, old => old with { Species = "Euonymus alatus", Facts = old.Facts with { Block = "South", Row = "2", Position = "10" } }, "test");
        store.AddCare(plant.Id, new DateOnly(2026, 6, 20), CareKind.Rinse, "undersides");
        store.AddTap(new NewTap { PlantId = plant.Id, Day = new DateOnly(2026, 6, 20), MitesByLens = 12, Strikes = 3 });
    }
}
