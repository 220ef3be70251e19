using System.Globalization;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.BlockBench;

/// <summary>
/// The photos of a block, for measuring speed. A few scenes are rendered in full; each photo is one of them framed anew, turned,
/// lit differently and with noise of its own, so that four hundred do not take an hour to render. For speed that is variety
/// enough; accuracy is measured elsewhere.
/// </summary>
internal static class BlockPhotos
{
    /// <summary>Width of a photo in pixels; with <see cref="HeightPx"/> twelve megapixels.</summary>
    public const int WidthPx = 4000;

    /// <summary>Height of a photo in pixels.</summary>
    public const int HeightPx = 3000;

    private const int PlantsInRow = 20;

    // Levels; what a phone leaves of its noise in daylight after its own smoothing (common practice, no source).
    private const double NoiseLevels = 1.6;
    private const int JpegQuality = 90;

    /// <summary>Makes the photos that are not there yet.</summary>
    /// <param name="folder">Folder for them; made when missing.</param>
    /// <param name="count">How many photos.</param>
    /// <param name="scenes">How many scenes are rendered for them.</param>
    /// <param name="seed">Seed of the first scene.</param>
    /// <param name="told">Told how far it is.</param>
    /// <param name="cancel">Stops between photos.</param>
    /// <returns>Their paths.</returns>
    public static IReadOnlyList<string> Make(string folder, int count, int scenes, int seed, Action<string> told, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        string[] paths = [.. Enumerable.Range(0, count).Select(i => Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"R{1 + (i / PlantsInRow)}-P{1 + (i % PlantsInRow)}.jpg")))];
        if (paths.All(File.Exists))
        {
            return paths;
        }

        using Mat noise = Noise();
        for (int scene = 0; scene < scenes; scene++)
        {
            using Mat whole = Scene(seed + scene, WidthPx);
            for (int i = scene; i < count; i += scenes)
            {
                cancel.ThrowIfCancellationRequested();
                if (!File.Exists(paths[i]))
                {
                    Write(whole, noise, Chance.FromSeed((seed * 100_003) + i), paths[i]);
                }
            }

            told(string.Create(CultureInfo.InvariantCulture, $"Photos of scene {scene + 1} of {scenes} are there."));
        }

        return paths;
    }

    /// <summary>One leaf at several sizes, from the same rendering.</summary>
    /// <param name="folder">Folder for the photos; made when missing.</param>
    /// <param name="megapixels">Sizes, megapixels (10^6 pixels).</param>
    /// <param name="seed">Seed of the scene.</param>
    public static IReadOnlyList<string> Sizes(string folder, IReadOnlyList<double> megapixels, int seed)
    {
        Directory.CreateDirectory(folder);
        string[] paths = [.. megapixels.Select(size => Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"size-{size:00}mp.jpg")))];
        if (paths.All(File.Exists))
        {
            return paths;
        }

        using Mat whole = Scene(seed, LongSide(megapixels.Max()));
        using Mat noise = Noise();
        for (int i = 0; i < paths.Length; i++)
        {
            int width = LongSide(megapixels[i]);
            using Mat small = new();
            Cv2.Resize(whole, small, new Size(width, width * 3 / 4), 0, 0, InterpolationFlags.Area);
            AddNoise(small, noise, new Random(i));
            Save(small, paths[i]);
        }

        return paths;
    }

    // Four to three: width times three quarters of the width.
    private static int LongSide(double megapixels) => (int)Math.Round(Math.Sqrt(megapixels * 1e6 * 4 / 3));

    private static Mat Scene(int seed, int longSidePx)
    {
        using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(seed, Difficulty.Easy, longSidePx));
        return Cv2.ImDecode(scene.Jpeg.ToArray(), ImreadModes.Color);
    }

    private static void Write(Mat scene, Mat noise, Random random, string path)
    {
        using Mat turn = Cv2.GetRotationMatrix2D(
            new Point2f((WidthPx / 2f) + (float)random.Between(-150, 150), (HeightPx / 2f) + (float)random.Between(-120, 120)), random.Pick([0.0, 180]) + random.Between(-12, 12), random.Between(0.85, 1.1));
        using Mat photo = new();
        Cv2.WarpAffine(scene, photo, turn, new Size(WidthPx, HeightPx), InterpolationFlags.Linear, BorderTypes.Reflect101);
        using Mat lit = new();
        double light = random.Between(0.85, 1.08);
        Cv2.Multiply(photo, new Scalar(light * random.Between(0.97, 1.03), light, light * random.Between(0.97, 1.03)), lit);
        AddNoise(lit, noise, random);
        Save(lit, path);
    }

    private static Mat Noise()
    {
        Mat noise = new(HeightPx + 600, WidthPx + 600, MatType.CV_16SC3);
        Cv2.SetTheRNG(12);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(NoiseLevels));
        return noise;
    }

    private static void AddNoise(Mat photo, Mat noise, Random random)
    {
        if (photo.Cols > noise.Cols || photo.Rows > noise.Rows)
        {
            using Mat more = new();
            Cv2.CopyMakeBorder(noise, more, 0, Math.Max(0, photo.Rows - noise.Rows), 0, Math.Max(0, photo.Cols - noise.Cols), BorderTypes.Reflect101);
            using Mat piece = more[new Rect(0, 0, photo.Cols, photo.Rows)];
            Cv2.Add(photo, piece, photo, null, MatType.CV_8U);
            return;
        }

        using Mat place = noise[new Rect(random.Next(noise.Cols - photo.Cols + 1), random.Next(noise.Rows - photo.Rows + 1), photo.Cols, photo.Rows)];
        Cv2.Add(photo, place, photo, null, MatType.CV_8U);
    }

    private static void Save(Mat photo, string path)
    {
        string part = path + ".part.jpg";
        Cv2.ImWrite(part, photo, [(int)ImwriteFlags.JpegQuality, JpegQuality]);
        File.Move(part, path, overwrite: true);

        // One that was written a moment ago counts as still being copied.
        File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddHours(-1));
    }
}
