using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace LeafScan.Records.Tests;

/// <summary>Whole records with right checksums and values that cannot be true: refused in one sentence, and nothing of them is kept.</summary>
public sealed class SenselessArchiveTests : IDisposable
{
    private readonly ScratchFolder _folder = new();
    private readonly ScratchFolder _other = new();

    private string Zip => Path.Combine(_folder.FolderPath, "record.zip");

    public void Dispose()
    {
        _folder.Dispose();
        _other.Dispose();
    }

    [Theory]
    [InlineData("leaf", "share_sound", "-0.1", "whole record")]
    [InlineData("leaf", "damage", "1.5", "whole record")]
    [InlineData("leaf", "damage", "0.3", "damage that is not that of its shares")]
    [InlineData("leaf", "damage_low", "0.9", "damage outside its own interval")]
    [InlineData("leaf", "area_mm2", "0.25", "area in mm² that its scale does not give")]
    [InlineData("leaf", "area_px", "13300000", "larger than its photo")]
    [InlineData("leaf", "ordinal", "3", "not numbered among the leaves")]
    [InlineData("leaf", "speck_count", "99000000", "more specks than can be counted")]
    [InlineData("leaf", "flags", "\"{}\"", "flags that are no list of names")]
    [InlineData("leaf_shape", "outline", "\"[[1,2],[3,4]]\"", "an outline that is none")]
    [InlineData("leaf_shape", "outline", "\"[[0,0],[90000,0],[0,90000]]\"", "lies outside its photo")]
    [InlineData("leaf_shape", "speck_centres", "\"[[5,5,-1]]\"", "specks that are none")]
    [InlineData("leaf_shape", "causes", "\"[{}]\"", "causes that are none")]
    [InlineData("foliage", "thinning", "1.2", "whole record")]
    [InlineData("foliage", "thinning", "0.6", "gaps outside their own interval")]
    [InlineData("foliage", "worst_side", "\"behind\"", "whole record")]
    [InlineData("foliage", "worst_side", "null", "whole record")]
    [InlineData("foliage", "sectors", "\"[{}]\"", "sectors of a crown that are none")]
    [InlineData("foliage", "sectors", "\"[{\\\"side\\\":\\\"left\\\",\\\"height\\\":\\\"low\\\",\\\"discoloured\\\":7,\\\"thinning\\\":0,\\\"greenness\\\":null}]\"", "sectors of a crown that are none")]
    [InlineData("foliage", "needle_length_mm", "4", "needles without being a twig's")]
    [InlineData("foliage", "leaf_id", "1", "neither a twig nor a whole plant")]
    [InlineData("foliage", "leaf_id", "77", "whole record")]
    [InlineData("reading", "kind", "\"banana\"", "of no known kind")]
    [InlineData("reading", "is_current", "0", "has no reading that counts")]
    [InlineData("photo", "taken", "\"noon\"", "taken at a time that is none")]
    [InlineData("photo", "recorded_utc", "\"2026-06-31T00:00:00.000Z\"", "a time that is none")]
    [InlineData("photo", "plant_id", "77", "whole record")]
    [InlineData("walk", "walked_on", "\"2026-02-30\"", "a day that the calendar does not have")]
    [InlineData("walk", "walked_on", "\"2031-06-03\"", "far in the future")]
    [InlineData("tap", "tapped_on", "\"1066-10-14\"", "long ago")]
    [InlineData("tap", "mites_by_lens", "-3", "whole record")]
    [InlineData("tap", "sheet_width_mm", "279000", "a sheet of a size that no sheet has")]
    [InlineData("weather", "high_c", "82.4", "whole record")]
    [InlineData("care", "done_at", "\"29:00\"", "a time of day that no day has")]
    [InlineData("plant", "code_key", "\"other\"", "found by another one")]
    [InlineData("plant", "code", "\"\\u0007\"", "a name that cannot be kept")]
    [InlineData("edit", "row_id", "977", "points to a row that is not there")]
    [InlineData("edit", "field", "\"height\"", "changes what this program does not change")]
    [InlineData("edit", "change_id", "null", "belongs to no change")]
    public void A_value_that_makes_no_sense_is_refused_in_words_and_nothing_is_kept(string table, string column, string value, string says)
    {
        Fill();
        Put(table, column, value);
        using RecordStore copy = _other.Open();

        RecordException refused = Assert.Throws<RecordException>(() => copy.ImportFrom(Zip));

        Assert.Equal((RecordTrouble.WrongValue, "Nothing was changed."), (refused.Trouble, refused.Safe));
        Assert.Contains(says, refused.Happened, StringComparison.Ordinal);
        Assert.Equal((0, 0, 0), (copy.Describe().Places, copy.Describe().Photos, copy.Describe().Plants));
        Assert.Empty(copy.CheckIntegrity());
    }

    [Fact]
    public void An_edit_that_undo_could_not_take_back_is_refused()
    {
        Fill();
        Change("edit", (columns, row) =>
        {
            if ((string?)row[columns.IndexOf("field")] == "damage_at_delivery")
            {
                row[columns.IndexOf("old_value")] = "much";
            }
        });
        using RecordStore copy = _other.Open();

        Assert.Contains("old value that makes no sense", Assert.Throws<RecordException>(() => copy.ImportFrom(Zip)).Happened, StringComparison.Ordinal);
    }

    [Fact]
    public void Specks_per_cm_of_needle_that_count_and_needles_do_not_give_are_refused()
    {
        using (RecordStore store = _folder.Open())
        {
            store.RecordPhoto(Some.Foliage(store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day).Id, 1, "J1", "twig", Some.Twig()));
            store.ExportTo(Zip, "0.1.0");
        }

        using (var third = new ScratchFolder())
        using (RecordStore sound = third.Open())
        {
            sound.ImportFrom(Zip);
            Assert.Equal(5, sound.LeavesOfPlant(1).Single().Foliage!.SpecksPerCmOfNeedle);
        }

        Put("foliage", "specks_per_cm_of_needle", "50");
        using RecordStore copy = _other.Open();

        Assert.Contains("specks per cm of needle that its count", Assert.Throws<RecordException>(() => copy.ImportFrom(Zip)).Happened, StringComparison.Ordinal);
        Put("foliage", "needle_length_mm", "5000000");
        Assert.Contains("longer needles than fit", Assert.Throws<RecordException>(() => copy.ImportFrom(Zip)).Happened, StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_three_faults_are_told_and_a_sound_record_has_none()
    {
        Fill();
        using (RecordStore copy = _other.Open())
        {
            copy.ImportFrom(Zip);
        }

        Put("walk", "walked_on", "\"2026-02-30\"");
        Put("photo", "taken", "\"noon\"");
        Put("reading", "kind", "\"banana\"");
        Put("leaf_shape", "causes", "\"[{}]\"");
        using var third = new ScratchFolder();
        using RecordStore empty = third.Open();

        Assert.Equal(2, Assert.Throws<RecordException>(() => empty.ImportFrom(Zip)).Happened.Count(letter => letter == ';'));
    }

    [Fact]
    public void A_day_a_year_ahead_may_be_a_wrong_clock_and_comes_in()
    {
        Fill();
        Put("care", "done_on", "\"2027-06-03\"");
        using RecordStore copy = _other.Open();

        copy.ImportFrom(Zip);

        Assert.Equal(new DateOnly(2027, 6, 3), copy.CareOfPlant(1).Single().DoneOn);
    }

    private void Fill()
    {
        using RecordStore store = _folder.Open();
        Place place = store.FindOrAddPlace("Nursery");
        Walk walk = store.FindOrAddWalk(place.Id, Some.Day);
        NewPhoto photo = Some.Photo(walk.Id, 1, "B12");
        store.RecordPhoto(photo with { Reading = photo.Reading with { PixelsPerMm = 10, Leaves = [Some.Leaf() with { AreaMm2 = 25, SpeckDensityPerCm2 = 2 / 0.25 / 0.99 }] } });
        store.RecordPhoto(Some.Foliage(walk.Id, 2, "B12", "plant", Some.WholePlant()));
        store.AddTap(new NewTap { PlantId = 1, Day = Some.Day, MitesByLens = 2, SheetWidthMm = 279 });
        store.AddCare(1, Some.Day, CareKind.Rinse, "in the evening", new CareDetails { At = new TimeOnly(19, 30) });
        store.AddWeather(place.Id, [new WeatherDay(Some.Day, 12, 28, "a.csv")]);
        store.EditPlant(1, plant => plant with { Facts = new PlantFacts { Block = "South", DamageAtDelivery = 0.1, DateIn = new DateOnly(2026, 3, 1) } }, "first look");
        store.EditPlant(1, plant => plant with { Facts = plant.Facts with { DamageAtDelivery = 0.2 } }, "second look");
        store.ExportTo(Zip, "0.1.0");
    }

    private void Put(string table, string column, string value) => Change(table, (columns, row) =>
    {
        Assert.Contains(column, columns);
        row[columns.IndexOf(column)] = JsonNode.Parse(value);
    });

    // Changes every row of a table and makes the checksums right.
    private void Change(string table, Action<List<string>, JsonArray> change)
    {
        using ZipArchive zip = ZipFile.Open(Zip, ZipArchiveMode.Update);
        JsonNode manifest = JsonNode.Parse(Text(zip, "record.json"))!;
        JsonNode told = manifest["tables"]!.AsArray().Single(one => (string?)one!["name"] == table)!;
        List<string> columns = [.. told["columns"]!.AsArray().Select(one => (string)one!)];
        StringBuilder rows = new();
        foreach (string line in Text(zip, table + ".jsonl").Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            JsonArray row = JsonNode.Parse(line)!.AsArray();
            change(columns, row);
            rows.Append(row.ToJsonString()).Append('\n');
        }

        byte[] bytes = Encoding.UTF8.GetBytes(rows.ToString());
        told["sha256"] = Convert.ToHexStringLower(SHA256.HashData(bytes));
        Replace(zip, table + ".jsonl", bytes);
        Replace(zip, "record.json", Encoding.UTF8.GetBytes(manifest.ToJsonString()));
    }

    private static string Text(ZipArchive zip, string name)
    {
        using var reader = new StreamReader(zip.GetEntry(name)!.Open());
        return reader.ReadToEnd();
    }

    private static void Replace(ZipArchive zip, string name, byte[] bytes)
    {
        zip.GetEntry(name)!.Delete();
        using Stream stream = zip.CreateEntry(name).Open();
        stream.Write(bytes);
    }
}
