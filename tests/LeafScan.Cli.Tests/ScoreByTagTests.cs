using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

/// <summary>A block whose photos lie in one folder under the camera's names: its plants are told by the tags in them.</summary>
public sealed class ScoreByTagTests : IDisposable
{
    private static readonly DateTime Nine = new(2026, 7, 2, 9, 0, 0);

    private readonly TestDoor _door = new();

    [Fact]
    public async Task Plants_of_a_flat_folder_are_told_by_the_tag_photographed_before_their_leaves()
    {
        Tag("IMG_0001.jpg", "R2-P14", minute: 0);
        Leaf("IMG_0002.jpg", minute: 1);
        Leaf("IMG_0003.jpg", minute: 2);
        Tag("IMG_0004.jpg", "B07", minute: 3);
        Leaf("IMG_0005.jpg", minute: 4);
        Ran dry = await Score("--dry-run", "--json", "-");
        Assert.Equal(["R2-P14", "R2-P14", "R2-P14", "B07", "B07"], dry.Json.GetProperty("files").EnumerateArray().Select(file => file.GetProperty("plant").GetString()!));

        Ran ran = await Score("--json", "-");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Assert.Equal([("R2-P14", 2), ("B07", 1)], Plants(ran));
        using (RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System))
        {
            Plant placed = store.Plants().Single(plant => plant.Code == "R2-P14");
            Assert.Equal(("B", "2", "14"), (placed.Facts.Block!, placed.Facts.Row!, placed.Facts.Position!));
            Assert.Equal("B", store.Plants().Single(plant => plant.Code == "B07").Facts.Block);
        }

        // Nothing is new, so no photo is looked at: the record tells the plants.
        Ran again = await Score("--json", "-");
        Assert.Equal(Plants(ran), Plants(again));
        Assert.Contains("0 new, 5 already here", again.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_a_tag_that_cannot_be_read_the_plant_is_asked_for_and_its_photos_stay_out_of_the_table()
    {
        Tag("IMG_0001.jpg", "B07", minute: 0);
        Leaf("IMG_0002.jpg", minute: 1);
        Tag("IMG_0003.jpg", "B08", minute: 2, blurred: true);
        Leaf("IMG_0004.jpg", minute: 3);
        Ran ran = await Score("--json", "-");
        Assert.Equal([("B07", 1)], Plants(ran));
        Assert.Contains("Not in the table, because their plant is unknown: 2 photos.", ran.Err, StringComparison.Ordinal);
        Assert.Contains("Which plant? IMG_0004.jpg", ran.Err, StringComparison.Ordinal);
        Assert.Contains("leafscan photos assign IMG_0003.jpg PLANT --following", ran.Err, StringComparison.Ordinal);

        await _door.RunAsync("photos", "assign", "IMG_0003.jpg", "B08", "--following");
        Ran answered = await Score("--json", "-");
        Assert.Equal([("B07", 1), ("B08", 1)], Plants(answered));
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        Assert.All(store.Plants(), plant => Assert.Equal("B", plant.Facts.Block));
    }

    private void Tag(string name, string code, int minute, bool blurred = false) =>
        SomePhoto.TakenAt(SomePhoto.Tag(_door.At("block/" + name), code, blurred), Nine.AddMinutes(minute));

    private void Leaf(string name, int minute) => SomePhoto.TakenAt(SomePhoto.Leaf(_door.At("block/" + name), minute), Nine.AddMinutes(minute));

    private Task<Ran> Score(params string[] more) => _door.RunAsync(["score", _door.At("block"), "--block", "B", .. more]);

    private static (string Code, int Leaves)[] Plants(Ran ran) =>
        [.. ran.Json.GetProperty("plants").EnumerateArray().Select(plant => (plant.GetProperty("code").GetString()!, plant.GetProperty("figures").GetProperty("leaves").GetInt32()))];

    public void Dispose() => _door.Dispose();
}
