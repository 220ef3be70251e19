using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;
using LeafScan.Walks.Tags;

namespace LeafScan.Cli.Tests;

public sealed class PlantByTagTests
{
    private static readonly TagSeen Blurred = new([], true, true);

    [Fact]
    public void A_tag_in_the_same_frame_wins_over_the_tag_before_and_opens_its_own_group()
    {
        WalkFile[] files = Decide(File("1", 0, Tag("A1")), File("2", 1, Tag("A2") with { IsTagPhoto = false }), File("3", 2));
        Assert.Equal(["A1", "A2", "A2"], files.Select(file => file.Plant.Code));
        Assert.All(files, file => Assert.Equal(PlantSource.ByTag, file.Plant.Source));
    }

    [Fact]
    public void Photos_before_the_first_tag_and_photos_without_a_time_are_asked_about()
    {
        WalkFile[] files = Decide(File("1", 0), File("2", 1, Tag("A1")), File("3", null));
        Assert.Equal([null, "A1", null], files.Select(file => file.Plant.Code));
        Assert.Contains("before the first tag", files[0].Plant.Because, StringComparison.Ordinal);
        Assert.Contains("no capture time", files[2].Plant.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void A_group_does_not_last_until_the_next_day()
    {
        WalkFile[] files = Decide(File("1", 0, Tag("A1")), File("2", 24 * 60));
        Assert.Equal(["A1", null], files.Select(file => file.Plant.Code));
    }

    [Fact]
    public void Folder_and_file_name_stay_and_differing_from_the_tag_before_is_marked()
    {
        WalkFile named = File("3", 2) with { Plant = new PlantGuess("B5", PlantSource.ByFileName, "Its file name begins with “B5”.") };
        WalkFile[] files = Decide(File("1", 0, Tag("A1")), InFolder("a1", File("2", 1)), named);
        Assert.Equal(["A1", "a1", "B5"], files.Select(file => file.Plant.Code));
        Assert.Equal([false, false, true], files.Select(file => file.PlantUnsure));
    }

    [Fact]
    public void A_folder_that_holds_tags_of_several_plants_is_no_plants_folder()
    {
        WalkFile[] files = Decide(InFolder("Monday", File("1", 0, Tag("A1"))), InFolder("Monday", File("2", 1)), InFolder("Monday", File("3", 2, Tag("A2"))), InFolder("Monday", File("4", 3)));
        Assert.Equal(["A1", "A1", "A2", "A2"], files.Select(file => file.Plant.Code));
        Assert.DoesNotContain(files, file => file.PlantUnsure);
    }

    [Fact]
    public void With_tags_of_two_plants_in_a_frame_the_one_before_counts_and_without_one_nobody_decides()
    {
        TagSeen both = new(["A1", "A2"], false, false);
        WalkFile[] with = Decide(File("1", 0, Tag("A1")), File("2", 1, both), File("3", 2));
        Assert.Equal(["A1", "A1", "A1"], with.Select(file => file.Plant.Code));
        Assert.Equal([false, true, false], with.Select(file => file.PlantUnsure));
        WalkFile[] without = Decide(File("1", 0, Tag("C9")), File("2", 1, both), File("3", 2));
        Assert.Equal(["C9", null, null], without.Select(file => file.Plant.Code));
    }

    [Fact]
    public void A_tag_without_a_time_makes_every_follower_doubtful()
    {
        WalkFile[] files = Decide(File("1", 0, Tag("A1")), File("2", 1), File("3", null, Tag("A2")));
        Assert.Equal(["A1", "A1", "A2"], files.Select(file => file.Plant.Code));
        Assert.True(files[1].PlantUnsure);
    }

    [Fact]
    public void A_blurred_tag_in_a_plants_folder_takes_nothing_from_the_folder()
    {
        WalkFile[] files = Decide(File("1", 0, Tag("A1")), InFolder("A2", File("2", 1, Blurred)), InFolder("A2", File("3", 2)), File("4", 3));
        Assert.Equal(["A1", "A2", "A2", null], files.Select(file => file.Plant.Code));
        Assert.DoesNotContain(files, file => file.PlantUnsure);
    }

    [Fact]
    public void Without_any_tag_nothing_changes()
    {
        WalkFile[] files = [InFolder("A1", File("1", 0)), File("2", 1)];
        Assert.Equal(files, Decide(files));
    }

    private static WalkFile[] Decide(params WalkFile[] files) => [.. PlantByTag.Decide(files, file => file.Day)];

    private static TagSeen Tag(string code) => new([code], false, true);

    private static WalkFile InFolder(string folder, WalkFile file) => file with { Plant = new PlantGuess(folder, PlantSource.ByFolder, $"It lies in the folder “{folder}”.") };

    private static WalkFile File(string name, int? minute, TagSeen? tag = null)
    {
        DateTime? taken = minute is { } m ? new DateTime(2026, 7, 2, 9, 0, 0).AddMinutes(m) : null;
        PlantGuess unknown = new(null, PlantSource.Unknown, "It lies in no plant's folder.");
        return new WalkFile(new PhotoItem($"/walk/{name}.jpg", $"{name}.jpg", name), name, new DateOnly(2026, 7, 2), unknown, new LeafWords(null, null), null, null, null)
        {
            Taken = taken is { } at ? new CaptureTime(at, null) : null,
            Tag = tag ?? TagSeen.Nothing,
        };
    }
}
