namespace LeafScan.Notes.Letters;

/// <summary>One line of text ready to be drawn.</summary>
/// <param name="Pieces">Pieces of one font each, from the left.</param>
/// <param name="WidthMm">Width of all of them.</param>
/// <param name="FromRight">Whether its paragraph is read from right to left.</param>
public sealed record SetLine(IReadOnlyList<SetPiece> Pieces, double WidthMm, bool FromRight);

/// <summary>Letters of one font in the order in which they stand on paper.</summary>
/// <param name="Words">The letters.</param>
/// <param name="Family">Family of the font.</param>
/// <param name="LeftMm">Left end, from the left end of the line.</param>
public sealed record SetPiece(string Words, string Family, double LeftMm);
