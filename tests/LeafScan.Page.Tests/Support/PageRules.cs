using Microsoft.Playwright;

namespace LeafScan.Page.Tests.Support;

/// <summary>Style rules that a test lays over a page; a style element would be stopped by the page's own policy.</summary>
internal static class PageRules
{
    public static Task AddRuleAsync(this IPage page, string rule) => page.EvaluateAsync(
        "rule => { const sheet = new CSSStyleSheet(); sheet.replaceSync(rule); document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]; }", rule);
}
