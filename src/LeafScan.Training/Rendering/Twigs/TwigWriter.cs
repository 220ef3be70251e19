using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using LeafScan.Photos.Pictures;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Writes a rendered twig: NAME.jpg, NAME.truth.png (mask codes) and NAME.truth.json, in the form of the leaf scenes and with kind "twig".</summary>
public static class TwigWriter
{
    private static readonly JsonSerializerOptions Readable = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>Writes the three files.</summary>
    /// <param name="twig">The twig.</param>
    /// <param name="folder">Folder to write to; made when missing.</param>
    public static void Write(RenderedTwig twig, string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, twig.Spec.Name);
        File.WriteAllBytes(path + ".jpg", twig.Jpeg.Span);
        PictureWriter.WritePng(twig.Mask, path + ".truth.png");
        File.WriteAllText(path + ".truth.json", Json(twig).ToJsonString());
    }

    /// <summary>The truth as it is written.</summary>
    public static JsonObject Json(RenderedTwig twig)
    {
        TwigSpec spec = twig.Spec;
        TwigTruth truth = twig.Truth;
        return new JsonObject
        {
            ["mode"] = spec.Background.Kind.ToString().ToLowerInvariant(),
            ["kind"] = "twig",
            ["difficulty"] = spec.Difficulty,
            ["seed"] = spec.Seed,
            ["host"] = spec.Host,
            ["cause"] = Cause(spec.Damage),
            ["leafAreaPx"] = truth.Foliage.LeafAreaPx,
            ["shares"] = new JsonObject
            {
                ["stippled"] = truth.Foliage.Shares.Stippled,
                ["yellowed"] = truth.Foliage.Shares.Yellowed,
                ["browned"] = truth.Foliage.Shares.Browned,
                ["chewed"] = 0.0,
            },
            ["fallen"] = truth.Fallen,
            ["newGrowth"] = truth.Fresh,
            ["speckCount"] = truth.Foliage.SpeckCount,
            ["specks"] = new JsonArray([.. truth.Foliage.Specks.Select(s => (JsonNode)new JsonArray(Math.Round(s.X, 2), Math.Round(s.Y, 2), Math.Round(s.DiameterPx, 2), Math.Round(s.Strength, 3)))]),
            ["scene"] = JsonSerializer.SerializeToNode(spec, Readable),
        };
    }

    private static string Cause(TwigDamage damage) => damage switch
    {
        { SpecksPerMm: > 0 } => "mites",
        { YellowShare: 0, BrownShare: 0, LostShare: 0 } => "none",
        { Pattern: TwigPattern.Tips } => "tipBurn",
        { Pattern: TwigPattern.Bands } => "needleBands",
        _ => "mites",
    };
}
