using System.Text.Json;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class DemoTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task The_demo_leaves_a_record_that_every_other_command_reads()
    {
        Ran demo = await _door.RunAsync("demo", "--out", _door.At("demo"));
        Assert.True(demo.Code == ExitCode.Done, demo.ToString());
        foreach (string word in new[] { "Photos:", "Overlays:", "Record:", "leafscan plants --data-dir" })
        {
            Assert.Contains(word, demo.Out, StringComparison.Ordinal);
        }

        JsonElement plants = (await _door.RunAsync("plants", "--json", "--data-dir", _door.At("demo"))).Json.GetProperty("plants");
        Assert.True(plants.GetArrayLength() >= 3);
        foreach (JsonElement plant in plants.EnumerateArray())
        {
            Ran series = await _door.RunAsync("series", plant.GetProperty("code").GetString()!, "--json", "--data-dir", _door.At("demo"));
            Assert.Equal(2, series.Json.GetProperty("walks").GetArrayLength());

            // Two walks, leaves without tags and no taps: that is never enough for a word on the care.
            Ran verdict = await _door.RunAsync("verdict", plant.GetProperty("code").GetString()!, "--json", "--data-dir", _door.At("demo"));
            Assert.Contains(verdict.Json.GetProperty("verdict").GetString(), (string[])["cannotTell", "newDamage", "noNewDamage"]);
            Assert.NotEmpty(verdict.Json.GetProperty("because").EnumerateArray());
        }

        Assert.Equal(ExitCode.Done, (await _door.RunAsync("compare", "--from", "2026-07", "--to", "2026-08", "--data-dir", _door.At("demo"))).Code);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("doctor", "--data-dir", _door.At("demo"))).Code);
        Assert.Equal(ExitCode.Done, (await _door.RunAsync("backup", "--data-dir", _door.At("demo"))).Code);
        Assert.Equal(
            Directory.GetFiles(_door.At("demo/photos"), "*.jpg", SearchOption.AllDirectories).Length,
            Directory.GetFiles(_door.At("demo/overlays"), "*.overlay.jpg", SearchOption.AllDirectories).Length);

        Ran again = await _door.RunAsync("demo", "--out", _door.At("demo"), "--json");
        Assert.Equal((0, ExitCode.Done), (again.Json.GetProperty("added").GetInt32(), again.Code));
    }

    [Fact]
    public async Task The_demo_does_not_mix_with_a_record_of_ones_own()
    {
        SomePhoto.Leaf(_door.At("june/B1/leaf.jpg"));
        await _door.RunAsync("walk", "add", _door.At("june"), "--place", "My garden", "--date", "2026-06-18", "--data-dir", _door.At("mine"));
        Ran ran = await _door.RunAsync("demo", "--out", _door.At("mine"));
        Assert.Equal(ExitCode.WrongUse, ran.Code);
        Assert.Contains("My garden", ran.Err, StringComparison.Ordinal);
    }

    public void Dispose() => _door.Dispose();
}
