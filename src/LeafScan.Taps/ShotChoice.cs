using LeafScan.Taps.Lining;

namespace LeafScan.Taps;

/// <summary>
/// Of three and more photos, one that is no use (shaken too much, another sheet, sent twice) must not spoil the others:
/// the longest row of photos that can be read together is taken, the rest is named.
/// </summary>
/// <param name="Shots">Numbers of the photos to read, in their order.</param>
/// <param name="LeftOut">The others, each with its reason.</param>
internal sealed record ShotChoice(IReadOnlyList<int> Shots, IReadOnlyList<TapLeftOut> LeftOut)
{
    /// <summary>Chooses.</summary>
    /// <param name="shots">All photos.</param>
    /// <param name="fault">What is wrong with one photo by itself; null when nothing is.</param>
    /// <param name="linedUp">Lines up two photos by their numbers; null when that fails.</param>
    public static ShotChoice Of(IReadOnlyList<TapShot> shots, Func<int, TapRefusal?> fault, Func<int, int, Alignment?> linedUp)
    {
        List<TapLeftOut> faulty = [];
        List<int> sound = [];
        for (int i = 0; i < shots.Count; i++)
        {
            TapRefusal? why = sound.Exists(other => shots[other].Sha256 == shots[i].Sha256)
                ? new TapRefusal($"{shots[i].FileName} was named twice; it is read once.", "Nothing to do, or name the photo that was meant.")
                : fault(i);
            if (why is null)
            {
                sound.Add(i);
            }
            else
            {
                faulty.Add(new TapLeftOut(i, why));
            }
        }

        List<int> best = [];
        for (int start = 0; start < sound.Count && sound.Count - start > best.Count; start++)
        {
            List<int> row = [sound[start]];
            foreach (int next in sound.Skip(start + 1))
            {
                if (linedUp(row[^1], next) is not null)
                {
                    row.Add(next);
                }
            }

            best = row.Count > best.Count ? row : best;
        }

        return new ShotChoice(best,
        [
            .. faulty.Concat(sound.Except(best).Select(i => new TapLeftOut(i, new TapRefusal(
                $"{shots[i].FileName} could not be lined up with the other photos, so it was left out.", "Take all photos of the same sheet from nearly the same place without touching it."))))
                .OrderBy(one => one.Number),
        ]);
    }
}
