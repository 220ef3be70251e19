using LeafScan.Frame.Sheets;

namespace LeafScan.Notes.Client;

/// <summary>How a note looks in the browser and printed from there: the same quiet page as on paper.</summary>
internal static class NoteStyle
{
    /// <summary>The style sheet.</summary>
    public static string Css(PaperSize paper) => $$"""
        :root { color-scheme: light; }
        * { box-sizing: border-box; }
        body { max-width: 50rem; margin: 0 auto; padding: 2rem 1.5rem; background: #fff; color: #222; font: 1rem/1.45 "DejaVu Sans", Verdana, "Noto Sans", sans-serif; overflow-wrap: break-word; }
        p, ul, h1, h2, figure { margin: 0 0 .6rem; }
        h1 { font-size: 1.9rem; line-height: 1.2; margin-bottom: .3rem; }
        h2 { font-size: 1rem; color: #1f4d3a; margin-bottom: .2rem; }
        header { border-bottom: 2px solid #1f4d3a; margin-bottom: 1.1rem; padding-bottom: .4rem; }
        .kind { display: flex; justify-content: space-between; gap: 1rem; }
        .kind span { color: #1f4d3a; font-weight: bold; }
        .under, .quiet, figcaption, footer { color: #545454; }
        .under { margin: 0 0 .15rem; }
        .seen { display: grid; grid-template-columns: minmax(15rem, 1fr) minmax(15rem, 1.05fr); gap: 1.6rem; }
        img { display: block; width: 100%; height: auto; }
        figcaption, footer, .quiet { font-size: .82rem; }
        .figure { background: #f1f4f0; padding: .9rem 1rem .4rem; margin-bottom: 1rem; border: 1px solid #b9c4bc; }
        .number { font-size: 3rem; line-height: 1.1; font-weight: bold; color: #1f4d3a; margin: 0; }
        .lead { font-size: 1.12rem; font-weight: bold; margin-bottom: .2rem; }
        section { margin-bottom: 1.1rem; }
        svg { display: block; width: 100%; height: auto; }
        summary { cursor: pointer; font-size: .82rem; padding: .3rem 0; }
        .two { display: grid; grid-template-columns: 1fr 1fr; gap: 1.6rem; }
        ul { padding-left: 1.1rem; }
        li { margin-bottom: .3rem; }
        li::marker { color: #1f4d3a; }
        .wide { overflow-x: auto; }
        table { width: 100%; border-collapse: collapse; }
        th, td { text-align: left; vertical-align: top; padding: .35rem .5rem .35rem 0; border-bottom: 1px solid #b9c4bc; }
        footer { border-top: 1px solid #b9c4bc; padding-top: .6rem; }
        .narrow { display: none; }
        @media screen and (max-width: 40rem) {
            .seen, .two { grid-template-columns: 1fr; gap: 0; }
            .broad { display: none; }
            .narrow { display: block; }
        }
        @page { size: {{paper.Name}}; margin: 11mm 16mm; }
        @media print {
            html { font-size: 8.6pt; }
            section, header { margin-bottom: .8rem; }
            body { max-width: none; padding: 0; }
            details { display: none; }
            section, figure, tr, li { break-inside: avoid; }
            .seen { grid-template-columns: 46% 1fr; }
            img { max-height: 60mm; width: auto; max-width: 100%; }
        }

        """;
}
