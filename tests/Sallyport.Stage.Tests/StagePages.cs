using System.Collections.Immutable;
using System.Text;
using Microsoft.Playwright;
using Sallyport.Desk;
using Sallyport.Model;

[assembly: AssemblyFixture(typeof(Sallyport.Stage.Tests.StagePages))]

namespace Sallyport.Stage.Tests;

/// <summary>A browser without a network, and the walk-through of Skerry on the disk, made once for all tests.</summary>
public sealed class StagePages : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("sallyport-stage-").FullName;
    private IPlaywright? playwright;
    private IBrowser? browser;

    internal static BriefingOptions Options { get; } = new(Draw.PaperSize.A4, null);

    internal Scenario Scenario { get; private set; } = null!;

    internal ProvenPlan Plan { get; private set; } = null!;

    internal SortieDesk Desk { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Desk = SortieDesk.Open(RepositoryFolder.Of("scenarios", "skerry")).Value ?? throw new InvalidOperationException("Skerry cannot be read");
        Scenario = Desk.Scenario;
        Outline outline = OutlineFile.Read(Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml"), Scenario).Value ?? throw new InvalidOperationException("the outline cannot be read");
        Plan = Desk.ProveShort(outline) ?? throw new InvalidOperationException("the outline cannot be expanded");
        Write("clean", Desk.WalkthroughOf(Plan, Options));

        (playwright, browser) = await TestBrowser.Launch();
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null) await browser.DisposeAsync();
        playwright?.Dispose();
        Directory.Delete(folder, true);
    }

    /// <summary>Writes the files of a walk-through of another plan or scenario, and names the page.</summary>
    internal void Write(string name, ImmutableArray<(string Name, byte[] Content)> files)
    {
        Directory.CreateDirectory(Path.Combine(folder, name));
        foreach ((string file, byte[] content) in files) File.WriteAllBytes(Path.Combine(folder, name, file), content);
    }

    internal string Read(string name, string file) => File.ReadAllText(Path.Combine(folder, name, file), Encoding.UTF8);

    /// <summary>Opens a page from the disk, with the network off.</summary>
    internal async Task<OpenPage> Open(string name, BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.ViewportSize ??= new() { Width = 1280, Height = 720 };
        options.Offline = true;
        options.ReducedMotion ??= ReducedMotion.Reduce;
        // Tests look into the page by scripts of their own, which its policy would refuse; that it refuses others is a test of its own.
        IBrowserContext context = await browser!.NewContextAsync(options);
        IPage page = await context.NewPageAsync();
        page.SetDefaultTimeout(TestBrowser.Patience);
        OpenPage open = new(context, page);
        await page.GotoAsync(new Uri(Path.Combine(folder, name, "walkthrough.html")).AbsoluteUri);
        await page.WaitForFunctionAsync("() => window.sallyportStage !== undefined");
        return open;
    }

    /// <summary>A page with nothing in it, for what needs only a browser.</summary>
    internal async Task<IPage> Empty() => await (await browser!.NewContextAsync()).NewPageAsync();
}

/// <summary>A page with what it asked for and complained of.</summary>
internal sealed class OpenPage : IAsyncDisposable
{
    private readonly IBrowserContext context;

    public OpenPage(IBrowserContext context, IPage page)
    {
        (this.context, Page) = (context, page);
        page.Console += (_, message) => { if (message.Type is "error" or "warning") Complaints.Add(message.Text); };
        page.PageError += (_, error) => Complaints.Add(error);
        page.Dialog += async (_, dialog) =>
        {
            Complaints.Add($"dialog {dialog.Message}");
            await dialog.DismissAsync();
        };
        page.Request += (_, request) => Requests.Add(request.Url);
    }

    public IPage Page { get; }

    public List<string> Complaints { get; } = [];

    public List<string> Requests { get; } = [];

    public Task<double> Moment() => Page.EvaluateAsync<double>("() => sallyportStage.moment");

    public async ValueTask DisposeAsync() => await context.CloseAsync();
}
