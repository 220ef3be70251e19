using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Kinds;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>What a door must know of the networks that come with the tool.</summary>
public static class LearnedModels
{
    /// <summary>
    /// Versions of the networks for leaves, of the speck judge and of the networks for twigs and plants, stored with each reading; null
    /// when none is there and colour alone decides.
    /// </summary>
    public static string? VersionInUse
    {
        get
        {
            List<string> versions = [];
            Add(ModelFiles.Version, ModelFiles.TissueName);
            Add(ModelFiles.JudgeVersion, ModelFiles.TissueName, ModelFiles.JudgeName);
            Add(ModelFiles.FoliageVersion, ModelFiles.TwigName, ModelFiles.PlantName);
            return versions.Count == 0 ? null : string.Join('+', versions);

            void Add(string version, params string[] files)
            {
                if (files.All(IsThere))
                {
                    versions.Add(version);
                }
            }
        }
    }

    /// <summary>Model files that should lie in <see cref="Folder"/> and do not; what they do is left to colour alone.</summary>
    public static IReadOnlyList<string> Missing =>
        [.. new[] { ModelFiles.OutlineName, ModelFiles.TissueName, ModelFiles.JudgeName, ModelFiles.TwigName, ModelFiles.PlantName }.Where(name => !IsThere(name))];

    /// <summary>Whether the photo-kind model is there and can be used; without it every photo counts as a leaf. Loads it.</summary>
    public static bool TellsKinds => ModelFiles.Kind is not null;

    /// <summary>What the photo-kind model thinks of a photo; null when it cannot be used.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R, sRGB; any size. Not changed.</param>
    public static KindJudgement? KindOf(Mat bgr) => ModelFiles.Kind?.Judge(bgr);

    /// <summary>
    /// Loads the photo-kind model in the background, while the first photo is still being decoded. Returns at once; a photo
    /// that needs the model waits for it.
    /// </summary>
    public static void LoadKindsMeanwhile() => Task.Run(() => ModelFiles.Kind);

    private static bool IsThere(string name) => File.Exists(Path.Combine(Folder, name));

    /// <summary>Folder in which the networks are looked for.</summary>
    public static string Folder => ModelFiles.Folder;

    /// <summary>Shares the processors out. Call before the first photo: a network keeps the number with which it was loaded.</summary>
    /// <param name="photosSideBySide">How many photos are measured at the same time, 1 or more.</param>
    /// <param name="processors">How many processors there are, 1 or more.</param>
    public static void ShareProcessors(int photosSideBySide, int processors)
    {
        // Photos side by side already fill the processors; threads inside each photo would only wait for one another.
        int each = Math.Max(1, processors / Math.Max(1, photosSideBySide));
        ModelFiles.Threads = each;
        Bands.Threads = each;
        Cv2.SetNumThreads(each);
    }
}
