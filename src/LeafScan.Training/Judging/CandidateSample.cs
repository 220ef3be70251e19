using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Judging;

/// <summary>The candidates of one photo beside its true specks.</summary>
/// <param name="Key">The photo.</param>
/// <param name="Set">The folder it came from.</param>
/// <param name="Group">Photos of one leaf share it: they never stand on both sides of a split.</param>
/// <param name="Truth">True specks, photo pixels.</param>
/// <param name="Marks">Candidates, photo pixels.</param>
/// <param name="Features">For each candidate the values that the judge is told.</param>
/// <param name="Labels">For each candidate whether it is a true speck.</param>
/// <param name="Before">For each candidate whether it counts as a speck without the judge.</param>
internal sealed record CandidateSample(
    string Key,
    string Set,
    string Group,
    IReadOnlyList<Speck> Truth,
    IReadOnlyList<SpeckMark> Marks,
    IReadOnlyList<float[]> Features,
    bool[] Labels,
    bool[] Before);
