using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Sallyport.Desk;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Stage.Tests;

/// <summary>The page of a walk-through in a browser, opened from the disk with the network off.</summary>
public sealed class WalkthroughTests(StagePages pages)
{
    [Fact]
    public async Task Page_OpenedFromTheDisk_AsksForNothingElseAndComplainsOfNothing()
    {
        await using OpenPage open = await pages.Open("clean");
        await open.Page.EvaluateAsync("() => { sallyportStage.go(15000); sallyportStage.follow(1); }");
        await open.Page.WaitForTimeoutAsync(500);
        Assert.Single(open.Requests);
        Assert.StartsWith("file:", open.Requests[0]);
        Assert.DoesNotContain(open.Complaints, Ours);
        Assert.True(await open.Page.EvaluateAsync<int>("() => sallyportStage.drawing?.frames ?? 0") > 0, "nothing was drawn in 3D");
        Assert.True(await open.Page.Locator("p.caution").IsVisibleAsync());
        Assert.Equal(Caution.Text, await open.Page.Locator("p.caution").TextContentAsync());
    }

    [Fact]
    public async Task Play_Pressed_RunsAtTheSpeedChosenAndStopsAgain()
    {
        await using OpenPage open = await pages.Open("clean");
        await open.Page.GetByLabel("Speed", new() { Exact = true }).SelectOptionAsync("120");
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        await open.Page.WaitForFunctionAsync("() => sallyportStage.moment > 60");
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "Pause", Exact = true }).ClickAsync();
        double stopped = await open.Moment();
        await open.Page.WaitForTimeoutAsync(300);
        Assert.Equal(stopped, await open.Moment());
        // It says what it would say at this moment by itself.
        Cue? cue = Cues().LastOrDefault(one => one.From.Seconds <= stopped && stopped < one.To.Seconds);
        Assert.Equal(cue?.Text ?? "", await open.Page.Locator(".caption").TextContentAsync());
    }

    [Fact]
    public async Task Scrub_BySliderChartAndKeys_MovesTheOneMoment()
    {
        await using OpenPage open = await pages.Open("clean");
        ILocator slider = open.Page.GetByLabel("Time", new() { Exact = true }).And(open.Page.Locator("input"));
        await slider.FillAsync("7200");
        Assert.Equal(7200, await open.Moment());
        Assert.Equal("2:00:00", await open.Page.Locator(".clock b").TextContentAsync());
        await open.Page.Locator("canvas").FocusAsync();
        await open.Page.Locator("h1").ClickAsync();
        await open.Page.Keyboard.PressAsync("ArrowRight");
        Assert.Equal(7260, await open.Moment());
        await open.Page.Keyboard.PressAsync("End");
        Assert.Equal(pages.Plan.Played[0].Trace.To.Seconds, await open.Moment());
        // A click half-way along the axis of the chart.
        double[] box = await open.Page.EvaluateAsync<double[]>("() => { const b = document.querySelector('.sheet').getBoundingClientRect(); return [b.left, b.top, b.width]; }");
        JsonElement chart = await open.Page.EvaluateAsync<JsonElement>("() => sallyportStage.playback.chart");
        double left = chart.GetProperty("left").GetDouble(), right = chart.GetProperty("right").GetDouble();
        double half = (chart.GetProperty("from").GetInt32() + chart.GetProperty("to").GetInt32()) / 2.0;
        await open.Page.Mouse.ClickAsync((float)(box[0] + (left + right) / 2 / 1500 * box[2]), (float)box[1] + 60);
        Assert.Equal(half, await open.Moment(), 40.0);
        double cursor = await open.Page.EvaluateAsync<double>("() => document.querySelector('.cursor').getBoundingClientRect().left");
        Assert.Equal(box[0] + (left + right) / 2 / 1500 * box[2], cursor, 3.0);
    }

    [Fact]
    public async Task Step_ChosenInTheList_IsGoneToAndMarked()
    {
        await using OpenPage open = await pages.Open("clean");
        DoStep step = pages.Plan.Likely.Activities.OfType<DoStep>().First(one => one.Step.Value == "unplug");
        string title = pages.Scenario.Legs.First(leg => leg.Id == step.Leg).Steps.First(one => one.Id == step.Step).Title;
        ILocator button = open.Page.Locator(".steps button", new() { HasText = title }).First;
        await button.ClickAsync();
        Assert.Equal(step.Start.Seconds, await open.Moment());
        Assert.Equal("step", await button.GetAttributeAsync("aria-current"));
        Assert.Contains(title, await open.Page.Locator($"article[aria-label^='{step.Person} ']").TextContentAsync());
    }

    [Fact]
    public async Task Cards_AtAnyMoment_SayWhatThePlanSays()
    {
        await using OpenPage open = await pages.Open("clean");
        int end = pages.Plan.Likely.Activities.Max(one => one.End.Seconds);
        foreach (int moment in Enumerable.Range(0, 8).Select(eighth => eighth * end / 8))
        {
            await open.Page.EvaluateAsync("moment => sallyportStage.go(moment)", moment);
            foreach (Person person in pages.Scenario.Outside)
            {
                Activity now = pages.Plan.Likely.Activities.First(one => one.People.Contains(person.Id) && one.Start.Seconds <= moment && moment < one.End.Seconds);
                string card = await open.Page.Locator($"article[aria-label^='{person.Id} ']").InnerTextAsync();
                if (now is DoStep step) Assert.Contains(pages.Scenario.Legs.First(leg => leg.Id == step.Leg).Title, card);
                if (now is ArmMove) Assert.Contains("ride crane", card);
                if (now is Translate walk) Assert.Contains("on the way to", card);
            }
        }
    }

    [Fact]
    public async Task Branch_Chosen_PlaysTheOtherOneFromTheSecondAtWhichTheyPart()
    {
        await using OpenPage open = await pages.Open("clean");
        (Timeline likely, Timeline other) = (pages.Plan.Played[0].Timeline, pages.Plan.Played[1].Timeline);
        ILocator branch = open.Page.GetByLabel("Decision", new() { Exact = true });
        // A moment after the decision at which somebody does something else on the other branch.
        (Person who, DoStep step) = pages.Scenario.Outside.SelectMany(person => likely.Activities.OfType<DoStep>().Where(one => one.Person == person.Id && !other.Activities.Any(two => two.Id == one.Id)).Select(one => (person, one))).First();
        int moment = step.Start.Seconds + 1;
        Activity instead = other.Activities.First(one => one.People.Contains(who.Id) && one.Start.Seconds <= moment && moment < one.End.Seconds);
        ILocator card = open.Page.Locator($"article[aria-label^='{who.Id} ']");
        string title = pages.Scenario.Legs.First(leg => leg.Id == step.Leg).Title;
        await open.Page.EvaluateAsync("moment => sallyportStage.go(moment)", moment);
        Assert.Contains(title, await card.InnerTextAsync());
        string before = await open.Page.Locator(".steps").InnerTextAsync();
        await branch.SelectOptionAsync("1");
        Assert.Equal(moment, await open.Moment());
        Assert.DoesNotContain(title, await card.InnerTextAsync());
        if (instead is DoStep own) Assert.Contains(pages.Scenario.Legs.First(leg => leg.Id == own.Leg).Title, await card.InnerTextAsync());
        Assert.NotEqual(before, await open.Page.Locator(".steps").InnerTextAsync());
        // Drawn where its trace says, and it ends when that ends.
        double[]? drawn = await open.Page.EvaluateAsync<double[]>("who => { const p = sallyportStage.playback.people[who].path.filter(one => one[0] <= sallyportStage.moment).at(-1); return p.slice(1); }", pages.Scenario.Outside.ToList().FindIndex(one => one.Id == who.Id));
        Assert.NotEmpty(drawn);
        await open.Page.Keyboard.PressAsync("End");
        await open.Page.Locator("h1").ClickAsync();
        await open.Page.Keyboard.PressAsync("End");
        Assert.Equal(pages.Plan.Played[1].Trace.To.Seconds, await open.Moment());
        await open.Page.Keyboard.PressAsync("b");
        Assert.Equal("0", await branch.InputValueAsync());
        Assert.Equal(before, await open.Page.Locator(".steps").InnerTextAsync());
        Assert.DoesNotContain(open.Complaints, Ours);
    }

    [Fact]
    public async Task Captions_InTheBrowsersOwnTrack_AreAllCues()
    {
        IPage page = await pages.Empty();
        await page.RouteAsync("**/*", route => route.Request.Url.EndsWith(".vtt", StringComparison.Ordinal)
            ? route.FulfillAsync(new() { ContentType = "text/vtt; charset=utf-8", Body = pages.Read("clean", "walkthrough.vtt") })
            : route.FulfillAsync(new() { ContentType = "text/html", Body = "<video><track default kind=captions src=walkthrough.vtt></video>" }));
        await page.GotoAsync("http://stage.test/");
        JsonElement told = await page.EvaluateAsync<JsonElement>("""
            () => new Promise((done, fail) => {
              const element = document.querySelector("track");
              element.track.mode = "showing";
              const tell = () => done([...element.track.cues].map(cue => ({ from: cue.startTime, to: cue.endTime, text: cue.getCueAsHTML().textContent })));
              element.addEventListener("load", tell);
              element.addEventListener("error", () => fail(new Error("the track was refused")));
              if (element.readyState === 2) tell();
            })
            """);
        Cue[] cues = [.. Cues()];
        Assert.Equal(cues.Select(cue => cue.Text), told.EnumerateArray().Select(one => one.GetProperty("text").GetString()));
        foreach ((Cue cue, JsonElement one) in cues.Zip(told.EnumerateArray()))
        {
            Assert.Equal(cue.From.Seconds / (double)Narration.Speed, one.GetProperty("from").GetDouble(), 0.0006);
            Assert.Equal(cue.To.Seconds / (double)Narration.Speed, one.GetProperty("to").GetDouble(), 0.0006);
        }
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Page_InEitherTheme_IsCleanByAxe(ColorScheme theme)
    {
        Assert.SkipUnless(File.Exists(TestBrowser.Axe), "axe-core is not installed: ./test.sh does that");
        await using OpenPage open = await pages.Open("clean", new() { ColorScheme = theme });
        await open.Page.EvaluateAsync("() => sallyportStage.go(4800)");
        Assert.Empty(await TestBrowser.Complaints(open.Page));
    }

    [Fact]
    public async Task Names_WithMarkupLongAndFromRightToLeft_InjectNothing()
    {
        const string evil = "</script><img src=x onerror=alert(1)><style>*{display:none}</style>נור \u202Eabc & --> ";
        string name = evil + string.Concat(Enumerable.Repeat("long", 60));
        Scenario scenario = pages.Scenario with
        {
            Sortie = pages.Scenario.Sortie with { Title = name },
            Station = pages.Scenario.Station with { Sites = [.. pages.Scenario.Station.Sites.Select(site => site with { Title = name })], Modules = [.. pages.Scenario.Station.Modules.Select(module => module with { Name = name })] },
            People = [.. pages.Scenario.People.Select(person => person with { Name = name })],
            Gear = [.. pages.Scenario.Gear.Select(gear => gear with { Title = name })],
            Jobs = [.. pages.Scenario.Jobs.Select(job => job with { Title = name, For = name, Legs = [.. job.Legs.Select(leg => leg with { Title = name, Steps = [.. leg.Steps.Select(step => step with { Title = name, For = name })] })] })],
        };
        pages.Write("evil", Walkthrough.Files(scenario, pages.Plan with { Name = name }, pages.Desk.Orbit, StagePages.Options));
        await using OpenPage open = await pages.Open("evil");
        await open.Page.EvaluateAsync("() => { sallyportStage.go(9000); sallyportStage.follow(1); }");
        await open.Page.WaitForTimeoutAsync(300);
        Assert.Equal(0, await open.Page.Locator("img").CountAsync());
        Assert.Single(open.Requests);
        Assert.DoesNotContain(open.Complaints, Ours);
        Assert.Contains("<img src=x onerror=alert(1)>", await open.Page.Locator("h1").TextContentAsync());
        // Nothing is pushed out of the window: the page is no wider than it, and the buttons are where they can be pressed.
        Assert.True(await open.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"));
        await open.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
    }

    [Fact]
    public async Task Page_OfAPlanThatIsNotClean_SaysDraftWhereverOneLooks()
    {
        Finding broken = new(new("pet.limit"), Severity.Broken, Branch.Likely, [], default, null, "It is too long.", "", "", "", "", "");
        ProvenPlan draft = pages.Plan with { Verdict = pages.Plan.Verdict with { Findings = [broken, .. pages.Plan.Verdict.Findings] } };
        pages.Write("draft", Walkthrough.Files(pages.Scenario, draft, pages.Desk.Orbit, StagePages.Options));
        await using OpenPage open = await pages.Open("draft");
        Assert.Contains("DRAFT — NOT CLEAN", await open.Page.Locator("header .draft").TextContentAsync());
        Assert.True(await open.Page.Locator(".stage .mark").IsVisibleAsync());
        await using OpenPage clean = await pages.Open("clean");
        Assert.Equal(0, await clean.Page.GetByText("DRAFT").CountAsync());
    }

    [Fact]
    public async Task Policy_OfThePage_RefusesWhatIsNotItsOwn()
    {
        string html = pages.Read("clean", "walkthrough.html");
        Match policy = Regex.Match(html, "<meta http-equiv=\"Content-Security-Policy\" content=\"([^\"]*)\">");
        Assert.True(policy.Success);
        Assert.DoesNotContain("unsafe", policy.Value);
        Assert.StartsWith("default-src 'none';", policy.Groups[1].Value);
        await using OpenPage open = await pages.Open("clean");
        await open.Page.EvaluateAsync("() => { const s = document.createElement('script'); s.textContent = 'window.ran = true'; document.body.append(s); }");
        Assert.False(await open.Page.EvaluateAsync<bool>("() => window.ran === true"));
        Assert.Contains(open.Complaints, one => one.Contains("Content Security Policy", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Drawing_WhileNothingChanges_Rests()
    {
        await using OpenPage open = await pages.Open("clean");
        await open.Page.WaitForTimeoutAsync(800);
        int before = await open.Page.EvaluateAsync<int>("() => sallyportStage.drawing.frames");
        await open.Page.WaitForTimeoutAsync(600);
        Assert.Equal(before, await open.Page.EvaluateAsync<int>("() => sallyportStage.drawing.frames"));
        Assert.InRange(await open.Page.EvaluateAsync<int>("() => sallyportStage.drawing.calls"), 1, 40);
    }

    [Fact]
    public async Task Model_OfTheStation_IsDrawnInPlaceOfItsBodies()
    {
        byte[] model = await File.ReadAllBytesAsync(RepositoryFolder.Of("tests", "Sallyport.Desk.Tests", "EveryKey", "islet.glb"), TestContext.Current.CancellationToken);
        pages.Write("model", Walkthrough.Files(pages.Scenario, pages.Plan, pages.Desk.Orbit, StagePages.Options, model));
        await using OpenPage plain = await pages.Open("clean");
        await using OpenPage open = await pages.Open("model");
        await open.Page.WaitForTimeoutAsync(300);
        Assert.DoesNotContain(open.Complaints, Ours);
        Assert.Single(open.Requests);
        int with = await open.Page.EvaluateAsync<int>("() => sallyportStage.drawing.triangles"), without = await plain.Page.EvaluateAsync<int>("() => sallyportStage.drawing.triangles");
        Assert.InRange(with, 12, without - 500);
    }

    [Fact]
    public async Task Keyboard_Alone_ReachesEverythingThatCanBePressed()
    {
        await using OpenPage open = await pages.Open("clean");
        int wanted = await open.Page.EvaluateAsync<int>("() => document.querySelectorAll('.bar button:not(:disabled), .bar select, .bar input').length");
        HashSet<string> met = [];
        for (int i = 0; i < 40; i++)
        {
            await open.Page.Keyboard.PressAsync("Tab");
            if (await open.Page.EvaluateAsync<string?>("() => { const e = document.activeElement; return e.closest('.bar') ? e.tagName + (e.textContent || e.getAttribute('aria-label')) : null; }") is { } name) met.Add(name);
        }
        Assert.Equal(wanted, met.Count);
        await open.Page.Locator("h1").ClickAsync();
        await open.Page.Keyboard.PressAsync("2");
        Assert.Equal("1", await open.Page.GetByLabel("View", new() { Exact = true }).InputValueAsync());
    }

    private System.Collections.Immutable.ImmutableArray<Cue> Cues() => Narration.Of(new(pages.Scenario, pages.Plan, Wording.English.Closing)).Likely;

    /// <summary>Software drawing is slow to read back, and the browser says so to whoever made it do it; that is no fault of the page.</summary>
    private static bool Ours(string complaint) => !complaint.Contains("GPU stall", StringComparison.Ordinal);
}
