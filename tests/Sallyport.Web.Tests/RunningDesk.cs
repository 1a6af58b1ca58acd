using System.Collections.Concurrent;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;
using Sallyport.Web;

[assembly: AssemblyFixture(typeof(Sallyport.Tests.Web.DeskBrowser))]

namespace Sallyport.Tests.Web;

/// <summary>A desk served over a folder of its own, on a port of its own; gone after the test.</summary>
public sealed class RunningDesk : IAsyncDisposable
{
    public const string Password = "four plain words here";

    private readonly string place = Directory.CreateTempSubdirectory("sallyport-web-").FullName;
    private readonly ServeOptions options;
    private readonly Faults faults = new();
    private WebApplication? app;

    private RunningDesk(string[] scenarios, bool signIn, Func<ServeOptions, ServeOptions>? with)
    {
        Directory.CreateDirectory(Folder);
        foreach (string scenario in scenarios) Copy(scenario);
        if (signIn)
        {
            Assert.Null(PasswordFile.Add(PasswordsPath, "ada", Roles.Planner, Password));
            Assert.Null(PasswordFile.Add(PasswordsPath, "vera", Roles.Viewer, Password));
        }
        options = new(Folder, 0) { Passwords = signIn ? PasswordsPath : null, OutFolder = Path.Combine(place, "out") };
        if (with is not null) options = with(options);
    }

    public string Folder => Path.Combine(place, "scenarios");

    public string OutFolder => options.OutFolder;

    public string PasswordsPath => Path.Combine(place, "passwords");

    public Uri Address { get; private set; } = null!;

    public static async Task<RunningDesk> Start(string[]? scenarios = null, bool signIn = false, Func<ServeOptions, ServeOptions>? with = null)
    {
        RunningDesk desk = new(scenarios ?? [], signIn, with);
        await desk.Begin(0);
        return desk;
    }

    /// <summary>Ends the program, as far as a browser can tell.</summary>
    public async Task Stop()
    {
        if (app is null) return;
        await app.StopAsync(new CancellationToken(canceled: true));
        await app.DisposeAsync();
        app = null;
    }

    /// <summary>Starts it again where it was.</summary>
    public Task Again() => Begin(Address.Port);

    /// <summary>What the program asks of itself when it is started.</summary>
    public async Task<IReadOnlyList<(string Page, int Status)>> Rehearse()
    {
        await Rehearsal.Knock(app!);
        return await Rehearsal.FirstPage(app!);
    }

    public HttpClient Client(bool follow = false) => new(new HttpClientHandler { AllowAutoRedirect = follow }) { BaseAddress = Address };

    public string Read(string file) => File.ReadAllText(Path.Combine(Folder, file));

    public async ValueTask DisposeAsync()
    {
        await Stop();
        Directory.Delete(place, true);
        Assert.Empty(faults.Told);
    }

    private async Task Begin(int port)
    {
        app = DeskServer.Build(options with { Port = port }, options.Passwords is { } path ? PasswordFile.Open(path).File : null);
        app.Services.GetRequiredService<ILoggerFactory>().AddProvider(faults);
        await app.StartAsync(TestContext.Current.CancellationToken);
        Address = new(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
    }

    private void Copy(string scenario)
    {
        string from = RepositoryFolder.Of("scenarios", scenario), to = Path.Combine(Folder, scenario);
        foreach (string file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
        if (scenario != "skerry") return;
        // What somebody planned in the repository is no part of the scenario.
        if (Directory.Exists(Path.Combine(to, "outlines"))) Directory.Delete(Path.Combine(to, "outlines"), true);
        Directory.CreateDirectory(Path.Combine(to, "outlines"));
        File.Copy(Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml"), Path.Combine(to, "outlines", "planned.yaml"));
    }
}

/// <summary>What the program says of faults of its own: none is expected of any test, also where its page looks well.</summary>
internal sealed class Faults : ILoggerProvider, ILogger
{
    private readonly ConcurrentQueue<string> told = [];

    public IReadOnlyCollection<string> Told => told;

    // One that a page is put in place for is a warning only.
    public ILogger CreateLogger(string category) => category.EndsWith("ErrorBoundary", StringComparison.Ordinal) ? new Boundary(this) : this;

    public bool IsEnabled(LogLevel level) => level >= LogLevel.Error;

    public void Log<T>(LogLevel level, EventId id, T state, Exception? why, Func<T, Exception?, string> words)
    {
        if (IsEnabled(level)) told.Enqueue(words(state, why) + why);
    }

    public IDisposable? BeginScope<T>(T state) where T : notnull => null;

    public void Dispose()
    {
    }

    private sealed class Boundary(Faults all) : ILogger
    {
        public bool IsEnabled(LogLevel level) => true;

        public void Log<T>(LogLevel level, EventId id, T state, Exception? why, Func<T, Exception?, string> words) => all.Log(LogLevel.Error, id, state, why, words);

        public IDisposable? BeginScope<T>(T state) where T : notnull => null;
    }
}

/// <summary>The browser, one for all tests.</summary>
public sealed class DeskBrowser : IAsyncLifetime
{
    private IPlaywright? playwright;
    private IBrowser? browser;

    public async ValueTask InitializeAsync() => (playwright, browser) = await TestBrowser.Launch();

    public async ValueTask DisposeAsync()
    {
        if (browser is not null) await browser.DisposeAsync();
        playwright?.Dispose();
    }

    /// <summary>A page in a browser that knows no other page, at an address of a desk, once it lives.</summary>
    internal async Task<DeskPage> Open(RunningDesk desk, string path = "/", BrowserNewContextOptions? with = null, bool lives = true)
    {
        with ??= new();
        with.ViewportSize ??= new() { Width = 1280, Height = 720 };
        with.ReducedMotion ??= ReducedMotion.Reduce;
        with.BaseURL = desk.Address.ToString();
        IBrowserContext context = await browser!.NewContextAsync(with);
        DeskPage open = new(context, await context.NewPageAsync());
        await open.Page.GotoAsync(path);
        if (lives) await open.Lives();
        return open;
    }
}

/// <summary>A page, with what it complained of.</summary>
internal sealed class DeskPage : IAsyncDisposable
{
    private readonly IBrowserContext context;

    public DeskPage(IBrowserContext context, IPage page)
    {
        (this.context, Page) = (context, page);
        page.SetDefaultTimeout(TestBrowser.Patience);
        page.Console += (_, message) => { if (message.Type is "error" or "warning") Complaints.Add(message.Text); };
        page.PageError += (_, error) => Complaints.Add(error);
    }

    public IPage Page { get; }

    public IBrowserContext Context => context;

    public List<string> Complaints { get; } = [];

    /// <summary>Waits until the page answers, and is no longer only what the server drew first.</summary>
    public async Task Lives() => await Page.WaitForFunctionAsync("() => document.querySelector('main')?.dataset.lives === 'yes'");

    public async ValueTask DisposeAsync() => await context.CloseAsync();
}
