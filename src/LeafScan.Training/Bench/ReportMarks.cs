namespace LeafScan.Training.Bench;

/// <summary>Two lines of a Markdown file between which a command writes; all other text of the file stays as it is.</summary>
/// <param name="Start">Line before.</param>
/// <param name="End">Line after.</param>
public sealed record ReportMarks(string Start, string End)
{
    /// <summary>What bench writes.</summary>
    public static ReportMarks Figures { get; } = new("<!-- figures: written by leafscan-training bench, do not edit -->", "<!-- end of figures -->");

    /// <summary>What ablation writes.</summary>
    public static ReportMarks Ablation { get; } = new("<!-- ablation: written by leafscan-training ablation, do not edit -->", "<!-- end of ablation -->");

    /// <summary>What repeat writes.</summary>
    public static ReportMarks Repeat { get; } = new("<!-- repeat: written by leafscan-training repeat, do not edit -->", "<!-- end of repeat -->");

    /// <summary>Puts tables between the marks; at the end of the text when it has none yet.</summary>
    /// <param name="text">The whole file.</param>
    /// <param name="tables">What to write.</param>
    public string Into(string text, string tables)
    {
        int start = text.IndexOf(Start, StringComparison.Ordinal);
        int end = text.IndexOf(End, StringComparison.Ordinal);
        string block = Start + "\n\n" + tables + "\n" + End;
        return start >= 0 && end > start
            ? text[..start] + block + text[(end + End.Length)..]
            : (text.Length == 0 ? "" : text.TrimEnd() + "\n\n") + block + "\n";
    }
}
