using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;

namespace LeafScan.Page.Tests.Support;

/// <summary>Two photos of a rendered tap sheet on which is known what crawls, written where a browser can take them.</summary>
internal sealed class SampleTap : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafscan-tap-");

    /// <summary>Renders the pair.</summary>
    /// <param name="seed">Of the scene.</param>
    /// <param name="longSidePx">Long side of the photos.</param>
    public SampleTap(int seed = 12, int longSidePx = 1600)
    {
        RenderedTap tap = TapRenderer.Render(TapChooser.Choose(seed, Difficulty.Easy, longSidePx));
        (First, Second) = (Path.Combine(_folder.FullName, "a.jpg"), Path.Combine(_folder.FullName, "b.jpg"));
        File.WriteAllBytes(First, tap.First.Span);
        File.WriteAllBytes(Second, tap.Second.Span);
        Crawling = TapWriter.Json(tap.Spec)["crawling"]!.GetValue<int>();
    }

    public string First { get; }

    public string Second { get; }

    /// <summary>Mites that moved and are whole on both photos, by the renderer.</summary>
    public int Crawling { get; }

    public void Dispose() => _folder.Delete(recursive: true);
}
