using BenchmarkDotNet.Attributes;
using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Chewing;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using LeafScan.Training.Rendering;

namespace LeafScan.StepBench;

/// <summary>The steps of a reading, each by itself, on a rendered leaf of twelve megapixels.</summary>
public class ReadingSteps
{
    private const int LongSidePx = 4000, Seed = 1;

    private readonly MeasureOptions _options = new();
    private string _file = string.Empty;
    private Photo _photo = null!;
    private FoundLeaf _leaf = null!;
    private LeafPatch _patch = null!;
    private Network _network = null!;
    private SpeckJudge? _judge;

    /// <summary>Renders the photo and does once what the steps start from.</summary>
    [GlobalSetup]
    public void Begin()
    {
        LearnedModels.ShareProcessors(1, Environment.ProcessorCount);
        _file = Path.Combine(Path.GetTempPath(), $"leafscan-stepbench-{Seed}.jpg");
        if (!File.Exists(_file))
        {
            using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(Seed, Difficulty.Easy, LongSidePx));
            File.WriteAllBytes(_file, scene.Jpeg.ToArray());
        }

        _photo = PhotoReader.Open(_file, new PhotoLimits()).Photo ?? throw new InvalidOperationException("The rendered photo cannot be read.");
        _leaf = OutlineFinder.Find(_photo.Pixels, _options.Outline, ModelFiles.Outline, CancellationToken.None).Leaves[0];
        _patch = LeafPatch.Cut(_photo.Pixels, _leaf, _options.Tissue.LongSidePx);
        _network = ModelFiles.Tissue ?? throw new InvalidOperationException("The network for tissue is missing.");
        _judge = ModelFiles.SpeckJudge;
    }

    /// <summary>File to upright pixels.</summary>
    [Benchmark]
    public void Decode() => PhotoReader.Open(_file, new PhotoLimits()).Dispose();

    /// <summary>File to a small copy, as for finding tags.</summary>
    [Benchmark]
    public void DecodeSmall() => PhotoPreview.At(_file, new PhotoLimits(), _options.Frame.SearchLongSidePx)?.Dispose();

    /// <summary>Scale sheet, tags, paper.</summary>
    [Benchmark]
    public object Frame() => FrameReader.Read(_photo.Pixels, _options.Frame);

    /// <summary>What the photo shows.</summary>
    [Benchmark]
    public object? Kind() => LearnedModels.KindOf(_photo.Pixels);

    /// <summary>The leaf's outline, with the network.</summary>
    [Benchmark]
    public void Outline()
    {
        foreach (FoundLeaf leaf in OutlineFinder.Find(_photo.Pixels, _options.Outline, ModelFiles.Outline, CancellationToken.None).Leaves)
        {
            leaf.Dispose();
        }
    }

    /// <summary>Tissue by the network, with specks and their judge.</summary>
    [Benchmark]
    public void TissueNetworkAndSpecks() => LearnedTissue.Read(_patch, _network, _judge, _options.Tissue).Dispose();

    /// <summary>Tissue and specks by colour alone.</summary>
    [Benchmark]
    public void SpecksByColour() => ColourTissue.Read(_patch, _options.Tissue).Dispose();

    /// <summary>What was eaten away.</summary>
    [Benchmark]
    public void Chewing() => ChewFinder.Find(_leaf.Mask, _options.Chewing).Dispose();

    /// <summary>All of it, from the file on.</summary>
    [Benchmark(Baseline = true)]
    public void Whole()
    {
        using PhotoOutcome outcome = PhotoReader.Open(_file, new PhotoLimits());
        LeafMeter.Measure(outcome.Photo!, _options).Dispose();
    }

    /// <summary>Gives the pixels back.</summary>
    [GlobalCleanup]
    public void End()
    {
        _patch.Dispose();
        _leaf.Dispose();
        _photo.Dispose();
    }
}
