using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;

namespace LeafScan.Leaves.Tests.Kinds;

/// <summary>No real leaf may be refused because of what the photo-kind model thinks of it. Those with odd numbers in three of the folders were trained on.</summary>
public class SharedPhotoKindTests
{
    [SharedPhotosFact]
    public void No_real_leaf_is_refused_for_its_kind_and_few_are_doubted()
    {
        using KindModel model = KindModel.Load(KindModelTests.ModelFile);
        string[] files = [.. Directory
            .EnumerateFiles(Path.Combine(SharedPhotos.Folder!, "photos"), "*.*", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFiles(Path.Combine(SharedPhotos.Folder!, "implants"), "*.jpg"))
            .Where(IsPhoto)];
        Assert.True(files.Length > 300, $"{files.Length} photos");
        List<string> refused = [];
        int doubted = 0;
        foreach (string file in files)
        {
            using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
            KindDecision decision = KindDecision.For(outcome.Photo!.Pixels, new MeasureOptions(), model);
            if (decision.Refusal is { } why)
            {
                refused.Add($"{file}: {why.Reason}");
            }

            doubted += decision.Flags.Count;
        }

        Assert.Empty(refused);
        Assert.True(doubted <= 0.05 * files.Length, $"{doubted} of {files.Length} photos were doubted");
    }

    private static bool IsPhoto(string file) =>
        Path.GetExtension(file) is ".jpg" or ".png"
        && !file.Contains(".mask.", StringComparison.Ordinal) && !file.Contains(".votes.", StringComparison.Ordinal);
}
