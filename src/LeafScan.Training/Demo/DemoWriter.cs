using System.Text.Json;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Demo;

/// <summary>Writes sample-images: photos by walk and plant, truth beside them, the scenario and a readme.</summary>
public static class DemoWriter
{
    private static readonly JsonSerializerOptions Readable = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true };

    /// <summary>Writes all files.</summary>
    /// <param name="folder">Folder to write to; files of the same names are replaced.</param>
    /// <param name="said">Told each photo that was written.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static void Write(string folder, Action<string> said, CancellationToken cancel)
    {
        foreach (DemoPhoto photo in DemoStory.Photos())
        {
            cancel.ThrowIfCancellationRequested();
            using RenderedScene scene = SceneRenderer.Render(photo.Scene);
            SceneWriter.Write(
                scene,
                Path.Combine(folder, photo.WalkFolder, photo.PlantCode),
                Path.Combine(folder, "truth", photo.WalkFolder, photo.PlantCode));
            TrueShares shares = scene.Truth.Total.Shares;
            said(FormattableString.Invariant(
                $"{photo.WalkFolder}/{photo.PlantCode}/{photo.Scene.Name}: stippled {shares.Stippled:P1}, yellowed {shares.Yellowed:P1}, chewed {shares.Chewed:P1}, {scene.Truth.Total.SpeckCount} specks"));
        }

        File.WriteAllText(Path.Combine(folder, "scenario.json"), JsonSerializer.Serialize(DemoStory.Scenario, Readable) + "\n");
    }
}
