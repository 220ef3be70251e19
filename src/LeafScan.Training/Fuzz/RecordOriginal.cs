using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Training.Stores;

namespace LeafScan.Training.Fuzz;

/// <summary>A small sound record in a folder, as a file of its own, as an archive and as a backup.</summary>
internal sealed class RecordOriginal
{
    public const string Place = "Hill nursery";

    public RecordOriginal(string folder)
    {
        Folder = Directory.CreateDirectory(Path.Combine(folder, "sound")).FullName;
        StoreMaker.Make(Folder, new StoreSize { Plants = StoreMaker.PlantsOfBlock, Walks = 2, Leaves = 1, OutlinePoints = 5, Specks = 3 });
        string archive = Path.Combine(folder, "sound.zip"), backup = Path.Combine(folder, "sound.db");
        using (RecordStore store = RecordStore.Open(Folder, TimeProvider.System))
        {
            AddFoliage(store);
            Plant plant = store.Plants()[3];
            store.SetThreshold(new OwnThreshold("mites-per-tap", 5, plant.Species, null, "here", "own records"), "fuzz");
            store.SetNoteTextOfPlant(plant.Id, NoteBlock.Greeting, null, "Good day", "fuzz");
            store.EditPlant(plant.Id, old => old with { Facts = old.Facts with { DateIn = new DateOnly(2026, 3, 2), DamageAtDelivery = 0.02, Season = MiteSeason.Warm } }, "fuzz");
            store.EditCare(store.CareOfPlant(plant.Id)[0].Id, old => old with { Note = "in the evening" }, "fuzz");
            store.EditTap(store.TapsOfPlant(plant.Id)[0].Id, old => old with { Predators = 1 }, "fuzz");
            store.NoteLeaf(store.Photos()[1].Id, 0, LeafGrowth.Old, "2", "fuzz");
            store.NotePhotoLeaf(store.Photos()[0].Id, LeafGrowth.New, "1", "fuzz");
            new Settings { PrintedBarMm = 99.5, Units = "mm", Who = "A. Grower", Note = new NoteSettings { By = "Hill nursery", Words = new Dictionary<string, string> { ["seen"] = "Seen" } } }.Save(Folder);
            Facts = store.Describe();
            store.ExportTo(archive, ToolVersion.Current);
            store.BackUp(backup);
        }

        Record = File.ReadAllBytes(Path.Combine(Folder, RecordStore.FileName));
        Archive = File.ReadAllBytes(archive);
        Backup = File.ReadAllBytes(backup);
        SettingsFile = File.ReadAllText(Path.Combine(Folder, Settings.FileName));
    }

    // The large record has leaves only; twigs and whole plants have rows of their own.
    private static void AddFoliage(RecordStore store)
    {
        LeafReading twig = new()
        {
            Outline = [new PointPx(10, 10), new PointPx(90, 10), new PointPx(90, 90)],
            AreaPx = 3200,
            AreaMm2 = 32,
            Shares = new LeafShares(0.9, 0.1, 0, 0, 0, 0),
            Damage = 0.1,
            DamageLow = 0.05,
            DamageHigh = 0.2,
            SpeckCount = 4,
            SpeckDensityPerCm2 = 12.5,
            SpeckDiameterMedianPx = 3,
            SpeckCentres = [new SpeckMark(20, 20, 3)],
            Causes = [],
            Flags = [],
            Greenness = 0.4,
            NewGrowth = 0.1,
            NeedleLengthMm = 20,
            SpecksPerCmOfNeedle = 2,
        };
        CrownReading crown = new()
        {
            Thinning = 0.1,
            ThinningLow = 0.05,
            ThinningHigh = 0.2,
            WorstSide = "left",
            WorstHeight = "none",
            FallColour = 0,
            Sectors = [new CrownSector("left", "high", 0.1, 0.2, 0.4)],
        };
        LeafReading plant = twig with { AreaMm2 = null, SpeckCount = 0, SpeckDensityPerCm2 = null, SpeckCentres = [], NeedleLengthMm = null, SpecksPerCmOfNeedle = null, Crown = crown };
        Walk walk = store.Walks()[0];
        foreach ((LeafReading reading, string kind) in new[] { (twig, "twig"), (plant, "plant") })
        {
            // The leaves' fingerprints count up from nought: these are none of them.
            string sha = new(kind == "twig" ? 'e' : 'f', 64);
            PhotoRecorded recorded = store.RecordPhoto(new NewPhoto
            {
                WalkId = walk.Id,
                Facts = new PhotoFacts { FileName = kind + ".jpg", Path = $"/nowhere/{kind}.jpg", Sha256 = sha, ByteLength = 9, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
                Reading = new PhotoReading { File = kind + ".jpg", Sha256 = sha, Width = 100, Height = 100, Kind = kind, PixelsPerMm = kind == "twig" ? 10 : null, Flags = [], Leaves = [reading] },
                Origin = new ReadingOrigin(ToolVersion.Current, "0123456789abcdef"),
                Plant = PlantGuess.ByHand("S-1"),
            });
            if (!recorded.Added)
            {
                throw new InvalidOperationException($"The {kind} of the sound record has the fingerprint of another photo.");
            }
        }
    }

    /// <summary>Its data folder.</summary>
    public string Folder { get; }

    /// <summary>What it holds.</summary>
    public StoreFacts Facts { get; }

    /// <summary>The file of the record.</summary>
    public byte[] Record { get; }

    /// <summary>What export wrote.</summary>
    public byte[] Archive { get; }

    /// <summary>What backup wrote.</summary>
    public byte[] Backup { get; }

    /// <summary>The settings.</summary>
    public string SettingsFile { get; }

    /// <summary>Puts a sound record into an empty folder.</summary>
    public void CopyTo(string folder) => File.WriteAllBytes(Path.Combine(Directory.CreateDirectory(folder).FullName, RecordStore.FileName), Record);

    /// <summary>Whether a folder holds it, whole and sound; else what is wrong.</summary>
    public string? FaultIn(string folder)
    {
        using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
        StoreFacts facts = store.Describe();
        return (facts.Photos, facts.Plants, facts.Leaves) != (Facts.Photos, Facts.Plants, Facts.Leaves) ? "the record of before is not what it was"
            : store.CheckIntegrity() is [{ } first, ..] ? $"the record of before is damaged: {first}" : null;
    }
}
