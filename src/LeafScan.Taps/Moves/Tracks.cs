namespace LeafScan.Taps.Moves;

/// <summary>One thing followed through all photos.</summary>
/// <param name="Shot">Number of the photo it was first seen in.</param>
/// <param name="Spot">Its number there.</param>
internal sealed record Track(int Shot, int Spot)
{
    /// <summary>The worthiest thing it did between any two photos.</summary>
    public LinkKind Did { get; set; } = LinkKind.Still;

    /// <summary>True when at least one link was found.</summary>
    public bool Linked { get; set; }

    /// <summary>Longest way between two photos, pixels of the first photo.</summary>
    public double MovedPx { get; set; }

    /// <summary>Last photo and spot in which it was seen; null when only in the first.</summary>
    public (int Shot, int Spot)? Last { get; set; }

    /// <summary>Photo and spot that the longest way led to; null when it lay still.</summary>
    public (int Shot, int Spot)? To { get; set; }

    /// <summary>Photo and spot that the longest way started from.</summary>
    public (int Shot, int Spot)? From { get; set; }
}

/// <summary>
/// Joins the moves between following photos: a mite that rests first and walks later, or walks twice, is one mite.
/// </summary>
internal static class Tracks
{
    /// <summary>Joins.</summary>
    /// <param name="spotCounts">Spots of each photo.</param>
    /// <param name="moves">Moves between each photo and the next.</param>
    /// <param name="toFirst">Pixels of the first photo per pixel of each photo.</param>
    public static List<Track> Join(IReadOnlyList<int> spotCounts, IReadOnlyList<ShotMoves> moves, IReadOnlyList<double> toFirst)
    {
        List<Track> all = [];
        Track?[] now = Start(0, spotCounts[0], all);
        for (int i = 0; i < moves.Count; i++)
        {
            Track?[] next = new Track?[spotCounts[i + 1]];
            foreach (Link link in moves[i].Links)
            {
                Track track = now[link.A]!;
                track.Linked = true;
                if (link.Kind != LinkKind.Still && (link.MovedPx * toFirst[i]) > track.MovedPx)
                {
                    track.MovedPx = link.MovedPx * toFirst[i];
                    track.From = (i, link.A);
                    track.To = (i + 1, link.B);
                }

                track.Did = Worthier(track.Did, link.Kind);
                if (link.B >= 0)
                {
                    next[link.B] = track;
                    track.Last = (i + 1, link.B);
                }
            }

            foreach (int come in moves[i].Come)
            {
                Track track = new(i + 1, come);
                all.Add(track);
                next[come] = track;
            }

            // The rest is faint debris that was missed once; it starts anew but counts only when it moves later.
            for (int b = 0; b < next.Length; b++)
            {
                next[b] ??= new Track(i + 1, b);
            }

            if (i + 1 < moves.Count)
            {
                all.AddRange(next.OfType<Track>().Where(t => t.Shot == i + 1 && !moves[i].Come.Contains(t.Spot) && moves[i + 1].Links.Any(l => l.A == t.Spot && l.Kind != LinkKind.Still)));
            }

            now = next;
        }

        return all;
    }

    private static Track?[] Start(int shot, int count, List<Track> all)
    {
        Track?[] tracks = [.. Enumerable.Range(0, count).Select(spot => new Track(shot, spot))];
        all.AddRange(tracks.OfType<Track>());
        return tracks;
    }

    // What ran once is fast, what crawled once is alive, what was blown once is dust that the wind took.
    private static LinkKind Worthier(LinkKind a, LinkKind b) => Rank(a) >= Rank(b) ? a : b;

    private static int Rank(LinkKind kind) => kind switch { LinkKind.Ran => 3, LinkKind.Crawled => 2, LinkKind.Blown => 1, _ => 0 };
}
