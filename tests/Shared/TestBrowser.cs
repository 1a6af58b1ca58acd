using System.Text.Json;
using Microsoft.Playwright;

namespace Sallyport.Tests;

/// <summary>The browser that tests of pages look through.</summary>
internal static class TestBrowser
{
    /// <summary>How long a page may take, ms: a machine may have much else to do, and no test is one of speed.</summary>
    public const int Patience = 120_000;

    /// <summary>Where the browser lies; null for the one that Playwright installs.</summary>
    private static string? Installed { get; } = Environment.GetEnvironmentVariable("SALLYPORT_CHROMIUM") is { Length: > 0 } told ? told
        : (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).SelectMany(path => new[] { "chromium", "chromium-browser", "google-chrome" }.Select(name => Path.Combine(path, name)))
            .FirstOrDefault(File.Exists);

    /// <summary>Where axe-core lies once ./test.sh has installed it.</summary>
    public static string Axe { get; } = RepositoryFolder.Of("tests", "Sallyport.Stage.Tests", "node_modules", "axe-core", "axe.min.js");

    public static async Task<(IPlaywright Playwright, IBrowser Browser)> Launch()
    {
        if (Installed is null && Microsoft.Playwright.Program.Main(["install", "chromium"]) != 0)
            throw new InvalidOperationException("no Chromium was found and none could be installed; name one in SALLYPORT_CHROMIUM");
        Assertions.SetDefaultExpectTimeout(Patience / 2);
        IPlaywright playwright = await Playwright.CreateAsync();
        // Software drawing, so that the pages draw alike on every machine; root needs the first.
        return (playwright, await playwright.Chromium.LaunchAsync(new() { ExecutablePath = Installed, Args = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] }));
    }

    /// <summary>What axe has against a page, a line each.</summary>
    public static async Task<IReadOnlyList<string>> Complaints(IPage page)
    {
        // Evaluated by the debugger, which no policy of a page holds back.
        await page.EvaluateAsync(await File.ReadAllTextAsync(Axe));
        JsonElement found = await page.EvaluateAsync<JsonElement>("async () => (await axe.run(document, { resultTypes: ['violations'] }))");
        if (found.GetProperty("passes").GetArrayLength() <= 10) return ["axe looked at nothing"];
        return [.. found.GetProperty("violations").EnumerateArray().Select(one => $"{one.GetProperty("id").GetString()}: {one.GetProperty("nodes").EnumerateArray().First().GetProperty("html").GetString()} {one.GetProperty("nodes").EnumerateArray().First().GetProperty("failureSummary").GetString()}")];
    }
}
