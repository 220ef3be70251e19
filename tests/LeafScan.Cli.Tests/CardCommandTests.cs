using ImageMagick;
using LeafScan.Cli.Tests.Support;
using LeafScan.Records;

namespace LeafScan.Cli.Tests;

public sealed class CardCommandTests : IDisposable
{
    private readonly TestDoor _door = new();

    [Theory]
    [InlineData("card.jpg")]
    [InlineData("card.png")]
    public async Task A_card_is_1080_pixels_wide_and_says_the_number_with_its_range(string name)
    {
        Begin(SomePhoto.Leaf(_door.At("leaf.jpg")));
        Ran ran = await _door.RunAsync("card", "EU-1", "--out", _door.At(name));
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());

        // The figures of this record were made up, so the lines drawn are not theirs, and that is said.
        Assert.Contains("drawn by this version", ran.Err, StringComparison.Ordinal);
        Assert.Contains("12 % of the leaf area shows damage, very likely between", ran.Out, StringComparison.Ordinal);
        using MagickImage picture = new(_door.At(name));
        Assert.Equal(1080u, picture.Width);

        // 9 to 16 is the shape of a common phone's screen: more would have to be scrolled.
        Assert.InRange(picture.Height, 1000u, 1920u);
        Assert.True(new FileInfo(_door.At(name)).Length < 4_000_000);
    }

    [NeedsFact("exiftool")]
    public async Task No_exported_picture_has_a_position_or_a_word_of_the_camera()
    {
        string folder = _door.MakeFolder("walk/EU-1");
        SomeRecord.WithPosition(SomePhoto.Leaf(Path.Combine(folder, "leaf.jpg")));
        Assert.Contains("GPS", Outside.Run("exiftool", "-a", "-G1", "-s", Path.Combine(folder, "leaf.jpg")), StringComparison.Ordinal);
        await DoneAsync("walk", "add", _door.At("walk"), "--place", "Hill nursery");
        string[] made = ["card.jpg", "card.png", "note.png", "note.html", "note.pdf", "file.jpg"];
        foreach (string file in made[..^1])
        {
            await DoneAsync(file.StartsWith("card", StringComparison.Ordinal) ? "card" : "note", "EU-1", "--out", _door.At(file));
        }

        await DoneAsync("card", "--photo", Path.Combine(folder, "leaf.jpg"), "--out", _door.At("file.jpg"));
        await DoneAsync("export", "photos", "EU-1", "--out", _door.At("photos"));
        string[] photos = Directory.GetFiles(_door.At("photos"));
        Assert.Equal(["EU-1_2026-07-02_leaf.jpg"], photos.Select(Path.GetFileName));
        List<string> pictures = [.. made.Where(file => !file.StartsWith("note.h", StringComparison.Ordinal) && !file.EndsWith("pdf", StringComparison.Ordinal)).Select(_door.At), .. photos, .. Inside(_door.At("note.html"))];
        if (Outside.Has("pdfimages"))
        {
            // Debian package poppler-utils: the pictures of the PDF as they lie in it.
            Outside.Run("pdfimages", "-all", _door.At("note.pdf"), _door.At("inside-pdf"));
            string[] inside = Directory.GetFiles(_door.Folder, "inside-pdf*");
            Assert.NotEmpty(inside);
            pictures.AddRange(inside);
        }

        foreach (string picture in pictures)
        {
            string told = Outside.Run("exiftool", "-a", "-G1", "-s", picture);
            Assert.DoesNotContain("GPS", told, StringComparison.Ordinal);
            Assert.DoesNotContain("Some phone", told, StringComparison.Ordinal);
            Assert.DoesNotContain("2026:07:02", told, StringComparison.Ordinal);
            Assert.DoesNotContain("[ExifIFD]", told, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_photo_that_was_measured_here_gives_a_card_without_any_remark_and_its_copy_is_upright()
    {
        string photo = SomePhoto.Leaf(Path.Combine(_door.MakeFolder("walk/EU-1"), "leaf.jpg"));
        using (MagickImage image = new(photo))
        {
            // EXIF 2.32, tag 274: the camera was held upright, the pixels lie on their side.
            ExifProfile exif = new();
            exif.SetValue(ExifTag.Orientation, (ushort)6);
            image.SetProfile(exif);
            image.Orientation = Orientation.RightTop;
            image.Write(photo);
        }

        File.SetLastWriteTimeUtc(photo, DateTime.UtcNow.AddHours(-1));
        await DoneAsync("walk", "add", _door.At("walk"), "--place", "Hill nursery", "--date", "2026-07-02");
        Ran ran = await _door.RunAsync("card", "EU-1", "--out", _door.At("card.jpg"));
        Assert.Equal((ExitCode.Done, ""), (ran.Code, ran.Err));
        await DoneAsync("export", "photos", "--out", _door.At("photos"));
        using MagickImage copy = new(Directory.GetFiles(_door.At("photos")).Single());
        Assert.Equal((320u, 480u), (copy.Width, copy.Height));
    }

    [Fact]
    public async Task Photos_that_are_gone_are_named_and_do_not_stop_the_others()
    {
        Begin(SomePhoto.Leaf(_door.At("leaf.jpg")));
        Ran ran = await _door.RunAsync("export", "photos", "--out", _door.At("photos"), "--json");
        Assert.Equal(ExitCode.SomeRefused, ran.Code);
        Assert.Equal(1, ran.Json.GetProperty("photos").GetArrayLength());
        Assert.Equal(1, ran.Json.GetProperty("refused").GetArrayLength());
        Assert.Contains("EU-1-0.jpg", ran.Err, StringComparison.Ordinal);

        // Again into the same folder: nothing there is overwritten.
        await _door.RunAsync("export", "photos", "--out", _door.At("photos"));
        Assert.Equal(2, Directory.GetFiles(_door.At("photos")).Length);
    }

    [Fact]
    public async Task A_card_of_a_plant_whose_photos_are_gone_says_so_and_still_has_the_number()
    {
        Begin(null);
        await DoneAsync("card", "EU-1", "--out", _door.At("card.png"));
        using MagickImage picture = new(_door.At("card.png"));
        Assert.Equal(1080u, picture.Width);
        Assert.InRange(picture.Height, 500u, 1000u);
    }

    [Theory]
    [InlineData("card", "--out", "c.jpg")]
    [InlineData("card", "EU-1", "--photo", "leaf.jpg", "--out", "c.jpg")]
    [InlineData("card", "EU-1", "--leaf", "1", "--out", "c.jpg")]
    [InlineData("card", "--photo", "nowhere.jpg", "--out", "c.jpg")]
    [InlineData("card", "EU-1", "--out", "c.gif")]
    [InlineData("card", "--photo", "EU-1-0.jpg", "--leaf", "2", "--out", "c.jpg")]
    [InlineData("card", "--photo", "EU-1-0.jpg", "--leaf", "none", "--out", "c.jpg")]
    [InlineData("export", "readings", "NOPE", "--out", "c.csv")]
    [InlineData("export", "readings", "--from", "2026-08-01", "--to", "2026-07-01", "--out", "c.csv")]
    [InlineData("export", "block", "Nowhere", "--out", "c.csv")]
    [InlineData("export", "series", "--out", "c.txt")]
    public async Task Wrong_use_is_told_and_writes_nothing(params string[] words)
    {
        Begin(null);
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.WrongUse, ran.ToString());
        Assert.Empty(ran.Out);
        Assert.False(File.Exists("c.jpg") || File.Exists("c.csv") || File.Exists("c.gif"));
    }

    [Fact]
    public async Task A_photo_on_which_nothing_can_be_measured_is_refused_with_its_reason()
    {
        Ran ran = await _door.RunAsync("card", "--photo", SomePhoto.Empty(_door.At("empty.jpg")), "--out", _door.At("c.jpg"));
        Assert.Equal(ExitCode.NothingMeasurable, ran.Code);
        Assert.StartsWith("empty.jpg: ", ran.Err, StringComparison.Ordinal);
        Assert.False(File.Exists(_door.At("c.jpg")));
    }

    public void Dispose() => _door.Dispose();

    private void Begin(string? file)
    {
        using RecordStore store = RecordStore.Open(_door.DataFolder, TimeProvider.System);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 6, 3), 0.04);
        SomeRecord.Photo(store, "EU-1", new DateOnly(2026, 7, 2), 0.12, 1, file);
    }

    private async Task DoneAsync(params string[] words)
    {
        Ran ran = await _door.RunAsync(words);
        Assert.True(ran.Code == ExitCode.Done, ran.ToString());
    }

    // The pictures within a page, as files.
    private IEnumerable<string> Inside(string html)
    {
        string[] data = [.. System.Text.RegularExpressions.Regex.Matches(File.ReadAllText(html), "data:image/jpeg;base64,([^\"]+)").Select(match => match.Groups[1].Value)];
        Assert.NotEmpty(data);
        for (int i = 0; i < data.Length; i++)
        {
            string file = _door.At($"inside-html-{i}.jpg");
            File.WriteAllBytes(file, Convert.FromBase64String(data[i]));
            yield return file;
        }
    }
}
