using LeafScan.Frame;
using LeafScan.Taps.Moves;

namespace LeafScan.Taps;

/// <summary>All that comparing the photos brought to light.</summary>
/// <param name="Shots">The photos.</param>
/// <param name="Moves">Moves between each photo and the next.</param>
/// <param name="ToFirst">From each photo's pixels to those of the first.</param>
/// <param name="Maps">From each photo's pixels to the next's.</param>
/// <param name="ErrorsPx">Error of lining up each photo and the next, pixels of the earlier.</param>
/// <param name="Overlap">Least share of the judged sheet that two following photos share, 0..1.</param>
/// <param name="Partly">True when that is too little for the whole sheet.</param>
/// <param name="Copied">True when a photo looks like a copy of the one before.</param>
internal sealed record TapEvidence(
    IReadOnlyList<TapShot> Shots, IReadOnlyList<ShotMoves> Moves, IReadOnlyList<PlaneMap> ToFirst, IReadOnlyList<PlaneMap> Maps, IReadOnlyList<double> ErrorsPx, double Overlap, bool Partly, bool Copied);
