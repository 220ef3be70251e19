using System.Globalization;
using System.Text.RegularExpressions;
using LeafScan.Records;

namespace LeafScan.Walks.Blocks;

/// <summary>Where a plant stands in a block: its row and its place within the row, both counted from 1.</summary>
/// <param name="Row">Row, 1 to 999.</param>
/// <param name="Position">Place within the row, 1 to 9999.</param>
public sealed partial record RowPosition(int Row, int Position)
{
    /// <summary>Code of the plant that stands there: "R2-P14".</summary>
    public string Code => string.Create(CultureInfo.InvariantCulture, $"R{Row}-P{Position}");

    /// <summary>
    /// Reads row and position from folders and file name: "R2-P14.jpg", "r02p14 leaf 3.jpg", "R2/P14/IMG_1.jpg",
    /// "row 2/position 14/IMG_1.jpg". Zeros before a number do not matter. Null when they are not told.
    /// </summary>
    /// <param name="folder">Folder of the walk.</param>
    /// <param name="photoPath">Path of the photo, inside <paramref name="folder"/>.</param>
    public static RowPosition? OfPath(string folder, string photoPath)
    {
        string inside = Path.ChangeExtension(Path.GetRelativePath(folder, photoPath), null);
        return OfText(inside);
    }

    /// <summary>Reads row and position from a plant's code; null when it does not tell them.</summary>
    public static RowPosition? OfText(string text)
    {
        Match match = Both().Match(text);
        return match.Success
            && int.TryParse(match.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture, out int row)
            && int.TryParse(match.Groups[2].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture, out int position)
            && row > 0 && position > 0
                ? new RowPosition(row, position)
                : null;
    }

    /// <summary>
    /// Tells the plant of one photo of a block: by row and position where they are told, else as
    /// <see cref="PlantFromPath"/> does for any walk.
    /// </summary>
    public static PlantGuess Decide(string folder, string photoPath) => OfPath(folder, photoPath) is { } found
        ? new PlantGuess(found.Code, IsInFolder(folder, photoPath) ? PlantSource.ByFolder : PlantSource.ByFileName, $"Its name tells row {found.Row.ToString(CultureInfo.InvariantCulture)}, position {found.Position.ToString(CultureInfo.InvariantCulture)}.")
        : PlantFromPath.Decide(folder, photoPath);

    private static bool IsInFolder(string folder, string photoPath) =>
        OfText(Path.GetDirectoryName(Path.GetRelativePath(folder, photoPath)) ?? string.Empty) is not null;

    // At the start of a folder's or the file's name; a letter or digit right behind would make it another word.
    [GeneratedRegex(@"(?:^|[/\\])r(?:ow)?[ _]?(\d{1,3})[-_ /\\]{0,2}p(?:os(?:ition)?)?[ _]?(\d{1,4})(?![\p{L}\d])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Both();
}
