using Microsoft.Playwright;

namespace Sallyport.Tests.Web;

/// <summary>The page of one scenario, as a planner uses it: the range chart is what one takes hold of.</summary>
public sealed class ChartPageTests(DeskBrowser browser)
{
    private const string Lives = "() => document.querySelector('.desk')?.dataset.alive === 'yes'";

    // The leg asks for training that EV2 does not have.
    private const string Untrained = "lead/mate-quay";

    [Fact]
    public async Task Drag_OntoSomebodyUntrained_ShowsTheFindingAndUndoTakesItAway()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        string file = desk.Read("skerry/outlines/planned.yaml");
        Assert.Equal(0, await Rules(page, "person.untrained").CountAsync());

        await Drag(page, Untrained, "EV2");
        await page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV2']").WaitForAsync();
        ILocator finding = Rules(page, "person.untrained").First;
        await finding.WaitForAsync();
        await Assertions.Expect(finding).ToContainTextAsync("Mend:");
        await Assertions.Expect(page.Locator(".change .gained")).ToContainTextAsync("Gained");
        await Assertions.Expect(page.Locator(".change .proving")).ToContainTextAsync("Not clean");
        Assert.NotEqual(file, desk.Read("skerry/outlines/planned.yaml"));

        // It sits on the chart, and a click on it there goes to its moment.
        string number = (await finding.GetAttributeAsync("data-number"))!;
        await page.Locator($".face [data-finding='{number}']").First.DispatchEventAsync("click");
        Assert.Equal(int.Parse((await finding.GetAttributeAsync("data-at"))!), await Moment(page));

        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV1']").WaitForAsync();
        await Assertions.Expect(Rules(page, "person.untrained")).ToHaveCountAsync(0);
        Assert.Equal(file, desk.Read("skerry/outlines/planned.yaml"));
        Assert.Empty(open.Complaints);
    }

    // An answer that was on its way when the connection went never comes: the page does not wait for it for ever, and shows what stands.
    [Fact]
    public async Task Connection_LostBeforeAnAnswer_IsToldAndWhatStandsIsShown()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await browser.Open(desk);
        IPage page = open.Page;
        await page.AddInitScriptAsync("window.WebSocket = class extends WebSocket { constructor(...all) { super(...all); window.lastSocket = this; } };");
        await page.GotoAsync("/sortie/skerry");
        await page.WaitForFunctionAsync(Lives);
        await page.WaitForFunctionAsync("() => sallyportDesk.told.beside");
        long revision = await page.EvaluateAsync<long>("() => sallyportDesk.told.state.revision");
        string file = desk.Read("skerry/outlines/planned.yaml");

        await page.EvaluateAsync("() => { lastSocket.onmessage = () => {}; }");
        await page.Locator($".stretch[data-leg='{Untrained}']").FocusAsync();
        await page.Keyboard.PressAsync("Shift+ArrowDown");
        Assert.True(SpinWait.SpinUntil(() => desk.Read("skerry/outlines/planned.yaml") != file, TimeSpan.FromMinutes(1)));
        Assert.Equal(1, await page.EvaluateAsync<int>("() => sallyportDesk.told.asking"));
        // Long enough for the answer to have been sent.
        await Task.Delay(2000, TestContext.Current.CancellationToken);
        await page.EvaluateAsync("() => lastSocket.close()");

        await page.WaitForFunctionAsync("before => sallyportDesk.told.asking === 0 && sallyportDesk.told.state.revision > before", revision);
        await Assertions.Expect(page.Locator(".refused")).ToContainTextAsync("The desk did not answer");
        await page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV2']").WaitForAsync();
        await Assertions.Expect(page.Locator(".change .proving")).ToContainTextAsync("Not clean");

        // And it is answered again.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV1']").WaitForAsync();
        await Assertions.Expect(page.Locator(".refused")).ToBeHiddenAsync();
        Assert.Equal(file, desk.Read("skerry/outlines/planned.yaml"));
    }

    // What a page that was left still had under way must not fall on the one that is shown instead.
    [Fact]
    public async Task Chart_LeftBeforeItLives_DoesNoHarmToTheNextPage()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files");
        IPage page = open.Page;
        // The script itself, but what it asks the desk for waits until somebody says so.
        await page.RouteAsync("**/surface.js*", route => route.Request.Url.EndsWith("?itself", StringComparison.Ordinal) ? route.ContinueAsync() : route.FulfillAsync(new()
        {
            ContentType = "text/javascript",
            Body = """
                import { attach as itself } from "./surface.js?itself";
                const left = new Promise(leave => { window.leave = leave; });
                export const attach = (root, desk, ...more) => itself(root, { invokeMethodAsync: (...all) => left.then(() => desk.invokeMethodAsync(...all)) }, ...more);
                """,
        }));
        await page.Keyboard.PressAsync("1");
        await page.WaitForFunctionAsync("() => window.leave && window.sallyportDesk");
        await page.Keyboard.PressAsync("l");
        await page.Locator(".card").WaitForAsync();
        await page.EvaluateAsync("() => leave()");

        // Each is a way there and back: by the last of them the script has asked for its chart, and was told that nobody answers any more.
        foreach (string name in new[] { "a:a", "b:b", "c:c", "d:d" })
        {
            await page.FillAsync("#new-name", name);
            await page.GetByRole(AriaRole.Button, new() { Name = "Make it from the starter" }).ClickAsync();
            await Assertions.Expect(page.Locator("#new-said")).ToContainTextAsync(name);
        }
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Scenarios");
        Assert.Equal("/", new Uri(page.Url).AbsolutePath);
    }

    [Fact]
    public async Task Chart_Left_GivesBackWhatItWasDrawnWith()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        await page.WaitForFunctionAsync("() => sallyportDesk.told.stage?.frames > 0", null, new() { Timeout = 60_000 });
        await page.EvaluateAsync("() => { window.drawing = document.querySelector('.stage canvas').getContext('webgl2'); }");
        Assert.False(await page.EvaluateAsync<bool>("() => drawing.isContextLost()"));
        await page.Keyboard.PressAsync("2");
        await page.WaitForFunctionAsync("() => drawing.isContextLost()");
        await page.Keyboard.PressAsync("1");
        await page.WaitForFunctionAsync(Lives);
        await page.WaitForFunctionAsync("() => sallyportDesk.told.stage?.frames > 0");
        Assert.Empty(open.Complaints);
    }

    // Nothing new is to be seen before the answer: the stretch lies where it was let go, and what stands is what stood.
    [Fact]
    public async Task Drag_BeforeTheAnswer_LiesWhereItWasLetGo_AndThenInItsPlaceWithTheFocus()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        const string Findings = "() => document.querySelector('.told').innerText";
        await page.EvaluateAsync("""
            () => {
              const { desk } = sallyportDesk.line, ask = desk.invokeMethodAsync.bind(desk);
              desk.invokeMethodAsync = async (...all) => {
                if (all[0] === 'Do') await new Promise(go => { window.letThrough = go; });
                return ask(...all);
              };
            }
            """);
        string before = await page.EvaluateAsync<string>(Findings);

        await Drag(page, Untrained, "EV2");
        await page.Locator(".desk.asking").WaitForAsync();
        Assert.True(await page.Locator(".ghost").IsVisibleAsync());
        Assert.Equal("EV1", await page.Locator(".stretch.held").GetAttributeAsync("data-person"));
        Assert.Equal(before, await page.EvaluateAsync<string>(Findings));

        await page.EvaluateAsync("() => letThrough()");
        ILocator moved = page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV2']");
        await moved.WaitForAsync();
        await Assertions.Expect(page.Locator(".ghost")).ToBeHiddenAsync();
        await Assertions.Expect(page.Locator(".stretch.held, .face.dragging, .desk.asking")).ToHaveCountAsync(0);
        await Assertions.Expect(moved).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator(".stretch[tabindex='0']")).ToHaveCountAsync(1);
        Assert.NotEqual(before, await page.EvaluateAsync<string>(Findings));
        Assert.Empty(open.Complaints);
    }

    [Fact]
    public async Task Mend_WhatTheFindingSays_TakesItAway()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        await Drag(page, Untrained, "EV2");
        await Rules(page, "person.untrained").First.WaitForAsync();
        // "Give lead/mate-quay to somebody trained in power."
        await Choose(page, Untrained);
        await page.Locator("[data-act='To EV1']").ClickAsync();
        await page.Locator($".stretch[data-leg='{Untrained}'][data-person='EV1']").WaitForAsync();
        await Assertions.Expect(Rules(page, "person.untrained")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".change")).ToContainTextAsync("Gone");
    }

    [Fact]
    public async Task Verdict_BeforeContingenciesAreProven_IsNeverCalledClean()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        await page.EvaluateAsync("""
            () => {
              window.seen = [];
              const note = () => { const at = document.querySelector('.change .proving'); seen.push(`${at.className}|${at.textContent}`); };
              new MutationObserver(note).observe(document.querySelector('.change'), { childList: true, subtree: true });
            }
            """);
        // A pin binds what follows a contingency too, which may then not come out; without it the plan is as it was.
        foreach (string pinned in new[] { "pinned: starts at", "" })
        {
            await page.EvaluateAsync("() => { seen.length = 0; }");
            await Choose(page, Untrained);
            await page.Keyboard.PressAsync("p");
            await page.WaitForFunctionAsync("() => seen.some(one => one.includes('still being proven'))", null, new() { Timeout = 60_000 });
            await page.WaitForFunctionAsync("() => seen.at(-1) && !seen.at(-1).includes('still being proven')", null, new() { Timeout = 120_000 });
            await Assertions.Expect(page.Locator(".hand .what")).ToContainTextAsync(pinned);
            Assert.DoesNotContain(await page.EvaluateAsync<string[]>("() => seen.filter(one => one.includes('still being proven'))"), one => one.Contains("clean|"));
        }
        string[] seen = await page.EvaluateAsync<string[]>("() => seen");
        Assert.Contains("clean|Clean under the", seen[^1]);
    }

    [Fact]
    public async Task Pin_WithTheKey_IsWrittenAndTakenOutAgain()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await Open(desk, "skerry-short");
        IPage page = open.Page;
        string file = Outline(desk);
        string leg = (await page.Locator(".stretch").First.GetAttributeAsync("data-leg"))!;
        await Choose(page, leg);
        await page.Keyboard.PressAsync("p");
        await page.Locator(".stretch.pinned").WaitForAsync();
        Assert.Contains("at:", Outline(desk));
        await Assertions.Expect(page.Locator(".hand")).ToContainTextAsync("pinned: starts at");
        await page.Locator($".stretch[data-leg='{leg}']").FocusAsync();
        await page.Keyboard.PressAsync("p");
        await Assertions.Expect(page.Locator(".stretch.pinned")).ToHaveCountAsync(0);
        Assert.Equal(file, Outline(desk));
    }

    [Fact]
    public async Task LeaveOut_ThenBringBack_GoesByThePanel()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        await Choose(page, "tray/fetch");
        await page.Keyboard.PressAsync("Delete");
        await Assertions.Expect(page.Locator(".stretch[data-leg='tray/fetch']")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".change .sums")).ToContainTextAsync("value");
        await page.GetByRole(AriaRole.Tab, new() { Name = "Left out" }).ClickAsync();
        await page.Locator("[data-back='tray']").ClickAsync();
        await page.Locator(".stretch[data-leg='tray/fetch']").First.WaitForAsync();
        await Assertions.Expect(page.Locator("[data-back='tray']")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Cursor_Moved_MovesEveryView()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        await page.WaitForFunctionAsync("() => sallyportDesk.told.stage?.frames > 0", null, new() { Timeout = 60_000 });
        string before = await page.Locator(".under .lanes").InnerTextAsync();
        int frames = await page.EvaluateAsync<int>("() => sallyportDesk.told.stage.frames");
        float was = (await page.Locator(".face .cursor").BoundingBoxAsync())!.X;
        await page.Locator(".moment").FocusAsync();
        await page.EvaluateAsync("() => sallyportDesk.go(9000)");
        await Assertions.Expect(page.Locator(".under .clock")).ToContainTextAsync("2:30:00PET · 11:45:00 UTC");
        Assert.NotEqual(before, await page.Locator(".under .lanes").InnerTextAsync());
        Assert.True((await page.Locator(".face .cursor").BoundingBoxAsync())!.X > was + 100);
        Assert.Equal("9000", await page.Locator(".moment").InputValueAsync());
        await Assertions.Expect(page.Locator(".moment")).ToHaveAttributeAsync("aria-valuetext", "PET 2:30:00, 11:45:00 UTC");
        await page.WaitForFunctionAsync($"() => sallyportDesk.told.stage.frames > {frames}", null, new() { Timeout = 60_000 });
        foreach (string tab in new[] { "Margins", "Gear", "Commands" })
        {
            await page.GetByRole(AriaRole.Tab, new() { Name = tab }).ClickAsync();
            string there = await page.Locator("[role=tabpanel]:visible").InnerTextAsync();
            await page.EvaluateAsync("() => sallyportDesk.go(11400)");
            Assert.NotEqual(there, await page.Locator("[role=tabpanel]:visible").InnerTextAsync());
            await page.EvaluateAsync("() => sallyportDesk.go(9000)");
        }
    }

    [Fact]
    public async Task Keys_Alone_MoveAStretchAndTakeItBack()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        string file = desk.Read("skerry/outlines/planned.yaml");
        // By tabs alone into the chart.
        for (int i = 0; i < 30 && !await page.EvaluateAsync<bool>("() => document.activeElement.classList.contains('stretch')"); i++) await page.Keyboard.PressAsync("Tab");
        string first = await page.EvaluateAsync<string>("() => document.activeElement.dataset.leg");
        await page.Keyboard.PressAsync("ArrowRight");
        string second = await page.EvaluateAsync<string>("() => document.activeElement.dataset.leg");
        Assert.NotEqual(first, second);
        await page.Keyboard.PressAsync("ArrowDown");
        Assert.Equal("EV2", await page.EvaluateAsync<string>("() => document.activeElement.dataset.person"));
        await page.Keyboard.PressAsync("ArrowUp");
        string leg = await page.EvaluateAsync<string>("() => document.activeElement.dataset.leg");
        await page.Keyboard.PressAsync("Shift+ArrowDown");
        await page.Locator($".stretch[data-leg='{leg}'][data-person='EV2']").WaitForAsync();
        await Assertions.Expect(page.Locator(".desk > .sr")).Not.ToHaveTextAsync("");
        // The hand stays on what it moved.
        Assert.Equal(leg, await page.EvaluateAsync<string>("() => document.activeElement.dataset.leg"));
        await page.Keyboard.PressAsync("Control+z");
        await page.Locator($".stretch[data-leg='{leg}'][data-person='EV1']").WaitForAsync();
        Assert.Equal(leg, await page.EvaluateAsync<string>("() => document.activeElement.dataset.leg"));
        Assert.Equal(file, desk.Read("skerry/outlines/planned.yaml"));
    }

    [Fact]
    public async Task Escape_WhileDragging_MovesNothing()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        string file = desk.Read("skerry/outlines/planned.yaml");
        (float x, float y) = await Foot(page, Untrained);
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x - 200, y, new() { Steps = 4 });
        await page.Locator(".ghost").WaitForAsync();
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator(".ghost")).ToBeHiddenAsync();
        await page.Mouse.UpAsync();
        await Assertions.Expect(page.Locator(".desk > .sr")).ToContainTextAsync("nothing was moved");
        Assert.Equal(file, desk.Read("skerry/outlines/planned.yaml"));
    }

    [Fact]
    public async Task Zoom_InAndBack_LeavesTheChartAsDrawn()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk);
        IPage page = open.Page;
        const string Drawn = "() => document.querySelector('.face svg').outerHTML.replace(' zoomed', '')";
        string whole = await page.EvaluateAsync<string>(Drawn);
        await Choose(page, Untrained);
        float wide = (await page.Locator($".stretch[data-leg='{Untrained}']").BoundingBoxAsync())!.Width;
        await page.Keyboard.PressAsync("+");
        await page.Keyboard.PressAsync("+");
        Assert.NotEqual(whole, await page.EvaluateAsync<string>(Drawn));
        await page.EvaluateAsync("() => sallyportDesk.go(17000)");
        Assert.True((await page.Locator($".stretch[data-leg='{Untrained}']").BoundingBoxAsync())!.Width > wide * 2);
        await page.GetByRole(AriaRole.Button, new() { Name = "Whole walk" }).ClickAsync();
        Assert.Equal(whole, await page.EvaluateAsync<string>(Drawn));
    }

    [Fact]
    public async Task Change_InOneBrowser_IsSeenInTheOther()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        await using DeskPage ada = await SignIn(desk, "ada"), vera = await SignIn(desk, "vera");
        string leg = (await ada.Page.Locator(".stretch").First.GetAttributeAsync("data-leg"))!;
        await Choose(ada.Page, leg);
        await ada.Page.Keyboard.PressAsync("p");
        await vera.Page.Locator(".stretch.pinned").WaitForAsync();
        await Assertions.Expect(vera.Page.Locator(".change .last")).ToContainTextAsync("ada");
        // Who only looks is told so, and nothing happens.
        string file = Outline(desk);
        await Choose(vera.Page, leg);
        await vera.Page.Keyboard.PressAsync("p");
        await Assertions.Expect(vera.Page.Locator(".refused")).ToContainTextAsync("viewer");
        Assert.Equal(file, Outline(desk));
        Assert.True(await vera.Page.Locator("[data-act='Earlier']").IsDisabledAsync());
    }

    [Theory]
    [InlineData(ColorScheme.Light, 1280, 720)]
    [InlineData(ColorScheme.Dark, 1280, 720)]
    [InlineData(ColorScheme.Dark, 3840, 2160)]
    public async Task Page_InEachTheme_HasNothingThatAxeComplainsOf(ColorScheme theme, int width, int height)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry"]);
        await using DeskPage open = await Open(desk, with: new() { ColorScheme = theme, ViewportSize = new() { Width = width, Height = height } });
        await open.Page.WaitForFunctionAsync("() => sallyportDesk.told.stage?.frames > 0", null, new() { Timeout = 60_000 });
        await Choose(open.Page, Untrained);
        Assert.Empty(await TestBrowser.Complaints(open.Page));
        Assert.Empty(open.Complaints);
        // Nothing is wider than the page, and the page is no higher than the screen.
        Assert.Equal(new[] { width, height }, await open.Page.EvaluateAsync<int[]>("() => [document.documentElement.scrollWidth, document.documentElement.scrollHeight]"));
    }

    private async Task<DeskPage> Open(RunningDesk desk, string name = "skerry", BrowserNewContextOptions? with = null)
    {
        // A machine that does much else answers late, and late is not wrong.
        DeskPage open = await browser.Open(desk, $"/sortie/{name}", with, lives: false);
        await open.Page.WaitForFunctionAsync(Lives, null, new() { Timeout = 90_000 });
        // Nothing more comes by itself.
        await open.Page.WaitForFunctionAsync("() => sallyportDesk.told.state.standing !== 'open' && !document.querySelector('.proving').textContent.includes('still being')", null, new() { Timeout = 120_000 });
        return open;
    }

    private async Task<DeskPage> SignIn(RunningDesk desk, string name)
    {
        DeskPage open = await browser.Open(desk, "/sortie/skerry-short", lives: false);
        await open.Page.FillAsync("#name", name);
        await open.Page.FillAsync("#password", RunningDesk.Password);
        await open.Page.Locator(".sign-in button").ClickAsync();
        await open.Page.WaitForFunctionAsync(Lives, null, new() { Timeout = 90_000 });
        return open;
    }

    private static string Outline(RunningDesk desk) => desk.Read("skerry-short/outlines/by-hand.yaml");

    private static ILocator Rules(IPage page, string rule) => page.Locator(".told li").Filter(new() { HasText = rule });

    private static Task<int> Moment(IPage page) => page.EvaluateAsync<int>("() => sallyportDesk.told.moment");

    private static async Task Choose(IPage page, string leg) => await page.Locator($".stretch[data-leg='{leg}']").First.FocusAsync();

    /// <summary>The bar at the foot of a stretch, where nothing else lies.</summary>
    private static async Task<(float X, float Y)> Foot(IPage page, string leg)
    {
        ILocator stretch = page.Locator($".stretch[data-leg='{leg}']").First;
        await stretch.ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult box = (await stretch.BoundingBoxAsync())!;
        return (box.X + box.Width / 2, box.Y + box.Height - 4);
    }

    private static async Task Drag(IPage page, string leg, string person)
    {
        (float x, float y) = await Foot(page, leg);
        LocatorBoundingBoxResult there = (await page.Locator($".stretch[data-person='{person}']").First.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x, there.Y + there.Height / 2, new() { Steps = 5 });
        await page.Mouse.UpAsync();
    }
}
