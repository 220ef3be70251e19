using LeafScan.Training.Demo;
using LeafScan.Trends;

namespace LeafScan.Training.Tests;

public class DemoStoryTests
{
    private static readonly List<DemoPhoto> Photos = [.. DemoStory.Photos()];

    [Fact]
    public void Every_plant_has_enough_leaves_on_every_walk_for_a_comparison_of_months()
    {
        Assert.Equal(DemoStory.Scenario.Plants.Count * DemoStory.Scenario.Walks.Count, Photos.GroupBy(Folder).Count());
        Assert.All(Photos.GroupBy(Folder), leaves =>
        {
            Assert.True(leaves.Count() >= new TrendOptions().LeavesLeast, leaves.Key);
            Assert.Equal(leaves.Count(), leaves.Select(photo => photo.Scene.Name).Distinct().Count());
        });
    }

    [Fact]
    public void No_two_photos_of_a_walk_were_taken_at_once_and_all_on_its_day()
    {
        foreach (DemoWalk walk in DemoStory.Scenario.Walks)
        {
            List<DateTimeOffset> taken = [.. Photos.Where(photo => photo.WalkFolder == walk.Folder).Select(photo => photo.Scene.Camera.Taken!.Value)];
            Assert.All(taken, time => Assert.Equal(walk.Date, DateOnly.FromDateTime(time.DateTime)));
            Assert.Equal(taken.Count, taken.Distinct().Count());
        }
    }

    [Fact]
    public void The_rinsed_plant_keeps_its_old_marks_and_its_new_leaves_are_clean()
    {
        (Dictionary<string, int> july, Dictionary<string, int> august) = (Specks("B03", 0), Specks("B03", 1));
        string[] both = [.. july.Keys.Intersect(august.Keys)];
        Assert.True(both.Length >= 3);
        Assert.All(both, leaf => Assert.InRange(august[leaf], july[leaf], july[leaf] * 1.01));
        string[] grown = [.. august.Keys.Except(july.Keys)];
        Assert.True(grown.Length >= 2);
        Assert.All(grown, leaf => Assert.Equal(0, august[leaf]));
    }

    [Fact]
    public void The_plant_that_was_left_alone_gets_much_worse_and_the_chewed_one_has_no_mites()
    {
        (Dictionary<string, int> july, Dictionary<string, int> august) = (Specks("B07", 0), Specks("B07", 1));
        Assert.All(july.Keys.Intersect(august.Keys), leaf => Assert.True(august[leaf] > 5 * july[leaf], leaf));
        Assert.All(august.Values, specks => Assert.True(specks > july.Values.Max()));
        Assert.All(Specks("K12", 0).Values.Concat(Specks("K12", 1).Values), specks => Assert.Equal(0, specks));
    }

    private static Dictionary<string, int> Specks(string plant, int walk) => Photos
        .Where(photo => photo.PlantCode == plant && photo.WalkFolder == DemoStory.Scenario.Walks[walk].Folder)
        .ToDictionary(photo => photo.Scene.Name, photo => photo.Scene.Leaves[0].Damage.Specks);

    private static string Folder(DemoPhoto photo) => photo.WalkFolder + "/" + photo.PlantCode;
}
