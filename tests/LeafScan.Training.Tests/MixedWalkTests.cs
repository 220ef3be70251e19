using LeafScan.Records;
using LeafScan.Training.FrameCheck;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;
using LeafScan.Walks.Tags;

namespace LeafScan.Training.Tests;

public sealed class MixedWalkTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-walk-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Of_a_walk_with_eight_tags_two_out_of_order_and_one_unreadable_every_photo_is_assigned_right_or_asked_about()
    {
        MixedWalk walk = MixedWalk.Plan(60);
        Assert.Equal((60, 8), (walk.Photos.Count, walk.Photos.Count(photo => photo.IsTag)));
        Assert.NotEqual(walk.Photos.Select(photo => photo.File), walk.Photos.Select(photo => photo.File).Order(StringComparer.Ordinal));
        walk.Write(_folder, distinctLeaves: 3, CancellationToken.None);

        Dictionary<string, WalkFile> files = (await Read()).ToDictionary(file => file.Item.Label);
        string shaken = walk.Photos.Single(photo => photo.Shaken).Plant;
        foreach (MixedPhoto photo in walk.Photos)
        {
            WalkFile file = files[photo.File];
            Assert.False(file.PlantUnsure, photo.File);
            Assert.Equal(photo.IsTag && !photo.Shaken, file.Tag.IsTagPhoto && !file.Tag.Unread);
            Assert.Equal(photo.Shaken, file.Tag.Unread);
            Assert.Equal(photo.Plant == shaken ? (null, PlantSource.Unknown) : (photo.Plant, PlantSource.ByTag), (file.Plant.Code, file.Plant.Source));
            Assert.Contains(photo.Shaken || photo.Plant == shaken ? "could not be read" : $"“{photo.Plant}”", file.Plant.Because, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_walk_without_tags_is_decided_by_its_folders_alone()
    {
        MixedWalk all = MixedWalk.Plan(61);
        new MixedWalk(61, [.. all.Photos.Where(photo => !photo.IsTag).Take(3)]).Write(Path.Combine(_folder, "B12"), 3, CancellationToken.None);
        Assert.All(await Read(), file => Assert.Equal(("B12", PlantSource.ByFolder, false), (file.Plant.Code, file.Plant.Source, file.PlantUnsure)));
    }

    private async Task<IReadOnlyList<WalkFile>> Read()
    {
        PhotoInputs inputs = await PhotoInputs.ListAsync([_folder], TimeProvider.System, CancellationToken.None);
        WalkPlan plan = WalkPlan.Make(_folder, inputs.Items, null, _ => null, TimeProvider.System, CancellationToken.None);
        return (await WalkTags.ReadAsync(plan, new MeasureJob { Workers = 2 }, null, CancellationToken.None)).Files;
    }
}
