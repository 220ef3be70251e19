using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using LeafScan.Photos.Pictures;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Rendering.Truth;

/// <summary>Writes a rendered scene: NAME.jpg, NAME.truth.png (mask codes) and NAME.truth.json (shares, specks, description).</summary>
public static class SceneWriter
{
    private static readonly JsonSerializerOptions Readable = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>Writes the three files.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="photoFolder">Folder of the photo; made when missing.</param>
    /// <param name="truthFolder">Folder of the truth; the photo's when null.</param>
    public static void Write(RenderedScene scene, string photoFolder, string? truthFolder = null)
    {
        truthFolder ??= photoFolder;
        Directory.CreateDirectory(photoFolder);
        Directory.CreateDirectory(truthFolder);
        string name = scene.Spec.Name;
        File.WriteAllBytes(Path.Combine(photoFolder, name + ".jpg"), scene.Jpeg.Span);
        PictureWriter.WritePng(scene.Mask, Path.Combine(truthFolder, name + ".truth.png"));
        File.WriteAllText(Path.Combine(truthFolder, name + ".truth.json"), Json(scene).ToJsonString());
    }

    /// <summary>The truth as it is written.</summary>
    public static JsonObject Json(RenderedScene scene)
    {
        JsonObject json = new()
        {
            ["mode"] = scene.Spec.Background.Kind.ToString().ToLowerInvariant(),
            ["difficulty"] = scene.Spec.Difficulty,
            ["seed"] = scene.Spec.Seed,
        };
        Add(json, scene.Truth.Total);
        if (scene.Truth.Leaves.Count > 1)
        {
            json["perLeaf"] = new JsonArray([.. scene.Truth.Leaves.Select(leaf =>
            {
                JsonObject one = new() { ["host"] = leaf.Host };
                Add(one, leaf);
                return one;
            })]);
        }

        json["scene"] = JsonSerializer.SerializeToNode(scene.Spec, Readable);
        return json;
    }

    private static void Add(JsonObject json, LeafTruth leaf)
    {
        json["leafAreaPx"] = leaf.LeafAreaPx;
        json["shares"] = new JsonObject
        {
            ["stippled"] = leaf.Shares.Stippled,
            ["yellowed"] = leaf.Shares.Yellowed,
            ["browned"] = leaf.Shares.Browned,
            ["chewed"] = leaf.Shares.Chewed,
        };
        json["speckCount"] = leaf.SpeckCount;
        json["specks"] = new JsonArray([.. leaf.Specks.Select(Row)]);
    }

    private static JsonArray Row(Speck speck) => [Math.Round(speck.X, 2), Math.Round(speck.Y, 2), Math.Round(speck.DiameterPx, 2), Math.Round(speck.Strength, 3)];
}
