using System.IO.Compression;
using CsCheck;

namespace LeafScan.Records.Tests;

/// <summary>The whole record out into a file and back, and back to a backup.</summary>
public sealed class ExchangeTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly ScratchFolder _other = new();

    private string Zip => Path.Combine(_folder.FolderPath, "out", "record.zip");

    public void Dispose()
    {
        _folder.Dispose();
        _other.Dispose();
    }

    [Fact]
    public void Out_and_into_an_empty_folder_it_is_the_same_record_to_the_last_bit()
    {
        using RecordStore store = Filled();
        RecordExchanged written = store.ExportTo(Zip, "0.1.0");
        using RecordStore copy = _other.Open();

        Assert.Equal(written, copy.ImportFrom(Zip));

        string second = Path.Combine(_other.FolderPath, "again.zip");
        Assert.Equal(written, copy.ExportTo(second, "0.1.0"));
        Assert.Equal(File.ReadAllBytes(Zip), File.ReadAllBytes(second));
        Assert.Empty(copy.CheckIntegrity());
        Assert.Equal(store.LeavesOfPlant(1).Select(leaf => (leaf.Damage, leaf.Tag, leaf.Age)), copy.LeavesOfPlant(1).Select(leaf => (leaf.Damage, leaf.Tag, leaf.Age)));
        Assert.Equal(store.PlantOverviews(), copy.PlantOverviews());
        Assert.Equal(store.Bin(), copy.Bin());

        // What was undone there can be undone here.
        Assert.Equal(store.UndoLastEdit()!.Words, copy.UndoLastEdit()!.Words);
    }

    [Fact]
    public void Any_text_comes_through()
    {
        using RecordStore store = Filled();
        int number = 0;
        Gen.String[1, 40].Where(text => NameText.Clean(text) is not null && !text.Any(char.IsSurrogate)).Sample(
            text => store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = number++, Note = text }), iter: 50, threads: 1);
        RecordExchanged written = store.ExportTo(Zip, "0.1.0");
        using RecordStore copy = _other.Open();

        Assert.Equal(written, copy.ImportFrom(Zip));
        Assert.Equal(store.TapsOfPlant(1), copy.TapsOfPlant(1));
    }

    [Fact]
    public void A_record_with_anything_in_it_takes_no_second_one()
    {
        using RecordStore store = Filled();
        store.ExportTo(Zip, "0.1.0");

        Assert.Contains("not empty", Assert.Throws<RecordException>(() => store.ImportFrom(Zip)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_changed_is_refused_and_nothing_of_it_is_kept()
    {
        using (RecordStore store = Filled())
        {
            store.ExportTo(Zip, "0.1.0");
        }

        using (ZipArchive zip = ZipFile.Open(Zip, ZipArchiveMode.Update))
        {
            ZipArchiveEntry entry = zip.GetEntry("place.jsonl")!;
            using var reader = new StreamReader(entry.Open());
            string changed = reader.ReadToEnd().Replace("Nursery", "Nursary", StringComparison.Ordinal);
            reader.Dispose();
            entry.Delete();
            using var writer = new StreamWriter(zip.CreateEntry("place.jsonl").Open());
            writer.Write(changed);
        }

        using RecordStore copy = _other.Open();
        Assert.Equal(RecordTrouble.WrongValue, Assert.Throws<RecordException>(() => copy.ImportFrom(Zip)).Trouble);
        Assert.Equal((0, 0), (copy.Describe().Places, copy.Describe().Photos));
    }

    [Fact]
    public void Files_that_are_something_else_are_refused_in_a_sentence()
    {
        string text = Path.Combine(_folder.FolderPath, "list.zip");
        File.WriteAllText(text, "This is a shopping list.");
        string empty = Path.Combine(_folder.FolderPath, "empty.zip");
        ZipFile.Open(empty, ZipArchiveMode.Create).Dispose();
        using RecordStore copy = _other.Open();

        foreach (string file in (string[])[text, empty, Path.Combine(_folder.FolderPath, "nowhere.zip")])
        {
            Assert.Equal(RecordTrouble.WrongValue, Assert.Throws<RecordException>(() => copy.ImportFrom(file)).Trouble);
        }
    }

    [Fact]
    public void Going_back_to_a_backup_keeps_what_was_there_before()
    {
        string backup = Path.Combine(_folder.FolderPath, "saved.db");
        using (RecordStore store = Filled())
        {
            store.BackUp(backup);
            store.RecordPhoto(Some.Photo(store.Walks()[0].Id, 9));
        }

        RecordRestored restored = RecordStore.Restore(_folder.FolderPath, backup, _folder.Clock);

        Assert.Equal(3, restored.Facts.Photos);
        Assert.StartsWith("before-restore-", Path.GetFileName(restored.BackupOfBefore!), StringComparison.Ordinal);
        using (RecordStore now = _folder.Open())
        {
            Assert.Null(now.FindPhoto(Some.Sha(9)));
            Assert.Equal("wal", now.Describe().JournalMode);
            Assert.Empty(now.CheckIntegrity());
        }

        Assert.Equal(4, RecordStore.Restore(_folder.FolderPath, restored.BackupOfBefore!, _folder.Clock).Facts.Photos);
    }

    [Fact]
    public void A_backup_that_is_damaged_or_foreign_is_refused_and_the_record_stays()
    {
        string backup = Path.Combine(_folder.FolderPath, "saved.db");
        using (RecordStore store = Filled())
        {
            store.BackUp(backup);
        }

        byte[] bytes = File.ReadAllBytes(backup);
        Array.Fill(bytes, (byte)0xA5, 8192, bytes.Length - 8192);
        File.WriteAllBytes(backup, bytes);
        string text = Path.Combine(_folder.FolderPath, "text.db");
        File.WriteAllText(text, new string('x', 5000));

        Assert.Equal(RecordTrouble.Damaged, Assert.Throws<RecordException>(() => RecordStore.Restore(_folder.FolderPath, backup, _folder.Clock)).Trouble);
        Assert.Equal(RecordTrouble.NotARecord, Assert.Throws<RecordException>(() => RecordStore.Restore(_folder.FolderPath, text, _folder.Clock)).Trouble);
        using RecordStore same = _folder.Open();
        Assert.Equal(3, same.Describe().Photos);
    }

    private RecordStore Filled()
    {
        RecordStore store = _folder.Open();
        Place place = store.FindOrAddPlace("Nursery “Süd”");
        Walk walk = store.FindOrAddWalk(place.Id, Some.Day);
        store.RecordPhoto(Some.Photo(walk.Id, 1, "B12", Some.Leaf(1.0 / 3)) with { LeafAge = LeafGrowth.New, LeafTag = "3" });
        store.RecordPhoto(Some.Photo(walk.Id, 2, "B12", Some.Leaf(), Some.Leaf(0.2)));
        store.RecordPhoto(Some.Photo(walk.Id, 3, plant: null));
        store.NoteLeaf(2, 1, LeafGrowth.Old, "7", "looked");
        store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = 0, HoursSinceWet = 0.1 });
        TapSheetOnRecord sheet = store.AddTapSheet(Some.Sha(8), Some.Sha(9), "0.1.0", """{"specks":[[1.5,2,3]]}""");
        store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByPhoto = 1, SheetId = sheet.Id });
        store.AddTapCorrection(sheet.Id, 1.5, 2, TapWord.Predator, "Ann", "said", _ => 0);
        store.AddWeather(place.Id, [new WeatherDay(Some.Day, -1.5, 28, "a.csv")]);
        store.PutInBin(BinKind.Care, store.AddCare(1, Some.Day, CareKind.Miticide, "x\ty", new CareDetails { Active = "oil" }).Id, "other plant");
        store.SetClient(place.Id, "Miller", "told");
        store.EditPlant(1, plant => plant with { Facts = new PlantFacts { Block = "South", DamageAtDelivery = 0.1, IsCheck = true } }, "first look");
        return store;
    }
}
