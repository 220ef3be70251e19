using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;

namespace LeafScan.Leaves.Tests.Kinds;

/// <summary>No real leaf may be refused because of what the photo-kind model thinks of it. None of these photos was trained on.</summary>
public class SharedPhotoKindTests
{
    [SharedPhotosFact]
    public void No_photo_kept_for_checking_is_refused_for_its_kind()
    {
        using KindModel model = KindModel.Load(KindModelTests.ModelFile);
        string[] files = [.. Directory
            .EnumerateFiles(Path.Combine(SharedPhotos.Folder!, "photos"), "*.*", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFiles(Path.Combine(SharedPhotos.Folder!, "implants"), "*.jpg"))
            .Where(IsKeptForChecking)];
        Assert.True(files.Length > 150, $"{files.Length} photos");
        List<string> refused = [];
        foreach (string file in files)
        {
            using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
            if (KindDecision.From(model.Judge(outcome.Photo!.Pixels), new MeasureOptions().KindSureFrom).Refusal is { } why)
            {
                refused.Add($"{file}: {why.Reason}");
            }
        }

        Assert.Empty(refused);
    }

    private static bool IsKeptForChecking(string file)
    {
        string stem = Path.GetFileNameWithoutExtension(file).Split('.')[0];
        return Path.GetExtension(file) is ".jpg" or ".png"
            && !file.Contains(".mask.", StringComparison.Ordinal) && !file.Contains(".votes.", StringComparison.Ordinal)
            && (stem[^1] - '0') % 2 == 0;
    }
}
