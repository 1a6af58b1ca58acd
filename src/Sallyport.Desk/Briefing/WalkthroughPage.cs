using System.Security.Cryptography;
using System.Text;
using Sallyport.Draw;

namespace Sallyport.Desk;

/// <summary>The page that plays a walk: one file that asks nothing of any other.</summary>
/// <remarks>
/// Its policy names the digest of each script and style that may run; all else is refused by the browser, and so is every request. What comes from
/// the user's files stands in a block of data, which is no script, and the page sets it as text only.
/// </remarks>
internal static class WalkthroughPage
{
    /// <summary>The page.</summary>
    /// <param name="playback">What it plays.</param>
    /// <param name="chart">The range chart, as SVG.</param>
    /// <param name="words">The words that stand in it before the script runs.</param>
    public static string Of(Playback playback, string chart, Wording words)
    {
        string script = Resource("Stage/stage.js"), style = Resource("Stage/stage.css");
        (string picture, string chartStyle) = Taken(chart);
        string policy = $"default-src 'none'; script-src '{Digest(script)}'; style-src '{Digest(style)}' '{Digest(chartStyle)}'; font-src data:; img-src data: blob:; "
            + "connect-src 'none'; base-uri 'none'; form-action 'none'";
        // The script may hold no end of its own element; the build of the stage has seen to that, and here it is held.
        if (script.Contains("</script", StringComparison.OrdinalIgnoreCase)) throw new InvalidOperationException("the stage's script holds an end of its element");
        return $"""
            <!DOCTYPE html>
            <html lang="{Escape(words.Language)}">
            <head>
            <meta charset="utf-8">
            <meta http-equiv="Content-Security-Policy" content="{policy}">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta name="color-scheme" content="light dark">
            <title>{Escape(words.Say("ui.title", playback.Title))}</title>
            <style>{style}</style>
            <style>{chartStyle}</style>
            </head>
            <body>
            <header><p class="caution">{Escape(playback.Caution)}</p></header>
            <main id="st-stage"></main>
            <template id="st-chart">{picture}</template>
            <script type="application/json" id="st-playback">{Encoding.UTF8.GetString(playback.ToJson())}</script>
            <script>{script}</script>
            </body>
            </html>

            """;
    }

    /// <summary>The picture without its prolog, and its style apart, as the policy wants it.</summary>
    private static (string Picture, string Style) Taken(string chart)
    {
        const string open = "<style>", close = "</style>";
        int svg = chart.IndexOf("<svg", StringComparison.Ordinal), from = chart.IndexOf(open, svg, StringComparison.Ordinal), to = chart.IndexOf(close, from, StringComparison.Ordinal);
        return (chart[svg..from] + chart[(to + close.Length)..], chart[(from + open.Length)..to]);
    }

    private static string Digest(string text) => $"sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}";

    private static string Escape(string text) => text.Replace("&", "&amp;").Replace("<", "&lt;").Replace(">", "&gt;").Replace("\"", "&quot;");

    private static string Resource(string name)
    {
        using Stream stream = typeof(WalkthroughPage).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"the resource {name} is missing");
        using StreamReader reader = new(stream, Encoding.UTF8);
        // A page reads its line ends as one sign each, and takes digests of that.
        return reader.ReadToEnd().Replace("\r\n", "\n");
    }
}
