using System.Text;

namespace LeafScan.Notes.Client;

/// <summary>A note as Markdown (CommonMark), without its picture.</summary>
public static class NoteMarkdown
{
    /// <summary>Writes it.</summary>
    /// <param name="content">The note.</param>
    public static string Of(NoteContent content)
    {
        StringBuilder text = new();
        Line(text, $"# {Safe(content.Heading)}");
        Line(text, string.Join("\\\n", content.Under.Append($"{content.Words.Title}, {content.Forms.Day(content.Day)}").Select(Safe)));
        if (content.Client is { } client)
        {
            Line(text, Safe($"{content.Words.For} {client}"));
        }

        Paragraphs(text, content.Greeting);
        if (content.Now is { } now)
        {
            Line(text, $"**{NoteForms.Percent(now.Damage)} of the {NoteThing.Of(now.Kind).Area} shows damage**, very likely between {NoteForms.Range(now.Interval)}.{(NoteSentences.Chewed(now) is { } chewed ? " " + chewed : "")}");
            Line(text, content.Before is { } before
                ? Safe($"{content.Words.LastTime}, {content.Forms.Day(before.Day)}: {NoteForms.Percent(before.Damage)}, between {NoteForms.Range(before.Interval)}. {content.Change}")
                : "There is no earlier visit to lay beside it.");
        }

        Heading(text, content.Words.Seen);
        content.Seen.ToList().ForEach(paragraph => Line(text, Safe(paragraph)));
        if (content.Verdict is { } verdict)
        {
            Heading(text, content.Words.Care);
            Line(text, $"**{Safe(verdict)}** {Safe(string.Join(" ", content.Because))}");
        }

        Plants(text, content);
        List(text, content.Words.Done, content.Done);
        List(text, content.Words.Next, content.Next);
        List(text, content.Words.Cautions, content.Cautions);
        Paragraphs(text, content.Closing);
        if (content.By is { } by)
        {
            Line(text, Safe($"{content.Words.By} {by}{(content.Contact is { } contact ? $", {contact}" : "")}"));
        }

        Line(text, "---");
        Line(text, Safe($"{content.Words.Measured}: {content.Measured}"));
        Line(text, Safe($"{content.Words.Limits}: {content.Limits}"));
        return text.ToString().TrimEnd('\n') + "\n";
    }

    private static void Plants(StringBuilder text, NoteContent content)
    {
        if (content.Plants.Count == 0)
        {
            return;
        }

        Heading(text, content.Words.Plants);
        text.Append($"| Plant | | Damaged | {Safe(content.Words.LastTime)} | | {Safe(content.Words.Done)} |\n| --- | --- | --- | --- | --- | --- |\n");
        foreach (NotePlant plant in content.Plants)
        {
            text.Append($"| {Safe(plant.Code)} | {Safe(plant.Name ?? "")} | {Figure(plant.Now, content)} | {Figure(plant.Before, content)} | {plant.Word} | {Safe(plant.Done)} |\n");
        }

        text.Append('\n');
    }

    private static string Figure(NoteFigure? figure, NoteContent content) => figure is null ? "-" : $"{NoteForms.Percent(figure.Damage)} ({content.Forms.Day(figure.Day)})";

    private static void List(StringBuilder text, string heading, IReadOnlyList<string> lines)
    {
        if (lines.Count > 0)
        {
            Heading(text, heading);
            Line(text, string.Join('\n', lines.Select(line => "- " + Safe(line))));
        }
    }

    private static void Heading(StringBuilder text, string words) => Line(text, "## " + Safe(words));

    private static void Paragraphs(StringBuilder text, string? words)
    {
        foreach (string paragraph in words?.Split('\n', StringSplitOptions.RemoveEmptyEntries) ?? [])
        {
            Line(text, Safe(paragraph));
        }
    }

    private static void Line(StringBuilder text, string words) => text.Append(words).Append("\n\n");

    // Signs with a meaning in Markdown lose it (CommonMark 2.4, backslash escapes).
    private static string Safe(string words)
    {
        StringBuilder safe = new(words.Length);
        foreach (char letter in words)
        {
            if ("\\`*_{}[]<>#|~!&".Contains(letter, StringComparison.Ordinal))
            {
                safe.Append('\\');
            }

            safe.Append(letter is '\n' or '\r' ? ' ' : letter);
        }

        return safe.ToString();
    }
}
