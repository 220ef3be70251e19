namespace LeafScan.Trends.Verdicts;

/// <summary>
/// Is the care working? Damage does not heal, so a falling average counts for nothing. What counts: new damage on the same leaves,
/// live mites on the tap sheet, and both against untreated plants. The rules stand in words in docs/method.md, with how often they
/// are right on simulated seasons.
/// </summary>
public static class CareVerdict
{
    /// <summary>Judges one plant.</summary>
    /// <param name="plant">What is known of it.</param>
    /// <param name="options">Limits; null for the defaults.</param>
    /// <exception cref="ArgumentException">An option is out of range.</exception>
    public static Verdict Judge(PlantHistory plant, VerdictOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(plant);
        Verdict verdict = OfLeaves(plant, options);
        return plant.Kind == "leaf" ? verdict : verdict with
        {
            Because = [.. verdict.Because.Select(sentence => KindSentences.Of(plant.Kind, sentence))],
            Next = KindSentences.Of(plant.Kind, verdict.Next),
            Rivals = [.. verdict.Rivals.Select(rival => rival with { Sentence = KindSentences.Of(plant.Kind, rival.Sentence) })],
            Trend = verdict.Trend is { } trend ? trend with { Kind = plant.Kind } : null,
        };
    }

    // In the words of leaves.
    private static Verdict OfLeaves(PlantHistory plant, VerdictOptions? options)
    {
        options = (options ?? new VerdictOptions()).Checked();
        HistoryVisit[] visits = Visits.ByDay(plant.Visits);
        if (CareWindow.Of(plant.Care, options) is not { } window)
        {
            return UntreatedVerdict.Judge(plant, visits, options);
        }

        Evidence evidence = Evidence.Of(plant, visits, window, options);
        IReadOnlyList<Rival> rivals = Rivals.Beside(plant, visits, window, evidence, options);
        Record record = Record.Of(plant, visits, window, options);
        VerdictWord word = WordOf(plant, window, evidence, rivals, record, options);
        return new Verdict
        {
            Word = word,
            Because = Reasons.For(word, plant, visits, window, evidence, rivals, record, options),
            Next = NextStep.For(word, plant, window, evidence, record, options),
            Rivals = rivals,
            Figures = FigureMaker.Of(plant, visits, window, evidence, options),
            CareSince = window.FirstCare,
            Trend = DamageTrend.Of(visits),
        };
    }

    private static VerdictWord WordOf(PlantHistory plant, CareWindow window, Evidence evidence, IReadOnlyList<Rival> rivals, Record record, VerdictOptions options)
    {
        if (record.LastDaySince is null || record.DaysSince < options.DaysLeast)
        {
            return VerdictWord.TooEarly;
        }

        // Without an untreated plant nothing but the calendar and the weather speaks against a crash that the care had no part in.
        bool isAlone = plant.CheckPlants.Count == 0 || (evidence.CheckTaps is null && evidence.CheckLeaves.Count == 0);
        bool mayStandAlone = HasVisits(record, options);
        bool beats = evidence.TapsBeatChecks || evidence.LeavesBeatChecks
            || (isAlone && evidence.LessAlone(options) && (StandsAlone(record, rivals, options) || StoodAloneBefore(plant, window, options)));
        bool equals = evidence.TapsAsChecks || evidence.LeavesAsChecks;
        bool grows = (mayStandAlone || !isAlone) && (evidence.MoreMites || (evidence.LeavesGainMore && !evidence.HardlyAnyMites));
        if (beats && equals)
        {
            return VerdictWord.CannotTell;
        }

        if (grows || equals)
        {
            return beats && isAlone ? VerdictWord.CannotTell : VerdictWord.NotWorking;
        }

        if (beats)
        {
            return VerdictWord.Working;
        }

        bool couldBeKnown = record.BeforeCount > 0 && record.SinceCount < 2 && record.DaysSince <= options.DaysJudged;
        return couldBeKnown ? VerdictWord.TooEarly : VerdictWord.CannotTell;
    }

    private static bool HasVisits(Record record, VerdictOptions options) => record.VisitCount >= options.VisitsLeastAlone && record.SinceCount >= 2;

    private static bool StandsAlone(Record record, IReadOnlyList<Rival> rivals, VerdictOptions options)
        => HasVisits(record, options) && !rivals.Any(rival => Rivals.ExplainsFewer(rival.Kind));

    // What was clear before the season in which mites stop by themselves stays clear in it.
    private static bool StoodAloneBefore(PlantHistory plant, CareWindow window, VerdictOptions options)
    {
        if (QuietSeason.Begins(plant.Calendar, window.FirstCare, window.Until) is not { } quiet || quiet.DayNumber - window.FirstCare.DayNumber < options.DaysLeast)
        {
            return false;
        }

        PlantHistory until = plant with { Taps = [.. plant.Taps.Where(tap => tap.Day < quiet)], Weather = [.. plant.Weather.Where(day => day.Day < quiet)] };
        HistoryVisit[] visits = Visits.ByDay(plant.Visits.Where(visit => visit.Day < quiet));
        Evidence evidence = Evidence.Of(until, visits, window, options);
        return evidence.LessAlone(options) && StandsAlone(Record.Of(until, visits, window, options), Rivals.Beside(until, visits, window, evidence, options), options);
    }
}
