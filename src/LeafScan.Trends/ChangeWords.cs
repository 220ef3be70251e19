using System.Globalization;
using LeafScan.Trends.Statistics;

namespace LeafScan.Trends;

/// <summary>Turns the figures of a comparison into a word, its reason and its caution.</summary>
internal static class ChangeWords
{
    public static (ChangeWord Word, string Because) Judge(
        Month from, Month to, LeafFigures earlier, LeafFigures later, double? difference, Interval? interval, TrendOptions options)
    {
        foreach ((Month month, LeafFigures figures) in new[] { (from, earlier), (to, later) })
        {
            if (figures.LeafCount < options.LeavesLeast)
            {
                return (ChangeWord.CannotTell, TooFew(month, figures, options.LeavesLeast));
            }
        }

        Interval sure = interval!.Value;
        string figuresText = Text(
            $"Mean damage went from {Percent(earlier.Damage!.Value)} ({earlier.LeafCount} leaves) to {Percent(later.Damage!.Value)} ({later.LeafCount} leaves): {Points(difference!.Value)}, and with {Percent(sure.Level, 0)} trust between {Points(sure.Low)} and {Points(sure.High)}.");
        return WordOf(sure, figuresText, " It may have risen or fallen; more leaves a walk narrow this down.", options);
    }

    /// <summary>The same leaves in both months.</summary>
    public static (ChangeWord Word, string Because) JudgeTagged(Month from, Month to, TaggedChange tagged, TrendOptions options)
    {
        Interval sure = tagged.Interval;
        string figuresText = Text(
            $"The same {tagged.LeafCount} tagged leaves changed by {Points(tagged.Difference)} of damage from {from} to {to}, and with {Percent(sure.Level, 0)} trust between {Points(sure.Low)} and {Points(sure.High)}.");
        return WordOf(sure, figuresText, " They may have gained damage or not; more tagged leaves narrow this down.", options);
    }

    private static (ChangeWord Word, string Because) WordOf(Interval sure, string figuresText, string open, TrendOptions options)
        => sure.Low >= -options.SameWithin && sure.High <= options.SameWithin
            ? (ChangeWord.Same, Text($"{figuresText} That is less than {Points(options.SameWithin, sign: false)} either way."))
            : sure.Low > 0 ? (ChangeWord.Worse, figuresText)
            : sure.High < 0 ? (ChangeWord.Better, figuresText)
            : (ChangeWord.CannotTell, figuresText + open);

    public static string Caution(ChangeWord word, bool isByTagged) => word switch
    {
        ChangeWord.Better when isByTagged => "These are the same leaves, and damage does not heal: a fall is the doing of light, camera or the part of the leaf in the photo.",
        ChangeWord.Worse when isByTagged => "Damage shows after the mites have fed: a rise does not show that they are still there. Tap before treating.",
        ChangeWord.Same when isByTagged => "No new damage on the same leaves fits mites that are gone as well as mites that moved on. New growth and a tap tell more.",
        ChangeWord.Better => "Damage does not heal: a fall comes from new leaves, from leaf drop or from other leaves in the photos. By itself it does not show that a treatment worked.",
        ChangeWord.Worse => "Damage shows after the mites have fed: a rise does not show that they are still there, and other leaves in the photos can make it too. Tap before treating.",
        ChangeWord.Same => "Damage does not heal: the same damage fits mites that are gone as well as leaves that came and went. New growth and a tap tell more.",
        _ => "No answer is not good news and not bad news.",
    };

    private static string TooFew(Month month, LeafFigures figures, int least)
    {
        string count = figures.LeafCount switch
        {
            0 => Text($"{month} has no leaf that counts"),
            1 => Text($"{month} has only 1 leaf that counts"),
            _ => Text($"{month} has only {figures.LeafCount} leaves that count"),
        };
        string leftOut = figures.LeafCountLeftOut == 0 ? "" : Text($" ({figures.LeafCountLeftOut} left out because they could not be judged)");
        return Text($"{count}{leftOut}; a comparison takes at least {least} in each month.");
    }

    private static string Percent(double share, int decimals = 1)
        => Rounded(share, decimals).ToString(decimals == 0 ? "F0" : "F1", CultureInfo.InvariantCulture) + " %";

    private static string Points(double share, bool sign = true)
    {
        double points = Rounded(share, 1);
        return (sign && points > 0 ? "+" : "") + points.ToString("F1", CultureInfo.InvariantCulture) + " points";
    }

    // Adding nought turns a rounded -0 into 0.
    private static double Rounded(double share, int decimals) => Math.Round(share * 100, decimals) + 0.0;

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
