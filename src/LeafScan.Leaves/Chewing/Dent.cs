namespace LeafScan.Leaves.Chewing;

/// <summary>A dent of the margin, as places along the margin line.</summary>
/// <param name="Start">Index of its first end.</param>
/// <param name="End">Index of its last end, going on from <paramref name="Start"/>; may run past the line's end and wrap.</param>
/// <param name="MouthPx">Distance between both ends.</param>
/// <param name="DepthToMouth">Largest distance of the dent from the line between its ends, over the mouth.</param>
/// <param name="CornerDegrees">The smaller of the margin's turns at both ends.</param>
internal sealed record Dent(int Start, int End, double MouthPx, double DepthToMouth, double CornerDegrees);
