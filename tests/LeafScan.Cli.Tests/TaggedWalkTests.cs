using System.Text.Json;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class TaggedWalkTests : IDisposable
{
    private static readonly DateTime Nine = new(2026, 7, 2, 9, 0, 0);

    private readonly TestDoor _door = new();

    [Fact]
    public async Task Leaves_belong_to_the_tag_photographed_before_them_whatever_their_files_are_called()
    {
        Tag("IMG_0009.jpg", "B07", minute: 0);
        Leaf("IMG_0001.jpg", minute: 1);
        Tag("IMG_0002.jpg", "B08", minute: 2);
        Leaf("IMG_0008.jpg", minute: 3);
        Ran ran = await Add("--json");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        Dictionary<string, JsonElement> added = Added(ran);
        Assert.Equal(("B07", "B08"), (Plant(added["IMG_0001.jpg"]), Plant(added["IMG_0008.jpg"])));
        Assert.Equal(("leaf", "tag"), (added["IMG_0001.jpg"].GetProperty("kind").GetString(), added["IMG_0009.jpg"].GetProperty("kind").GetString()));
        Assert.Contains("after the tag of “B07” (IMG_0009.jpg at 09:00:00)", added["IMG_0001.jpg"].GetProperty("plantBecause").GetString(), StringComparison.Ordinal);

        JsonElement series = (await _door.RunAsync("series", "B07", "--json")).Json;
        Assert.Equal(1, series.GetProperty("walks")[0].GetProperty("figures").GetProperty("leaves").GetInt32());
        Ran photos = await _door.RunAsync("photos", "--plant", "B07");
        Assert.Contains("tag", photos.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_a_tag_that_cannot_be_read_the_photos_are_asked_about_and_answered_in_one_go()
    {
        Tag("IMG_0001.jpg", "B07", minute: 0);
        Leaf("IMG_0002.jpg", minute: 1);
        Tag("IMG_0003.jpg", "B08", minute: 2, blurred: true);
        Leaf("IMG_0004.jpg", minute: 3);
        Leaf("IMG_0005.jpg", minute: 4);
        Tag("IMG_0006.jpg", "B09", minute: 5);
        Leaf("IMG_0007.jpg", minute: 6);
        Ran dry = await Add("--dry-run");
        Assert.Contains("could not be read", dry.Err, StringComparison.Ordinal);
        Ran ran = await Add();
        Assert.Contains("Without a plant: 3 photos.", ran.Err, StringComparison.Ordinal);
        Assert.Contains("Which plant? IMG_0004.jpg", ran.Err, StringComparison.Ordinal);
        Assert.Contains("leafscan photos assign IMG_0003.jpg PLANT --following", ran.Err, StringComparison.Ordinal);

        Ran answer = await _door.RunAsync("photos", "assign", "IMG_0003.jpg", "B08", "--following");
        Assert.Contains("So do 2 photos after it.", answer.Out, StringComparison.Ordinal);
        JsonElement series = (await _door.RunAsync("series", "B08", "--json")).Json;
        Assert.Equal(2, series.GetProperty("walks")[0].GetProperty("figures").GetProperty("leaves").GetInt32());

        // A tag that was put right by hand leads what is added later; nothing else is asked.
        Leaf("IMG_0010.jpg", minute: 4, second: 30);
        Dictionary<string, JsonElement> added = Added(await Add("--json"));
        Assert.Equal("B08", Plant(Assert.Single(added).Value));

        await _door.RunAsync("undo");
        Assert.Equal(3, (await _door.RunAsync("photos", "--plant", "-", "--json")).Json.GetProperty("photos").GetArrayLength());
    }

    [Fact]
    public async Task A_tag_that_says_otherwise_than_the_folder_is_asked_about()
    {
        Tag("B12/IMG_0001.jpg", "B07", minute: 0);
        Leaf("B12/IMG_0002.jpg", minute: 1);
        Ran ran = await Add("--json");
        Dictionary<string, JsonElement> added = Added(ran);
        Assert.Equal(("B07", "B12"), (Plant(added["IMG_0001.jpg"]), Plant(added["IMG_0002.jpg"])));
        Assert.All(added.Values, photo => Assert.True(photo.GetProperty("plantUnsure").GetBoolean()));
        Assert.Contains("Is it B12? IMG_0002.jpg: It lies in the folder “B12”. The tag taken before it says “B07”", ran.Err, StringComparison.Ordinal);
    }

    private void Tag(string name, string code, int minute, bool blurred = false) =>
        SomePhoto.TakenAt(SomePhoto.Tag(_door.At("walk/" + name), code, blurred), Nine.AddMinutes(minute));

    private void Leaf(string name, int minute, int second = 0) =>
        SomePhoto.TakenAt(SomePhoto.Leaf(_door.At("walk/" + name), (100 * minute) + second), Nine.AddMinutes(minute).AddSeconds(second));

    private Task<Ran> Add(params string[] more) => _door.RunAsync(["walk", "add", _door.At("walk"), "--place", "Garden", .. more]);

    private static Dictionary<string, JsonElement> Added(Ran ran) => ran.Json.GetProperty("added").EnumerateArray().ToDictionary(photo => photo.GetProperty("file").GetString()!);

    private static string? Plant(JsonElement photo) => photo.GetProperty("plant").GetString();

    public void Dispose() => _door.Dispose();
}
