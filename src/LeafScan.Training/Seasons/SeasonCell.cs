using LeafScan.Trends.Verdicts;

namespace LeafScan.Training.Seasons;

/// <summary>How often the verdict was right in one design and one truth.</summary>
/// <param name="Seasons">Seasons with this truth.</param>
/// <param name="Right">Said the right word.</param>
/// <param name="Wrong">Said the plainly wrong word.</param>
/// <param name="RightlyQuiet">Said "too early" or "cannot tell" where the same rules with nothing but truth on record find no right word either.</param>
/// <param name="NeedlesslyQuiet">Said so where a perfect record would have shown it: for want of leaves, taps, check plants or steady photos.</param>
/// <param name="SaidWorking">Said "working".</param>
/// <param name="SaidNotWorking">Said "not working".</param>
public sealed record SeasonCell(int Seasons, int Right, int Wrong, int RightlyQuiet, int NeedlesslyQuiet, int SaidWorking, int SaidNotWorking)
{
    /// <summary>Share that was plainly wrong, 0..1; 0 without seasons.</summary>
    public double WrongShare => Seasons == 0 ? 0 : (double)Wrong / Seasons;

    /// <summary>Counts trials.</summary>
    public static SeasonCell Of(IEnumerable<SeasonTrial> trials)
    {
        SeasonTrial[] all = [.. trials];
        SeasonTrial[] quiet = [.. all.Where(trial => trial.Word is VerdictWord.TooEarly or VerdictWord.CannotTell)];
        int needless = quiet.Count(trial => trial.Right is { } right && trial.PerfectWord == right);
        return new SeasonCell(
            all.Length, all.Count(trial => trial.Word == trial.Right), all.Count(trial => trial.Word == trial.Wrong), quiet.Length - needless, needless,
            all.Count(trial => trial.Word == VerdictWord.Working), all.Count(trial => trial.Word == VerdictWord.NotWorking));
    }
}
