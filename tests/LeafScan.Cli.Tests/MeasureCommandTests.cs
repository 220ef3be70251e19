using System.Text.Json;
using LeafScan.Cli.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Cli.Tests;

public sealed class MeasureCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Fact]
    public async Task A_photo_gives_one_document_a_mask_of_its_size_and_an_overlay()
    {
        string photo = SomePhoto.Leaf(_door.At("rose.jpg"));
        Ran ran = await _door.RunAsync("measure", photo, "--json", "-", "--masks", _door.At("m"), "--overlays", _door.At("o"));

        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
        JsonElement reading = ran.Json.GetProperty("photos")[0];
        Assert.Equal("leafscan.reading/1", ran.Json.GetProperty("schema").GetString());
        Assert.Equal("rose.jpg", reading.GetProperty("file").GetString());
        JsonElement shares = reading.GetProperty("leaves")[0].GetProperty("shares");
        Assert.Equal(1m, shares.EnumerateObject().Sum(share => share.Value.GetDecimal()));
        using Mat mask = Cv2.ImRead(_door.At("m/rose.mask.png"), ImreadModes.Unchanged);
        Assert.Equal((480, 320, MatType.CV_8UC1), (mask.Cols, mask.Rows, mask.Type()));
        Assert.True(File.Exists(_door.At("o/rose.overlay.jpg")));
    }

    [Fact]
    public async Task Without_json_people_get_a_line_a_photo_on_standard_output()
    {
        Ran ran = await _door.RunAsync("measure", SomePhoto.Leaf(_door.At("rose.jpg")));
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("stippled", ran.Out, StringComparison.Ordinal);
        Assert.Single(ran.Out.Split('\n'), line => line.StartsWith("rose.jpg", StringComparison.Ordinal));
        Assert.Contains("1 photo measured, 0 refused.", ran.Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Results_come_in_the_order_of_the_files_whatever_is_finished_first()
    {
        string[] names = ["10.jpg", "2.jpg", "1.jpg", "3.jpg"];
        string[] photos = [.. names.Select((name, i) => SomePhoto.Leaf(_door.At(name), i, name == "10.jpg" ? 1600 : 320, name == "10.jpg" ? 1000 : 240))];
        Ran ran = await _door.RunAsync(["measure", .. photos, "--json", "-", "--jobs", "4"]);
        Assert.Equal(names, ran.Json.GetProperty("photos").EnumerateArray().Select(photo => photo.GetProperty("file").GetString()));
    }

    [Fact]
    public async Task A_folder_counts_as_its_photos_and_those_below()
    {
        SomePhoto.Leaf(_door.At("walk/B1/IMG_1.jpg"));
        SomePhoto.Leaf(_door.At("walk/B2/IMG_2.jpg"), 2);
        Ran ran = await _door.RunAsync("measure", _door.At("walk"), "--json", "-", "--masks", _door.At("m"));
        Assert.Equal(2, ran.Json.GetProperty("photos").GetArrayLength());
        Assert.True(File.Exists(_door.At("m/IMG_1.mask.png")) && File.Exists(_door.At("m/IMG_2.mask.png")));
    }

    [Fact]
    public async Task Photos_of_one_name_in_two_folders_do_not_overwrite_each_others_mask()
    {
        SomePhoto.Leaf(_door.At("walk/B1/IMG_1.jpg"));
        SomePhoto.Leaf(_door.At("walk/B2/IMG_1.jpg"), 2);
        Ran ran = await _door.RunAsync("measure", _door.At("walk"), "--json", "-", "--masks", _door.At("m"));
        Assert.Equal(["B1/IMG_1.jpg", "B2/IMG_1.jpg"], ran.Json.GetProperty("photos").EnumerateArray().Select(photo => photo.GetProperty("file").GetString()));
        Assert.True(File.Exists(_door.At("m/B1/IMG_1.mask.png")) && File.Exists(_door.At("m/B2/IMG_1.mask.png")));
    }

    [Fact]
    public async Task A_file_named_twice_is_measured_once()
    {
        string photo = SomePhoto.Leaf(_door.At("rose.jpg"));
        Ran ran = await _door.RunAsync("measure", photo, photo, _door.Folder, "--json", "-");
        Assert.Equal(1, ran.Json.GetProperty("photos").GetArrayLength());
    }

    [Fact]
    public async Task The_document_in_a_file_is_the_one_of_standard_output()
    {
        string photo = SomePhoto.Leaf(_door.At("rose.jpg"));
        Ran shown = await _door.RunAsync("measure", photo, "--json", "-");
        await _door.RunAsync("measure", photo, "--json", _door.At("sub/out.json"));
        Assert.Equal(shown.Out, await File.ReadAllTextAsync(_door.At("sub/out.json")));
    }

    [Fact]
    public async Task A_photo_that_was_copied_this_moment_is_measured_all_the_same()
    {
        string photo = SomePhoto.Leaf(_door.At("walk/rose.jpg"));
        File.SetLastWriteTimeUtc(photo, DateTime.UtcNow);
        Ran ran = await _door.RunAsync("measure", _door.At("walk"));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    [Fact]
    public async Task A_stop_in_the_middle_says_what_was_done_and_leaves_no_half_file()
    {
        for (int i = 0; i < 12; i++)
        {
            SomePhoto.Leaf(_door.At($"walk/{i}.jpg"), i, 900, 600);
        }

        Ran ran = await _door.RunUntilAsync(
            () => File.Exists(_door.At("m/0.mask.png")),
            "measure", _door.At("walk"), "--jobs", "1", "--json", _door.At("out.json"), "--masks", _door.At("m"));
        Assert.True(ran.Code == ExitCode.Stopped, ran.ToString());
        Assert.Matches("^Stopped: ([1-9]|1[01]) of 12 photos were done", ran.Err);
        Assert.False(File.Exists(_door.At("out.json")));
        foreach (string mask in Directory.GetFiles(_door.At("m")))
        {
            Assert.EndsWith(".mask.png", mask, StringComparison.Ordinal);
            using Mat whole = Cv2.ImRead(mask, ImreadModes.Unchanged);
            Assert.Equal(new Size(900, 600), whole.Size());
        }
    }

    [Fact]
    public async Task A_twig_is_told_from_a_leaf_and_measured_as_one_and_whoever_says_leaf_is_believed()
    {
        // Rendered: leafscan-training render twigs --scenes 1 --seed 71 --level medium --size 480.
        string twig = _door.At("twig.jpg");
        File.Copy(Path.Combine(AppContext.BaseDirectory, "Data", "twig.jpg"), twig);
        Ran looked = await _door.RunAsync("measure", twig, SomePhoto.Leaf(_door.At("rose.jpg")), "--json", "-", "--masks", _door.At("m"), "--overlays", _door.At("o"));
        Assert.True(looked.Code == ExitCode.Done, looked.ToString());
        JsonElement[] photos = [.. looked.Json.GetProperty("photos").EnumerateArray()];
        Assert.Equal(["twig", "leaf"], photos.Select(photo => photo.GetProperty("kind").GetString()));
        JsonElement reading = Assert.Single(photos[0].GetProperty("leaves").EnumerateArray());
        Assert.InRange(reading.GetProperty("greenness").GetDouble(), 0, 1);
        Assert.False(photos[1].GetProperty("leaves")[0].TryGetProperty("greenness", out _));
        Assert.DoesNotContain("kindUnsure", photos[1].GetProperty("flags").EnumerateArray().Select(flag => flag.GetString()));
        Assert.True(File.Exists(_door.At("m/twig.mask.png")));
        Assert.True(File.Exists(_door.At("o/twig.overlay.jpg")));

        Ran said = await _door.RunAsync("measure", twig, "--kind", "leaf", "--json", "-");
        Assert.DoesNotContain("\"twig\"", said.Out, StringComparison.Ordinal);
    }

    public void Dispose() => _door.Dispose();
}
