using System.Text.Json;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Truth;

namespace LeafScan.Training.Bench;

/// <summary>What NAME.truth.json says, as far as the bench uses it.</summary>
/// <param name="Shares">Shares of the whole leaf.</param>
/// <param name="Specks">The specks.</param>
/// <param name="Background">Word for the background: sheet, soil ...</param>
/// <param name="Difficulty">easy, medium, hard, demo; "implant" when the file does not say.</param>
/// <param name="Leaves">Number of leaves.</param>
internal sealed record TruthFile(TrueShares Shares, IReadOnlyList<Speck> Specks, string Background, string Difficulty, int Leaves)
{
    public static TruthFile Read(string path)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(path));
        JsonElement root = document.RootElement;
        JsonElement shares = root.GetProperty("shares");
        List<Speck> specks = [];
        foreach (JsonElement speck in root.GetProperty("specks").EnumerateArray())
        {
            specks.Add(new Speck(speck[0].GetDouble(), speck[1].GetDouble(), speck[2].GetDouble(), speck[3].GetDouble()));
        }

        return new TruthFile(
            new TrueShares(Share("stippled"), Share("yellowed"), Share("browned"), Share("chewed")),
            specks,
            root.GetProperty("mode").GetString() ?? "unknown",
            root.TryGetProperty("difficulty", out JsonElement level) ? level.GetString()! : "implant",
            root.TryGetProperty("perLeaf", out JsonElement leaves) ? leaves.GetArrayLength() : 1);

        double Share(string name) => shares.GetProperty(name).GetDouble();
    }
}
