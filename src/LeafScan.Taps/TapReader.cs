using System.Globalization;
using LeafScan.Frame;
using LeafScan.Photos;
using LeafScan.Taps.Lining;
using LeafScan.Taps.Moves;
using OpenCvSharp;

namespace LeafScan.Taps;

/// <summary>
/// The door of this project: photos of one white sheet, taken some seconds apart, in; how many specks crawled, out. What
/// the photos cannot show is refused or flagged. Look at each photo with <see cref="TapShot.Look"/> first; the photo
/// itself may then go.
/// </summary>
public static class TapReader
{
    // Less sheet than this is no tap sheet.
    private const double SheetShareMin = 0.15;
    private const double OverlapMin = 0.3;
    private const double OverlapGood = 0.75;
    private const int MostSpots = 12_000;

    /// <summary>Reads photos that are held already.</summary>
    /// <param name="photos">Upright photos of one sheet in the order they were taken; not changed.</param>
    /// <param name="options">Limits; null for the defaults.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static TapOutcome Read(IReadOnlyList<Photo> photos, TapOptions? options = null, CancellationToken cancel = default)
    {
        options ??= new TapOptions();
        List<TapShot> shots = [];
        try
        {
            foreach (Photo photo in photos)
            {
                cancel.ThrowIfCancellationRequested();
                shots.Add(TapShot.Look(photo, options, options.Sheets.ElementAtOrDefault(shots.Count)));
            }

            return Read(shots, options, cancel);
        }
        finally
        {
            shots.ForEach(shot => shot.Dispose());
        }
    }

    /// <summary>Reads photos that were looked at.</summary>
    /// <param name="shots">One or more, in the order they were taken.</param>
    /// <param name="options">Limits; null for the defaults.</param>
    /// <param name="cancel">Stops between pairs.</param>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static TapOutcome Read(IReadOnlyList<TapShot> shots, TapOptions? options = null, CancellationToken cancel = default)
    {
        if (shots.Count == 0)
        {
            throw new ArgumentException("At least one photo is needed.", nameof(shots));
        }

        options ??= new TapOptions();
        if (shots.Count > 2)
        {
            return ReadBurst(shots, options, cancel);
        }

        // A photo laid over itself would say, wrongly, that nothing crawls.
        if (shots.Count == 2 && shots[0].Sha256 == shots[1].Sha256)
        {
            return TapOutcome.Refused(
                $"{shots[0].FileName} and {shots[1].FileName} are the same photo, so nothing can have moved.", "Name two photos that were taken some seconds apart.");
        }

        return Enumerable.Range(0, shots.Count).Select(i => Fault(shots[i], options, i)).FirstOrDefault(fault => fault is not null) is { } why
            ? new TapOutcome(null, why)
            : ReadSound(shots, options, cancel);
    }

    private static TapOutcome ReadSound(IReadOnlyList<TapShot> shots, TapOptions options, CancellationToken cancel) =>
        shots.Count == 1 ? TapSummary.OfOne(shots[0], options) : ReadAll(shots, options, cancel);

    private static TapOutcome ReadBurst(IReadOnlyList<TapShot> shots, TapOptions options, CancellationToken cancel)
    {
        ShotChoice choice = ShotChoice.Of(shots, i => Fault(shots[i], options, i), (a, b) =>
        {
            cancel.ThrowIfCancellationRequested();
            return LineUp(shots[a], shots[b], Known(options, a, b));
        });
        if (choice.Shots.Count < 2)
        {
            TapRefusal why = choice.LeftOut[0].Why;
            return TapOutcome.Refused($"No two of the {shots.Count} photos can be read together. {why.Reason}", why.Advice);
        }

        int first = choice.Shots[0];
        TapOptions chosen = options with { Sheets = options.Sheets.Count == shots.Count ? [.. choice.Shots.Select(i => options.Sheets[i])] : [] };
        TapOutcome outcome = ReadSound([.. choice.Shots.Select(i => shots[i])], chosen, cancel);
        return outcome.Reading is { } reading
            ? outcome with { Reading = reading with { FirstPhoto = first }, LeftOut = choice.LeftOut }
            : outcome;
    }

    // What is wrong with one photo, whatever the others show.
    private static TapRefusal? Fault(TapShot shot, TapOptions options, int number)
    {
        if (shot.SheetShare < SheetShareMin)
        {
            return new TapRefusal(
                $"There is no white sheet to be seen in {shot.FileName}, or too little of it.",
                "Hold the phone so that the white sheet fills the frame and take both photos again.");
        }

        if (shot.Spots.Count > MostSpots)
        {
            return new TapRefusal(
                $"There are more than {MostSpots} specks in {shot.FileName}: that is no clean sheet.", "Use a plain white sheet and let loose dirt slide off before the first photo.");
        }

        // Without a scale a shaken photo is read: its smear is taken off, and nothing says how large a mite is in it.
        bool shaken = shot.Shake is not null && TapSummary.Scale(shot, options, number) is not null && Focus.HidesTooMany(shot, options, number);
        if (shaken || (shot.Shake is null && Focus.IsTooBlurred(shot, options, number)))
        {
            bool told = TapSummary.Scale(shot, options, number) is not null;
            return new TapRefusal(
                told
                    ? string.Create(CultureInfo.InvariantCulture, $"{shot.FileName} is too {(shaken ? "shaken" : "blurred")} to show a mite of {options.UsualMiteMm:0.0} mm.")
                    : $"{shot.FileName} is too blurred: without a scale nothing says whether mites still show in it.",
                shaken
                    ? "Hold the phone with both hands or rest it on something, use more light, and take both photos again."
                    : "Let the phone focus on the sheet, hold it steady or rest it on something, and take both photos again" + (told ? "." : "; the printed tap sheet brings a scale."));
        }

        return null;
    }

    private static Alignment? LineUp(TapShot first, TapShot second, PlaneMap? known) =>
        Alignment.Of(first.Spots, second.Spots, first.DiagonalPx, second.DiagonalPx / first.DiagonalPx, known);

    private static TapOutcome ReadAll(IReadOnlyList<TapShot> shots, TapOptions options, CancellationToken cancel)
    {
        List<ShotMoves> moves = [];
        List<PlaneMap> toFirst = [PlaneMap.Same];
        List<PlaneMap> maps = [];
        List<double> errors = [];
        double overlap = 1;
        bool copied = false;
        for (int i = 0; i + 1 < shots.Count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            TapShot first = shots[i];
            TapShot second = shots[i + 1];
            if (LineUp(first, second, Known(options, i, i + 1)) is not { } alignment)
            {
                return TapOutcome.Refused(
                    $"{first.FileName} and {second.FileName} could not be lined up: too little on the sheet is the same in both.",
                    "Take both photos of the same sheet from nearly the same place without touching it; a few pencil dots on a very clean sheet help.");
            }

            double seen = Overlap(first, second, alignment.Map);
            if (seen < OverlapMin)
            {
                return TapOutcome.Refused(
                    $"{first.FileName} and {second.FileName} show hardly the same part of the sheet.",
                    "Keep the whole sheet in the frame and take both photos again.");
            }

            copied |= Copies.Are(first.Map, second.Map, alignment.Map);
            overlap = Math.Min(overlap, seen);
            double error = double.IsFinite(alignment.ErrorPx) ? alignment.ErrorPx / alignment.Map.ScaleAt(first.WidthPx / 2.0, first.HeightPx / 2.0) : 2;
            errors.Add(error);
            maps.Add(alignment.Map);
            ShotPair pair = new(first, second, alignment);
            MoveLimits limits = MoveLimits.Of(options, error, TapSummary.SecondsLimit(shots, i, options), TapSummary.Scale(shots[i], options, i));
            moves.Add(MoveFinder.Find(pair, limits, options));
            toFirst.Add(toFirst[i].After(alignment.Map.Back()));
        }

        // Zero mites on record because a photo was saved twice would be a wrong all-clear.
        if (copied && shots.Count == 2 && !moves[0].Links.Any(link => link.Kind != LinkKind.Still))
        {
            return TapOutcome.Refused(
                $"{shots[0].FileName} and {shots[1].FileName} differ so little that one seems to be a copy of the other.",
                "Name two photos that were taken some seconds apart; if they were, move the phone a little between them.");
        }

        return TapSummary.Of(new TapEvidence(shots, moves, toFirst, maps, errors, overlap, overlap < OverlapGood, copied), options);
    }

    private static PlaneMap? Known(TapOptions options, int a, int b) =>
        options.Sheets.Count > b && !options.Sheets[a].ScaleOnly && !options.Sheets[b].ScaleOnly
            ? options.Sheets[b].ToMm.Back().After(options.Sheets[a].ToMm)
            : null;

    // Share of the first photo's judged paper that can be judged in the second as well.
    private static double Overlap(TapShot first, TapShot second, PlaneMap map)
    {
        int both = 0;
        int all = 0;
        for (int y = 8; y < first.HeightPx; y += 24)
        {
            for (int x = 8; x < first.WidthPx; x += 24)
            {
                if (first.Map.Sees(new Point2d(x, y)))
                {
                    all++;
                    both += second.Map.Sees(map.Map(x, y)) ? 1 : 0;
                }
            }
        }

        return all == 0 ? 0 : both / (double)all;
    }
}
