using System.Globalization;
using LeafScan.Training.Kinds;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.FrameCheck;

/// <summary>One photo of a mixed walk.</summary>
/// <param name="File">File name, as a camera gives it.</param>
/// <param name="Taken">Capture time.</param>
/// <param name="Plant">Plant whose leaf or tag it shows.</param>
/// <param name="IsTag">Whether it shows the tag.</param>
/// <param name="Shaken">Whether the tag is too blurred to read.</param>
internal sealed record MixedPhoto(string File, DateTimeOffset Taken, string Plant, bool IsTag, bool Shaken);

/// <summary>A walk of 60 photos in one folder: 8 plants, each begun with a photo of its tag. Files do not sort as they were taken.</summary>
/// <param name="Seed">Seed of all pictures.</param>
/// <param name="Photos">The photos, as they were taken.</param>
internal sealed record MixedWalk(int Seed, IReadOnlyList<MixedPhoto> Photos)
{
    /// <summary>Plant whose tag is blurred.</summary>
    public const int ShakenPlant = 4;

    /// <summary>Plants whose tag files sort out of order: one before all others, one after.</summary>
    private static readonly int[] OutOfOrder = [2, 6];

    private static readonly string[] Plants = ["B01", "B02", "B03", "EU-1", "EU-2", "ROW 3/7", "K12", "K13"];

    /// <summary>Draws the walk up; nothing is rendered yet.</summary>
    public static MixedWalk Plan(int seed)
    {
        Random random = Chance.FromSeed(seed);
        DateTimeOffset time = new(2026, 7, 2, 9, 0, 0, TimeSpan.FromHours(-4));
        List<MixedPhoto> photos = [];
        for (int plant = 0; plant < Plants.Length; plant++)
        {
            int leaves = plant < 4 ? 7 : 6;
            for (int i = 0; i <= leaves; i++)
            {
                time = time.AddSeconds(random.Next(4, 60));
                int number = OutOfOrder.Contains(plant) && i == 0 ? (plant == OutOfOrder[0] ? 99 : 900) : 400 + photos.Count;
                photos.Add(new MixedPhoto(string.Create(CultureInfo.InvariantCulture, $"IMG_{number:0000}.jpg"), time, Plants[plant], i == 0, i == 0 && plant == ShakenPlant));
            }
        }

        return new MixedWalk(seed, photos);
    }

    /// <summary>Writes the photos.</summary>
    /// <param name="folder">Folder to write to.</param>
    /// <param name="distinctLeaves">So many leaves are rendered and used in turn; their files still differ by the time in them.</param>
    /// <param name="cancel">Stops between photos.</param>
    public void Write(string folder, int distinctLeaves, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        List<RenderedScene> rendered = [];
        try
        {
            int leaf = 0;
            for (int i = 0; i < Photos.Count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                MixedPhoto photo = Photos[i];
                if (!photo.IsTag && rendered.Count <= leaf % distinctLeaves)
                {
                    rendered.Add(SceneRenderer.Render(SceneChooser.Choose(Seed + leaf, Difficulty.Easy, 480)));
                }

                using Mat picture = photo.IsTag ? Tag(photo, i) : Cv2.ImDecode(rendered[leaf % distinctLeaves].Jpeg.Span, ImreadModes.Color);
                leaf += photo.IsTag ? 0 : 1;
                string path = Path.Combine(folder, photo.File);
                File.WriteAllBytes(path, PhotoFile.Jpeg(picture, new CameraSpec { Seed = Seed, Taken = photo.Taken }));

                // As a copy from a phone has it; a file of this moment would count as still being copied.
                File.SetLastWriteTimeUtc(path, DateTime.UnixEpoch.AddDays(20_000));
            }
        }
        finally
        {
            rendered.ForEach(scene => scene.Dispose());
        }
    }

    private Mat Tag(MixedPhoto photo, int index)
    {
        Random random = Chance.FromSeed(Seed + 5000 + index);
        BackgroundKind ground = random.Pick([BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Foliage]);
        return TagScene.Draw(photo.Plant, 5, asPhoto: true, random, size => DrawnGround.Paint(ground, size, random), photo.Shaken ? 5 : 0);
    }
}
