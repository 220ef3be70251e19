using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Specks.Judge;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// The networks that come with the tool, loaded when first needed and kept. Where a file is missing the colour way of
/// measuring does the work alone.
/// </summary>
internal static class ModelFiles
{
    /// <summary>Version of the networks, stored with each reading.</summary>
    public const string Version = "leaf-7";

    /// <summary>Version of the speck judge, stored with each reading.</summary>
    public const string JudgeVersion = "specks-2";

    /// <summary>Version of the networks for twigs and whole plants, stored with each reading.</summary>
    public const string FoliageVersion = "foliage-1";

    /// <summary>File of the tissue network.</summary>
    public const string TissueName = "leaf-tissue.onnx";

    /// <summary>File of the outline network.</summary>
    public const string OutlineName = "leaf-outline.onnx";

    /// <summary>File of the network for twigs.</summary>
    public const string TwigName = "twig-foliage.onnx";

    /// <summary>File of the network for whole plants.</summary>
    public const string PlantName = "plant-foliage.onnx";

    /// <summary>File of the speck judge.</summary>
    public const string JudgeName = "speck-judge.zip";

    private static readonly Lazy<Network?> TissueNetwork = new(() => Load(TissueName));

    private static readonly Lazy<Network?> OutlineNetwork = new(() => Load(OutlineName));

    private static readonly Lazy<Network?> TwigNetwork = new(() => Load(TwigName));

    private static readonly Lazy<Network?> PlantNetwork = new(() => Load(PlantName));

    private static readonly Lazy<SpeckJudge?> Judge = new(LoadJudge);

    private static readonly Lazy<KindModel?> KindTrees = new(() => LoadKind("photo-kind.zip"));

    /// <summary>Folder with the model files, beside the program.</summary>
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "models");

    /// <summary>Threads each run may use; set before the first run. All processors by default; 1 when several photos are measured side by side.</summary>
    public static int Threads { get; set; } = Environment.ProcessorCount;

    /// <summary>The tissue network, or null when its file is missing.</summary>
    public static Network? Tissue => TissueNetwork.Value;

    /// <summary>The outline network, or null when its file is missing.</summary>
    public static Network? Outline => OutlineNetwork.Value;

    /// <summary>The network for twigs, or null when its file is missing.</summary>
    public static Network? Twig => TwigNetwork.Value;

    /// <summary>The network for whole plants, or null when its file is missing.</summary>
    public static Network? Plant => PlantNetwork.Value;

    /// <summary>The photo-kind model, or null when its file is missing, of another version or lacks a library: every photo then counts as a leaf.</summary>
    public static KindModel? Kind => KindTrees.Value;

    private static KindModel? LoadKind(string name)
    {
        string file = Path.Combine(Folder, name);
        try
        {
            return File.Exists(file) ? KindModel.Load(file) : null;
        }
        catch (Exception problem) when (problem is InvalidDataException or IOException or UnauthorizedAccessException or DllNotFoundException or TypeInitializationException)
        {
            return null;
        }
    }

    /// <summary>The speck judge, or null when its file is missing.</summary>
    public static SpeckJudge? SpeckJudge => Judge.Value;

    private static SpeckJudge? LoadJudge()
    {
        string file = Path.Combine(Folder, JudgeName);
        return File.Exists(file) ? Specks.Judge.SpeckJudge.Load(file) : null;
    }

    private static Network? Load(string name)
    {
        string file = Path.Combine(Folder, name);
        return File.Exists(file) ? Network.Load(file, Threads) : null;
    }
}
