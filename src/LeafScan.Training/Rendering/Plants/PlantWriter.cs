using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using LeafScan.Photos.Pictures;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>Writes a rendered plant: NAME.jpg, NAME.truth.png (mask codes), NAME.full.png (foliage before anything fell) and NAME.truth.json, in the form of the leaf scenes and with kind "plant".</summary>
public static class PlantWriter
{
    private static readonly JsonSerializerOptions Readable = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>Writes the four files.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="folder">Folder to write to; made when missing.</param>
    public static void Write(RenderedPlant plant, string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, plant.Spec.Name);
        File.WriteAllBytes(path + ".jpg", plant.Jpeg.Span);
        PictureWriter.WritePng(plant.Mask, path + ".truth.png");
        PictureWriter.WritePng(plant.Full, path + ".full.png");
        File.WriteAllText(path + ".truth.json", Json(plant).ToJsonString());
    }

    /// <summary>The truth as it is written.</summary>
    public static JsonObject Json(RenderedPlant plant)
    {
        PlantTruth truth = plant.Truth;
        return new JsonObject
        {
            ["mode"] = JsonNamingPolicy.CamelCase.ConvertName(plant.Spec.Place.Backdrop.ToString()),
            ["kind"] = "plant",
            ["difficulty"] = plant.Spec.Difficulty,
            ["seed"] = plant.Spec.Seed,
            ["host"] = plant.Spec.Host,
            ["leafAreaPx"] = truth.FoliagePx,
            ["shares"] = new JsonObject { ["stippled"] = 0.0, ["yellowed"] = truth.Shares.Yellowed, ["browned"] = truth.Shares.Browned, ["chewed"] = 0.0 },
            ["thinned"] = truth.Thinned,
            ["fallColour"] = truth.Fall,
            ["newGrowth"] = truth.Fresh,
            ["worseSide"] = truth.WorseSide,
            ["sectors"] = JsonSerializer.SerializeToNode(truth.Sectors, Readable),
            ["speckCount"] = 0,
            ["specks"] = new JsonArray(),
            ["scene"] = JsonSerializer.SerializeToNode(plant.Spec, Readable),
        };
    }
}
