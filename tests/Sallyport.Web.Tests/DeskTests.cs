using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Sallyport.Model;
using Sallyport.Web;
using static Microsoft.Playwright.Assertions;

namespace Sallyport.Tests.Web;

/// <summary>The desk as a user has it before the eyes, in Chromium.</summary>
public sealed class DeskTests(DeskBrowser browser)
{
    private static readonly LocatorAssertionsToBeVisibleOptions Long = new() { Timeout = 120_000 };

    [Fact]
    public async Task Scenario_FromAnEmptyFolder_IsMadeSearchedTakenAndBriefed()
    {
        await using RunningDesk desk = await RunningDesk.Start();
        await using DeskPage open = await browser.Open(desk);
        IPage page = open.Page;
        await Expect(page.GetByText("There is no scenario in this folder yet")).ToBeVisibleAsync();
        await page.GetByLabel("Name of its folder").FillAsync("first-walk");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it from the starter" }).ClickAsync();
        await page.WaitForURLAsync("**/sortie/first-walk");
        Assert.True(File.Exists(Path.Combine(desk.Folder, "first-walk", "scenario.yaml")));

        await page.GetByRole(AriaRole.Link, new() { Name = "Search", Exact = true }).ClickAsync();
        await page.GetByLabel("Epochs at most").FillAsync("1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Search", Exact = true }).ClickAsync();
        ILocator take = page.GetByRole(AriaRole.Button, new() { Name = "Take this one as an outline" });
        await Expect(take).ToBeVisibleAsync(Long);
        await take.ClickAsync();
        await Expect(page.Locator(".head .standing")).ToContainTextAsync("Clean under the", new() { Timeout = 120_000 });
        string outline = Assert.Single(Directory.GetFiles(Path.Combine(desk.Folder, "first-walk", "outlines")));
        Assert.Contains("lamp", File.ReadAllText(outline));

        await page.GetByRole(AriaRole.Link, new() { Name = "Brief", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make them" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "All of it in one file" })).ToBeVisibleAsync(Long);
        IDownload zip = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "All of it in one file" }).ClickAsync());
        using (System.IO.Compression.ZipArchive archive = System.IO.Compression.ZipFile.OpenRead(await zip.PathAsync()))
            Assert.Contains(archive.Entries, entry => entry.Name == Downloads.WalkthroughFile && entry.Length > 100_000);

        // The walk-through runs in a frame that reaches nothing of the desk.
        await page.GetByRole(AriaRole.Button, new() { Name = "Play it here" }).ClickAsync();
        IFrame walk = await (await page.Locator("iframe.walk").ElementHandleAsync()).ContentFrameAsync() ?? throw new InvalidOperationException("no frame");
        await walk.WaitForFunctionAsync("() => window.sallyportStage !== undefined");
        Assert.Equal("null", await walk.EvaluateAsync<string>("() => window.origin"));
        Assert.Equal("refused", await walk.EvaluateAsync<string>("() => { try { return parent.document.title; } catch { return 'refused'; } }"));
    }

    [Theory]
    [InlineData("/", ColorScheme.Light)]
    [InlineData("/", ColorScheme.Dark)]
    [InlineData("/sortie/skerry-short/files", ColorScheme.Light)]
    [InlineData("/sortie/skerry-short/files", ColorScheme.Dark)]
    [InlineData("/sortie/skerry-short/search", ColorScheme.Light)]
    [InlineData("/sortie/skerry-short/search", ColorScheme.Dark)]
    [InlineData("/sortie/skerry-short/brief", ColorScheme.Light)]
    [InlineData("/sortie/skerry-short/brief", ColorScheme.Dark)]
    [InlineData("/sortie/skerry-short/compare", ColorScheme.Light)]
    [InlineData("/sortie/skerry-short/compare", ColorScheme.Dark)]
    [InlineData("/sortie/nosuch", ColorScheme.Light)]
    [InlineData("/no/such/page", ColorScheme.Dark)]
    public async Task Page_InEitherTheme_CarriesTheCautionAndIsCleanByAxe(string path, ColorScheme theme)
    {
        Assert.SkipUnless(File.Exists(TestBrowser.Axe), "axe-core is not installed: ./test.sh does that");
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        TwoOutlines(desk);
        await using DeskPage open = await browser.Open(desk, path, new() { ColorScheme = theme });
        await Expect(open.Page.Locator("h1")).Not.ToHaveTextAsync("Opening …");
        if (path.EndsWith("compare", StringComparison.Ordinal)) await Expect(open.Page.Locator("table.legs")).ToBeVisibleAsync(Long);
        await Expect(open.Page.Locator("p.caution")).ToHaveTextAsync(Caution.Text);
        Assert.Empty(await TestBrowser.Complaints(open.Page));
        // A page that is not there is told as missing, and the browser complains of that alone.
        Assert.DoesNotContain(open.Complaints, one => !(path.StartsWith("/no/", StringComparison.Ordinal) && one.Contains("404", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Door_InABrowser_LetsAViewerLookAndChangeNothing(ColorScheme theme)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files", new() { ColorScheme = theme }, lives: false);
        IPage page = open.Page;
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
        await page.GetByLabel("Name").FillAsync("vera");
        await page.GetByLabel("Password").FillAsync(RunningDesk.Password);
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/sortie/skerry-short/files");
        await open.Lives();
        await Expect(page.GetByText(DeskHand.MayNot)).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        await Expect(page.Locator("textarea")).ToBeDisabledAsync();
        Assert.DoesNotContain("vera", page.Url);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await page.WaitForURLAsync("**/sign-in");
        await page.GotoAsync("/sortie/skerry-short");
        Assert.Contains("/sign-in", page.Url);
    }

    [Fact]
    public async Task Browsers_Two_SeeEachOthersChangesAndLoseNothingInAConflict()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage one = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        await using DeskPage two = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        foreach (IPage page in new[] { one.Page, two.Page }) await page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        string before = desk.Read("skerry-short/people.yaml");
        string name = Regex.Match(before, "name: (.+)").Groups[1].Value;
        // Both begin on the same text and change the same line.
        await one.Page.Locator(".whole textarea").FillAsync(before.Replace(name, "Nell Harrow"));
        await two.Page.Locator(".whole textarea").FillAsync(before.Replace(name, "Kit Sands"));
        await one.Page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        await Expect(two.Page.GetByText("The file has changed since you began")).ToBeVisibleAsync();
        Assert.Equal(before.Replace(name, "Nell Harrow"), desk.Read("skerry-short/people.yaml"));

        await two.Page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        ILocator conflict = two.Page.Locator(".conflict");
        await Expect(conflict).ToContainTextAsync("Nell Harrow");
        await Expect(conflict).ToContainTextAsync("Kit Sands");
        Assert.Equal(before.Replace(name, "Nell Harrow"), desk.Read("skerry-short/people.yaml"));
        await conflict.GetByRole(AriaRole.Button, new() { Name = "Put mine in its place all the same" }).ClickAsync();
        await Expect(conflict).ToHaveCountAsync(0);
        Assert.Equal(before.Replace(name, "Kit Sands"), desk.Read("skerry-short/people.yaml"));
        await Expect(one.Page.Locator(".whole textarea")).ToHaveValueAsync(new Regex("Kit Sands"));

        await one.Page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(one.Page.Locator(".whole textarea")).ToHaveValueAsync(new Regex("Nell Harrow"));
        Assert.Equal(before.Replace(name, "Nell Harrow"), desk.Read("skerry-short/people.yaml"));
    }

    [Fact]
    public async Task Program_KilledAndStartedAgain_IsSaidAndThePageComesBackByItself()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files");
        await desk.Stop();
        await Expect(open.Page.GetByRole(AriaRole.Alertdialog, new() { Name = "The desk does not answer" })).ToBeVisibleAsync();
        await desk.Again();
        await Expect(open.Page.GetByRole(AriaRole.Alertdialog)).ToBeHiddenAsync(new() { Timeout = 30_000 });
        await open.Lives();
        await Expect(open.Page.Locator("h1")).ToHaveTextAsync(new Regex("Skerry"));
    }

    [Fact]
    public async Task Program_StartedAnewUnderAnUnsavedText_LeavesItToBeCopied()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        IPage page = open.Page;
        // The browser's own question, when the page is loaded again.
        page.Dialog += (_, asks) => _ = asks.AcceptAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        ILocator text = page.Locator(".whole textarea");
        string before = desk.Read("skerry-short/people.yaml");
        await text.FillAsync(before + "# not saved yet\n");
        await Expect(page.Locator("[data-unsaved]")).ToHaveCountAsync(1);
        await desk.Stop();
        ILocator lost = page.GetByRole(AriaRole.Alertdialog, new() { Name = "The desk does not answer" });
        await Expect(lost).ToBeVisibleAsync();
        await desk.Again();

        await Expect(lost).ToContainTextAsync("copy what you want to keep");
        await text.ClickAsync();
        await Expect(text).ToHaveValueAsync(before + "# not saved yet\n");
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
        await page.GetByRole(AriaRole.Button, new() { Name = "Load the page again" }).First.ClickAsync();
        await open.Lives();
        await page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        await Expect(text).ToHaveValueAsync(before);
        Assert.Equal(before, desk.Read("skerry-short/people.yaml"));
    }

    [Fact]
    public async Task Keys_Alone_LeadThroughEveryPageAndMakeAScenario()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files");
        IPage page = open.Page;
        foreach ((string key, string path) in new[] { ("3", "search"), ("4", "brief"), ("5", "compare"), ("2", "files"), ("1", "skerry-short"), ("l", "/") })
        {
            await page.Keyboard.PressAsync(key);
            await page.WaitForURLAsync($"**{(path.StartsWith('/') ? "" : "/")}{path}");
            // The address is there before the page is: its keys are those of what it shows.
            await Expect(path == "/" ? page.Locator(".card") : page.Locator($".verbs a[aria-current=page][data-key='{key}']")).ToBeVisibleAsync();
        }
        await page.Keyboard.PressAsync("Shift+Slash");
        await Expect(page.GetByRole(AriaRole.Dialog, new() { Name = "Keys" })).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.GetByRole(AriaRole.Dialog, new() { Name = "Keys" })).ToBeHiddenAsync();
        await page.Keyboard.PressAsync("n");
        Assert.Equal("dark", await page.EvaluateAsync<string>("() => document.documentElement.dataset.theme"));
        await TabTo(page, "#new-name");
        // A letter that is a key elsewhere is only a letter here.
        await page.Keyboard.TypeAsync("land-l-n");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/sortie/land-l-n");
        Assert.True(Directory.Exists(Path.Combine(desk.Folder, "land-l-n")));
    }

    [Fact]
    public async Task List_WithAScenarioThatCannotBeRead_SaysWhereAndNeverCallsItClean()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        File.AppendAllText(Path.Combine(desk.Folder, "skerry-short", "people.yaml"), "\nnonsense: [\n");
        await using DeskPage open = await browser.Open(desk);
        ILocator card = open.Page.Locator(".card");
        await Expect(card).ToContainTextAsync("Cannot be read");
        await Expect(card).ToContainTextAsync("people.yaml:");
        await Expect(card).Not.ToContainTextAsync("lean");
        await card.GetByRole(AriaRole.Link).ClickAsync();
        await Expect(open.Page.Locator(".head .standing")).ToContainTextAsync("Cannot be read");
    }

    [Fact]
    public async Task Form_WithAFigureThatIsOff_SaysSoBesideItAndSavesNothingUntilItIsRight()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/jobs.yaml");
        IPage page = open.Page;
        string before = desk.Read("skerry-short/jobs.yaml");
        // Down to the first figure of time, one level after another, as a user opens them.
        ILocator figure = page.Locator(".field:has(.units:has-text('min'))").First;
        for (int level = 0; level < 8 && await figure.CountAsync() == 0; level++)
        {
            await page.Locator("details.group:not([open]) > summary").Last.ClickAsync();
            await page.WaitForTimeoutAsync(300);
        }
        ILocator input = figure.Locator("input");
        string value = await input.InputValueAsync();
        await input.FillAsync("6 bananas");
        await input.PressAsync("Tab");
        await Expect(figure.Locator(".trouble")).ToContainTextAsync("bananas");
        Assert.Equal("6 bananas", await input.InputValueAsync());
        Assert.Equal(before, desk.Read("skerry-short/jobs.yaml"));
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
        await input.FillAsync("3 / 4 / 7 min");
        await input.PressAsync("Tab");
        await Expect(figure.Locator(".trouble")).ToBeEmptyAsync();
        await Expect(page.Locator(".difference")).ToBeVisibleAsync();
        string after = desk.Read("skerry-short/jobs.yaml");
        Assert.NotEqual("3 / 4 / 7 min", value);
        Assert.Single(before.Split('\n').Zip(after.Split('\n')), lines => lines.First != lines.Second);
    }

    [Fact]
    public async Task File_ChangedOnTheDisk_IsShownWithoutAskingAnybody()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        string path = Path.Combine(desk.Folder, "skerry-short", "people.yaml");
        File.WriteAllText(path, File.ReadAllText(path) + "# written by an editor\n");
        await Expect(open.Page.Locator(".whole textarea")).ToHaveValueAsync(new Regex("written by an editor"), new() { Timeout = 20_000 });
    }

    private static void TwoOutlines(RunningDesk desk)
    {
        string outlines = Path.Combine(desk.Folder, "skerry-short", "outlines"), first = Directory.GetFiles(outlines)[0];
        File.Copy(first, Path.Combine(outlines, "again.yaml"));
    }

    private static async Task TabTo(IPage page, string selector)
    {
        for (int pressed = 0; pressed < 60; pressed++)
        {
            if (await page.EvaluateAsync<bool>("selector => document.activeElement?.matches(selector) === true", selector)) return;
            await page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"{selector} cannot be reached with Tab");
    }
}
