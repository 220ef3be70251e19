namespace LeafScan.Taps;

/// <summary>What a person says of a speck.</summary>
public enum SpeckWord
{
    /// <summary>A plant-feeding mite.</summary>
    Mite,

    /// <summary>No mite.</summary>
    NotMite,

    /// <summary>A predator.</summary>
    Predator,
}

/// <summary>A person's word on one place of the first photo.</summary>
/// <param name="X">Pixels to the right.</param>
/// <param name="Y">Pixels down.</param>
/// <param name="Word">What is there.</param>
public sealed record SpeckSaying(double X, double Y, SpeckWord Word);

/// <summary>A speck with the last word on it.</summary>
/// <param name="Speck">The speck.</param>
/// <param name="Said">What a person says it is; null when nobody said anything.</param>
/// <param name="IsAdded">Whether the photos showed nothing there and a person did.</param>
public sealed record SaidSpeck(TapSpeck Speck, SpeckWord? Said, bool IsAdded)
{
    /// <summary>Whether it counts as a mite.</summary>
    public bool IsMite => Said is { } word ? word == SpeckWord.Mite : Speck.Fate == SpeckFate.Crawling;

    /// <summary>Whether it counts as a predator.</summary>
    public bool IsPredator => Said is { } word ? word == SpeckWord.Predator : Speck.Fate == SpeckFate.PossiblePredator;
}

/// <summary>Lays a person's words over the specks of a reading. A word is found again by its place, so it outlives a second reading of the same photos.</summary>
public static class SpeckSayings
{
    // Centres of the same speck in two readings lie much nearer; two specks do not touch at half of this.
    private const double ReachLeastPx = 6;

    private const double ReachDiameters = 1.5;

    /// <summary>The specks with the last word on each, those that a person added behind the others.</summary>
    /// <param name="specks">Specks of the reading.</param>
    /// <param name="sayings">Words, oldest first; the last on a speck counts.</param>
    public static IReadOnlyList<SaidSpeck> Lay(IReadOnlyList<TapSpeck> specks, IReadOnlyList<SpeckSaying> sayings)
    {
        List<SaidSpeck> said = [.. specks.Select(speck => new SaidSpeck(speck, null, false))];
        double usual = specks.Count == 0 ? ReachLeastPx : Median(specks);
        foreach (SpeckSaying saying in sayings)
        {
            int at = Nearest(said, saying);
            if (at >= 0)
            {
                said[at] = said[at] with { Said = saying.Word };
            }
            else
            {
                said.Add(new SaidSpeck(new TapSpeck(saying.X, saying.Y, usual, 0, SpeckFate.Candidate), saying.Word, true));
            }
        }

        return said;
    }

    private static int Nearest(List<SaidSpeck> said, SpeckSaying saying)
    {
        (int best, double least) = (-1, double.MaxValue);
        for (int i = 0; i < said.Count; i++)
        {
            TapSpeck speck = said[i].Speck;
            double away = Math.Sqrt(((speck.X - saying.X) * (speck.X - saying.X)) + ((speck.Y - saying.Y) * (speck.Y - saying.Y)));
            if (away <= Math.Max(ReachLeastPx, ReachDiameters * speck.DiameterPx) && away < least)
            {
                (best, least) = (i, away);
            }
        }

        return best;
    }

    private static double Median(IReadOnlyList<TapSpeck> specks)
    {
        double[] sizes = [.. specks.Select(speck => speck.DiameterPx).Order()];
        return sizes[sizes.Length / 2];
    }
}
