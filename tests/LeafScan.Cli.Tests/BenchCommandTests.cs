using System.Text.Json;
using LeafScan.Cli.Tests.Support;

namespace LeafScan.Cli.Tests;

public sealed class BenchCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_bench_gives_one_document_whose_ratio_follows_from_its_seconds()
    {
        string photo = SomePhoto.Leaf(_door.At("leaf.jpg"), 1, 900, 600);
        Ran ran = await _door.RunAsync("bench", "--photo", photo, "--rounds", "1", "--cold", "1", "--no-script", "--json", "-");
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        JsonElement seconds = ran.Json.GetProperty("seconds");
        double expected = seconds.GetProperty("reading").GetDouble() / seconds.GetProperty("floor").GetDouble();

        // One round: the ratio is that of the two, up to the rounding of the seconds to a tenth of a millisecond.
        Assert.Equal(expected, ran.Json.GetProperty("readingToFloorRatio").GetDouble(), expected * 0.05);
        Assert.True(seconds.GetProperty("decode").GetDouble() > 0);
        string[] steps = [.. ran.Json.GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("step").GetString()!)];
        Assert.Contains("decode", steps);
        Assert.Contains("outline", steps);

        // How long one round takes hangs on what else the machine does: nothing is asked of seconds but that they passed.
        JsonElement cold = ran.Json.GetProperty("cold");
        Assert.Equal(1, cold.GetProperty("runs").GetInt32());
        Assert.True(cold.GetProperty("seconds").GetDouble() > 0);
        if (OperatingSystem.IsLinux())
        {
            Assert.InRange(cold.GetProperty("peakMemoryMb").GetDouble(), 50, 20_000);
        }
    }

    [Fact]
    public async Task A_photo_that_cannot_be_read_is_one_sentence()
    {
        Ran ran = await _door.RunAsync("bench", "--photo", SomePhoto.Text(_door.At("a.jpg")), "--no-script");
        Assert.Equal(ExitCode.NothingMeasurable, ran.Code);
        Assert.Contains("a.jpg cannot be read: This is a text file", ran.Err, StringComparison.Ordinal);
    }

    public void Dispose() => _door.Dispose();
}
