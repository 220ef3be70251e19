using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Paper;

/// <summary>The black squares of a marker or a QR code as one shape.</summary>
internal static class BlackSquares
{
    /// <summary>Draws them; squares side by side become one rectangle.</summary>
    /// <param name="black">True where it is black; row by row.</param>
    /// <param name="leftMm">Left edge of the first column.</param>
    /// <param name="topMm">Upper edge of the first row.</param>
    /// <param name="squareMm">Side of a square.</param>
    public static FilledBoxes Of(bool[,] black, double leftMm, double topMm, double squareMm)
    {
        List<SheetArea> areas = [];
        for (int row = 0; row < black.GetLength(0); row++)
        {
            for (int column = 0; column < black.GetLength(1); column++)
            {
                int from = column;
                while (column < black.GetLength(1) && black[row, column])
                {
                    column++;
                }

                if (column > from)
                {
                    areas.Add(new SheetArea(leftMm + (from * squareMm), topMm + (row * squareMm), (column - from) * squareMm, squareMm));
                }
            }
        }

        return new FilledBoxes(areas);
    }
}
