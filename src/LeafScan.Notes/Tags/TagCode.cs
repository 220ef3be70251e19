using LeafScan.Frame.Tags;
using LeafScan.Notes.Paper;
using QRCoder;

namespace LeafScan.Notes.Tags;

/// <summary>
/// The QR code of a tag (ISO/IEC 18004, error correction level Q: up to a quarter of the code words may be lost) as squares.
/// </summary>
internal static class TagCode
{
    /// <summary>White squares that the standard asks for on each side.</summary>
    public const int QuietModules = 4;

    /// <summary>Side of one square in mm; 0 when no QR code holds the text.</summary>
    public static double ModuleMm(PlantTag tag)
    {
        try
        {
            return TagLayout.CodeSideMm / Black(tag).GetLength(0);
        }
        catch (QRCoder.Exceptions.DataTooLongException)
        {
            return 0;
        }
    }

    /// <summary>The code drawn, without the white about it.</summary>
    public static FilledBoxes Draw(PlantTag tag, double leftMm, double topMm)
    {
        bool[,] black = Black(tag);
        return BlackSquares.Of(black, leftMm, topMm, TagLayout.CodeSideMm / black.GetLength(0));
    }

    private static bool[,] Black(PlantTag tag)
    {
        string text = new TagText(tag.Code, TagLayout.CodeSideMm).Write();

        // Letters beyond ASCII are marked as UTF-8 in the code itself; without the mark a reader guesses.
        bool plain = text.All(char.IsAscii);
        QRCodeData Make(int version) => QRCodeGenerator.GenerateQrCode(
            text, QRCodeGenerator.ECCLevel.Q, forceUtf8: !plain, utf8BOM: false, plain ? QRCodeGenerator.EciMode.Default : QRCodeGenerator.EciMode.Utf8, version);

        // A code of version 1 has no alignment square, and without it readers lose the fourth corner when the tag is seen from the side.
        using QRCodeData least = Make(-1);
        using QRCodeData code = least.Version > 1 ? Make(-1) : Make(2);
        int side = code.ModuleMatrix.Count - (2 * QuietModules);
        bool[,] black = new bool[side, side];
        for (int row = 0; row < side; row++)
        {
            for (int column = 0; column < side; column++)
            {
                black[row, column] = code.ModuleMatrix[row + QuietModules][column + QuietModules];
            }
        }

        return black;
    }
}
