using System.Text.Json;
using LeafScan.Training.Rendering.Twigs;

namespace LeafScan.Training.Bench.Foliage;

/// <summary>What NAME.truth.json says of a rendered twig or whole plant, as far as its check uses it.</summary>
/// <param name="Kind">twig or plant.</param>
/// <param name="Host">Kind of plant.</param>
/// <param name="Discoloured">Stippled, yellowed and browned share of the foliage, 0..1.</param>
/// <param name="Cause">What was painted on a twig: mites, tipBurn, needleBands, none; empty for a plant.</param>
/// <param name="Thinned">Missing share of a plant's foliage, 0..1.</param>
/// <param name="FallColour">Share of the foliage in fall colour, 0..1.</param>
/// <param name="NewGrowth">Share of the foliage that is fresh growth, 0..1.</param>
/// <param name="WorseSide">left, right or none; empty for a twig.</param>
/// <param name="Lost">Something has fallen from it.</param>
internal sealed record FoliageTruth(
    string Kind, string Host, double Discoloured, string Cause, double Thinned, double FallColour, double NewGrowth, string WorseSide, bool Lost)
{
    /// <summary>Specks per cm of needle that is seen: of foliage area over the mean width of such a needle; null for a plant, for awls and for scales.</summary>
    public double? SpecksPerCmOfNeedle { get; private init; }

    /// <summary>Pixels of the photo per mm; 0 for a plant.</summary>
    public double PixelsPerMm { get; private init; }

    /// <summary>Nothing was painted on it that mites could have made.</summary>
    public bool IsHarmless => Discoloured < 0.005 && Thinned < 0.005;

    // Mean over the length of TwigLeaf.HalfWidthAt of a needle.
    private const double MeanOfWidest = 0.908;

    /// <summary>Reads it.</summary>
    public static FoliageTruth Read(string path)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(path));
        JsonElement root = document.RootElement;
        JsonElement shares = root.GetProperty("shares");
        double hurt = Number(shares, "stippled") + Number(shares, "yellowed") + Number(shares, "browned");
        double perMm = root.GetProperty("scene").TryGetProperty("pixelsPerMm", out JsonElement scale) ? scale.GetDouble() : 0;
        return new FoliageTruth(
            root.GetProperty("kind").GetString()!, root.GetProperty("host").GetString()!, hurt, Word("cause"), Number(root, "thinned"), Number(root, "fallColour"),
            Number(root, "newGrowth"), Word("worseSide"), Number(root, "thinned") > 0 || Number(root, "fallen") > 0)
        {
            PixelsPerMm = perMm,
            SpecksPerCmOfNeedle = perMm > 0 && Conifers.Named(root.GetProperty("host").GetString()!) is { Foliage: FoliageKind.Needle } host
                ? Number(root, "speckCount") / (Number(root, "leafAreaPx") / (perMm * perMm) / (MeanOfWidest * host.LeafWidthMm) / 10) : null,
        };

        static double Number(JsonElement from, string name) => from.TryGetProperty(name, out JsonElement value) ? value.GetDouble() : 0;
        string Word(string name) => root.TryGetProperty(name, out JsonElement value) ? value.GetString() ?? "" : "";
    }
}
