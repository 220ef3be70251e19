using System.Globalization;
using System.Net;
using System.Text;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>
/// A note as one page for the browser: nothing is fetched from elsewhere, headings and lists are real ones, picture and chart
/// have their words (WCAG 2.2), and it prints on one sheet.
/// </summary>
public static class NoteHtml
{
    /// <summary>Writes it.</summary>
    /// <param name="content">The note.</param>
    /// <param name="paper">Paper it is printed on.</param>
    /// <param name="language">Language of its words as a BCP 47 tag.</param>
    public static string Of(NoteContent content, PaperSize paper, string language)
    {
        StringBuilder html = new();
        html.Append($"<!DOCTYPE html>\n<html lang=\"{Safe(language)}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append($"<title>{Safe(NotePages.TitleOf(content))}</title>\n<style>\n{NoteStyle.Css(paper)}</style>\n</head>\n<body>\n");
        Head(html, content);
        html.Append("<main>\n");
        Paragraphs(html, content.Greeting, "greeting");
        Seen(html, content);
        if (content.Verdict is { } verdict)
        {
            html.Append($"<section>\n<h2>{Safe(content.Words.Care)}</h2>\n<p class=\"lead\">{Safe(verdict)}</p>\n<p>{Safe(string.Join(" ", content.Because))}</p>\n</section>\n");
        }

        Chart(html, content);
        Plants(html, content);
        html.Append("<div class=\"two\">\n<div>\n");
        List(html, content.Words.Done, content.Done);
        List(html, content.Words.Cautions, content.Cautions);
        html.Append("</div>\n<div>\n");
        List(html, content.Words.Next, content.Next);
        html.Append("</div>\n</div>\n");
        Paragraphs(html, content.Closing, "closing");
        if (content.By is { } by)
        {
            html.Append($"<p class=\"by\"><strong>{Safe(content.Words.By)} <bdi>{Safe(by)}</bdi></strong>{(content.Contact is { } contact ? "<br>" + Safe(contact) : "")}</p>\n");
        }

        html.Append($"</main>\n<footer>\n<p><strong>{Safe(content.Words.Measured)}:</strong> {Safe(content.Measured)}</p>\n<p><strong>{Safe(content.Words.Limits)}:</strong> {Safe(content.Limits)}</p>\n</footer>\n</body>\n</html>\n");
        return html.ToString();
    }

    private static void Head(StringBuilder html, NoteContent content)
    {
        html.Append($"<header>\n<p class=\"kind\"><span>{Safe(content.Words.Title)}</span> <time datetime=\"{content.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}\">{Safe(content.Forms.Day(content.Day))}</time></p>\n");
        html.Append($"<h1 dir=\"auto\">{Safe(content.Heading)}</h1>\n");
        foreach (string line in content.Under)
        {
            html.Append($"<p class=\"under\" dir=\"auto\">{Safe(line)}</p>\n");
        }

        if (content.Client is { } client)
        {
            html.Append($"<p class=\"under\">{Safe(content.Words.For)} <bdi>{Safe(client)}</bdi></p>\n");
        }

        html.Append("</header>\n");
    }

    private static void Seen(StringBuilder html, NoteContent content)
    {
        html.Append(content.Picture is null ? "<div>\n" : "<div class=\"seen\">\n");
        if (content.Picture is { } picture)
        {
            html.Append($"<figure>\n<img width=\"{picture.WidthPx}\" height=\"{picture.HeightPx}\" alt=\"{Safe($"Photo of a leaf with what was found drawn over it. {picture.Caption}")}\" src=\"data:image/jpeg;base64,{Convert.ToBase64String(picture.Jpeg.Span)}\">\n<figcaption>{Safe(picture.Caption)}</figcaption>\n</figure>\n");
        }

        html.Append("<section>\n");
        if (content.Now is { } now)
        {
            html.Append($"<div class=\"figure\">\n<p class=\"number\">{Safe(NoteForms.Percent(now.Damage))}</p>\n<p><strong>of the {NoteThing.Of(now.Kind).Area} shows damage</strong><br>Very likely between {Safe(NoteForms.Range(now.Interval))}.{(NoteSentences.Chewed(now) is { } chewed ? "<br>" + Safe(chewed) : "")}</p>\n");
            html.Append(content.Before is { } before
                ? $"<p>{Safe($"{content.Words.LastTime}, {content.Forms.Day(before.Day)}: {NoteForms.Percent(before.Damage)}, between {NoteForms.Range(before.Interval)}.")}<br><span class=\"quiet\">{Safe(content.Change ?? "")}</span></p>\n</div>\n"
                : "<p class=\"quiet\">There is no earlier visit to lay beside it.</p>\n</div>\n");
        }

        html.Append($"<h2>{Safe(content.Words.Seen)}</h2>\n");
        foreach (string paragraph in content.Seen)
        {
            html.Append($"<p dir=\"auto\">{Safe(paragraph)}</p>\n");
        }

        html.Append(content.PictureMissing is { } missing ? $"<p class=\"quiet\">{Safe(missing)}</p>\n" : "").Append("</section>\n</div>\n");
    }

    private static void Chart(StringBuilder html, NoteContent content)
    {
        // Drawn twice, for a sheet and for a phone: shrunk to a phone's width the letters of the one could not be read. Only one is ever shown or spoken.
        if (content.Walks.Count > 1 && NoteChart.Page(content, 172, 40) is { } broad && NoteChart.Page(content, 84, 46) is { } narrow)
        {
            html.Append($"<section class=\"chart\">\n<h2>{Safe(content.Words.Chart)}</h2>\n<div class=\"broad\">{SvgPaper.Piece(broad)}</div>\n<div class=\"narrow\">{SvgPaper.Piece(narrow)}</div>\n");
            html.Append("<details>\n<summary>The same in words</summary>\n<ul>\n");
            foreach (NoteFigure walk in content.Walks)
            {
                html.Append($"<li>{Safe($"{content.Forms.Day(walk.Day)}: {NoteForms.Percent(walk.Damage)}, between {NoteForms.Range(walk.Interval)}, {NoteThing.Of(walk.Kind).Count(walk.LeafCount)}")}</li>\n");
            }

            html.Append(string.Concat(content.Marks.Select(mark => $"<li>{Safe($"{content.Forms.Day(mark.Day)}: {mark.Word}")}</li>\n"))).Append("</ul>\n</details>\n</section>\n");
        }
    }

    private static void Plants(StringBuilder html, NoteContent content)
    {
        if (content.Plants.Count == 0)
        {
            return;
        }

        html.Append($"<section>\n<h2>{Safe(content.Words.Plants)}</h2>\n<div class=\"wide\" role=\"region\" aria-label=\"{Safe(content.Words.Plants)}\" tabindex=\"0\">\n<table>\n<thead><tr><th scope=\"col\">Plant</th><th scope=\"col\">Name</th><th scope=\"col\">Damaged</th><th scope=\"col\">{Safe(content.Words.LastTime)}</th><th scope=\"col\">{Safe(content.Words.Care)}</th><th scope=\"col\">{Safe(content.Words.Done)}</th></tr></thead>\n<tbody>\n");
        foreach (NotePlant plant in content.Plants)
        {
            html.Append($"<tr><th scope=\"row\">{Safe(plant.Code)}</th><td dir=\"auto\">{Safe(plant.Name ?? "")}</td><td>{Cell(plant.Now, content)}</td><td>{Cell(plant.Before, content)}</td><td>{Safe(plant.Word)}</td><td>{Safe(plant.Done)}</td></tr>\n");
        }

        html.Append("</tbody>\n</table>\n</div>\n</section>\n");
    }

    private static string Cell(NoteFigure? figure, NoteContent content) => figure is null ? "-"
        : $"<strong>{Safe(NoteForms.Percent(figure.Damage))}</strong><br><span class=\"quiet\">{Safe(content.Forms.Day(figure.Day))}</span>";

    private static void List(StringBuilder html, string heading, IReadOnlyList<string> lines)
    {
        if (lines.Count > 0)
        {
            html.Append($"<section>\n<h2>{Safe(heading)}</h2>\n<ul>\n{string.Concat(lines.Select(line => $"<li dir=\"auto\">{Safe(line)}</li>\n"))}</ul>\n</section>\n");
        }
    }

    private static void Paragraphs(StringBuilder html, string? text, string name)
    {
        foreach (string paragraph in text?.Split('\n', StringSplitOptions.RemoveEmptyEntries) ?? [])
        {
            html.Append($"<p class=\"{name}\" dir=\"auto\">{Safe(paragraph)}</p>\n");
        }
    }

    private static string Safe(string words) => WebUtility.HtmlEncode(words);
}
