using System.Text;
using LeafScan.Records;
using LeafScan.Training.Rendering.Support;
using LeafScan.Walks;
using LeafScan.Walks.Blocks;
using LeafScan.Walks.Measuring;

namespace LeafScan.Training.Fuzz;

/// <summary>walk add and score: folders with names that nobody foresaw. The names of folders and files tell plants and leaves.</summary>
internal sealed class FolderTarget(string folder) : IFuzzTarget
{
    private const int MostBytesOfName = 255;

    private static readonly string[] Parts =
    [
        "R2", "P14", "r02p01", "row 2", "position 14", "B12", "leaf 3", "new", "old", "IMG_0001", "-", "_", " ", "  ", ".", "..", "...", "(2)", "R999-P9999", "R0-P0", "R99999999999P9", "ä", "茶", "\u202e", "\u200b",
        "\u0001", "\n", "\t", "\"", "'", "%", "$HOME", "~", "\\", "*", "?", ":", "=1+1", "@list", "ﬁ", "e\u0301", "\ud83c\udf3f", "CON", "null",
    ];

    private readonly FuzzFolder _walk = new(Path.Combine(folder, "walk"));

    public string Name => "names";

    public FuzzFile Next(Random random)
    {
        IEnumerable<string> names = Enumerable.Range(0, random.Next(1, 6)).Select(_ => string.Join('/', Enumerable.Range(0, random.Next(1, 4)).Select(_ => SomeName(random))) + random.Pick(["", ".jpg", ".JPG", ".heic", ".png"]));
        return new FuzzFile("names", Encoding.UTF8.GetBytes(string.Join('\0', names)), 0);
    }

    public FuzzResult Try(FuzzFile file)
    {
        string walk = _walk.Fresh();
        foreach (string name in Encoding.UTF8.GetString(file.Bytes).Split('\0'))
        {
            string path = Path.GetFullPath(Path.Combine(walk, name));
            if (path.StartsWith(walk + "/", StringComparison.Ordinal) && !File.Exists(path) && !Directory.Exists(path))
            {
                try
                {
                    Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                    File.WriteAllText(path, name);

                    // A file that was written a moment ago counts as still being copied and costs a second look.
                    File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddHours(-1));
                }
                catch (IOException)
                {
                    // No disk takes this name.
                }
            }
        }

        PhotoInputs inputs = PhotoInputs.ListAsync([walk], TimeProvider.System, CancellationToken.None).GetAwaiter().GetResult();
        WalkPlan plan = WalkPlan.Make(walk, inputs.Items, null, _ => null, TimeProvider.System, CancellationToken.None, RowPosition.Decide);
        bool told = plan.Files.All(one => one.Refusal is not null) && plan.Files.Select(one => one.Item.OutputName).Distinct(StringComparer.OrdinalIgnoreCase).Count() == plan.Files.Count;
        bool clean = plan.Files.All(one => one.Plant.Code is not { } code || NameText.Clean(code) == code);
        return new FuzzResult("listed", !told ? "a text file is taken for a photo, or two files share a name for masks" : !clean ? "a plant's code that no plant can have" : null);
    }

    private static string SomeName(Random random)
    {
        StringBuilder name = new();
        for (int i = random.Next(1, random.Hit(0.1) ? 80 : 6); i > 0; i--)
        {
            name.Append(random.Pick(Parts));
        }

        while (Encoding.UTF8.GetByteCount(name.ToString()) > MostBytesOfName - 5)
        {
            name.Length /= 2;
        }

        return name.ToString();
    }

    public void Dispose()
    {
    }
}
