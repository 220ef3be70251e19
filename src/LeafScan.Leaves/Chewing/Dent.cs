namespace LeafScan.Leaves.Chewing;

/// <summary>A dent of the margin, as places along the margin line.</summary>
/// <param name="Start">Index of its first end.</param>
/// <param name="End">Index of its last end, going on from <paramref name="Start"/>; may run past the line's end and wrap.</param>
/// <param name="MouthPx">Distance between both ends.</param>
/// <param name="DepthPx">Largest distance of the dent from the line between its ends.</param>
/// <param name="AreaPx">Area between the dent and the line between its ends.</param>
/// <param name="CornerDegrees">The smaller of the margin's turns at both ends.</param>
internal sealed record Dent(int Start, int End, double MouthPx, double DepthPx, double AreaPx, double CornerDegrees)
{
    /// <summary>Depth over mouth.</summary>
    public double DepthToMouth => DepthPx / MouthPx;

    /// <summary>
    /// Area over mouth times depth: about 0.8 for a round bite, 0.5 for the notch between straight-sided teeth, less for the
    /// gap between two leaflets.
    /// </summary>
    public double Fullness => AreaPx / (MouthPx * DepthPx);

    /// <summary>Whether both dents share a part of a margin of <paramref name="length"/> points.</summary>
    public bool Overlaps(Dent other, int length)
    {
        for (int turn = -1; turn <= 1; turn++)
        {
            if (Start < other.End + (turn * length) && other.Start + (turn * length) < End)
            {
                return true;
            }
        }

        return false;
    }
}
