using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Sallyport.Tests.Web;

/// <summary>Forms as a user fills them in, and what is said when the files change under an open page, in Chromium.</summary>
public sealed class FormPageTests(DeskBrowser browser)
{
    private const string Jobs = "skerry-short/jobs.yaml", People = "skerry-short/people.yaml";

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task NewStep_FilledInByKeysAlone_IsTakenOnceItIsRight_AsAPersonWouldHaveWrittenIt(ColorScheme theme)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/jobs.yaml", new() { ColorScheme = theme });
        IPage page = open.Page;
        string before = desk.Read(Jobs);
        await OpenGroups(page, "Sticky latch", "legs", "Free the latch", "steps");
        ILocator add = page.GetByRole(AriaRole.Button, new() { Name = "Add to steps" }), draft = page.Locator(".draft");
        await add.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(draft.Locator("h3")).ToBeFocusedAsync();
        await Expect(draft).ToContainTextAsync("Still missing: id; do; time; abort: time; terminate: time; work");
        await Type(page, draft.GetByLabel("id *"), "wipe");
        await Type(page, draft.GetByLabel("do *"), "Wipe the hinge");
        await Type(page, draft.GetByLabel("time *").First, "1 / 2 / 3");
        await Expect(draft.Locator(".field.wrong")).ToContainTextAsync("without a unit");
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
        await Type(page, draft.GetByLabel("time *").First, "1 / 2 / 3 min");
        await Expect(draft.Locator(".field.wrong")).ToHaveCountAsync(0);
        await Type(page, draft.GetByLabel("time *").Nth(1), "30 s");
        await Type(page, draft.GetByLabel("time *").Nth(2), "1 min");
        await draft.GetByLabel("work *").SelectOptionAsync("light");
        await Expect(draft).ToContainTextAsync("The files can be read with it");
        // What it needs: one of four, then its state, of those that the feature has.
        await draft.GetByLabel("Further key").Last.SelectOptionAsync("needs");
        await draft.Locator("summary").Filter(new() { HasText = "needs" }).ClickAsync();
        await draft.GetByRole(AriaRole.Button, new() { Name = "Add to needs" }).ClickAsync();
        await draft.GetByLabel("Which of them").SelectOptionAsync("feature");
        ILocator feature = draft.GetByLabel("feature", new() { Exact = true });
        await Expect(feature).ToHaveAttributeAsync("list", new Regex("choices"));
        await Type(page, feature, "latch");
        await draft.GetByLabel("One more for is").SelectOptionAsync("free");
        await Expect(draft).ToContainTextAsync("The files can be read with it");
        Assert.Equal(before, desk.Read(Jobs));
        await draft.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await Expect(draft).ToHaveCountAsync(0);
        string after = desk.Read(Jobs);
        const string step = "    - id: wipe\n      do: Wipe the hinge\n      time: 1 / 2 / 3 min\n      needs:\n      - {feature: latch, is: [free]}\n      abort: {time: 30 s}\n      terminate: {time: 1 min}\n      work: light\n";
        Assert.Equal(before, after.Replace(step, ""));

        // It goes up before the one above, which was told by a button that keeps the focus, and comes back by undo.
        await OpenGroups(page, "wipe");
        ILocator up = page.GetByRole(AriaRole.Button, new() { Name = "Move wipe up" });
        await up.ClickAsync();
        await Expect(page.Locator("summary").Filter(new() { HasText = "do " })).ToHaveTextAsync([new Regex("^loosen"), new Regex("^wipe"), new Regex("^grease")]);
        await Expect(up).ToBeFocusedAsync();
        Assert.True(desk.Read(Jobs).IndexOf("id: wipe", StringComparison.Ordinal) < desk.Read(Jobs).IndexOf("id: grease", StringComparison.Ordinal));
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator("summary").Filter(new() { HasText = "do " })).ToHaveCountAsync(2);
        Assert.Equal(before, desk.Read(Jobs));
        Assert.Empty(open.Complaints);
    }

    [Fact]
    public async Task Item_TakenOutByKeys_LeavesTheFocusOnTheNextOne_OrTheOneBefore_OrWhereOneIsAdded()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/jobs.yaml");
        IPage page = open.Page;
        string before = desk.Read(Jobs);
        await OpenGroups(page, "Sticky latch", "legs", "Free the latch", "steps", "grease", "loosen");
        ILocator Item(string name) => page.Locator("details.group > summary").Filter(new() { HasText = name }).Last;
        ILocator Out(string name) => page.GetByRole(AriaRole.Button, new() { Name = $"Take {name} out" });

        // Of two steps the first: on to the second.
        await Out("loosen").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(Out("loosen")).ToHaveCountAsync(0);
        await Expect(Item("grease")).ToBeFocusedAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(Item("loosen")).ToBeVisibleAsync();

        // The last of two: back to the one before.
        await OpenGroups(page, "grease");
        await Out("grease").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(Out("grease")).ToHaveCountAsync(0);
        await Expect(Item("loosen")).ToBeFocusedAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(Item("grease")).ToBeVisibleAsync();
        Assert.Equal(before, desk.Read(Jobs));

        // In a new item, where nothing is saved: the only one of an inner list.
        await page.GetByRole(AriaRole.Button, new() { Name = "Add to steps" }).ClickAsync();
        ILocator draft = page.Locator(".draft");
        await draft.GetByLabel("Further key").Last.SelectOptionAsync("needs");
        await draft.Locator("summary").Filter(new() { HasText = "needs" }).ClickAsync();
        ILocator add = draft.GetByRole(AriaRole.Button, new() { Name = "Add to needs" });
        await add.ClickAsync();
        await draft.GetByRole(AriaRole.Button, new() { Name = "Take number 1 out" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(draft.GetByRole(AriaRole.Button, new() { Name = "Take number 1 out" })).ToHaveCountAsync(0);
        await Expect(add).ToBeFocusedAsync();
        Assert.Equal(before, desk.Read(Jobs));
        Assert.Empty(open.Complaints);
    }

    [Fact]
    public async Task Changes_ThatHoldTogetherOnly_WaitForEachOther_AndAreSavedAsOne()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/jobs.yaml");
        IPage page = open.Page;
        string before = desk.Read(Jobs);
        await OpenGroups(page, "Sticky latch", "legs", "Free the latch", "steps", "grease");
        ILocator grease = page.Locator("details.group").Filter(new() { HasText = "Grease the hinge" }).Last;
        await grease.GetByLabel("Further key").Last.SelectOptionAsync("fastener");
        await OpenGroups(page, "fastener");
        await Type(page, grease.GetByLabel("torque *"), "14 ft-lbf");
        ILocator waiting = page.Locator(".notice.conflict");
        await Expect(waiting).ToContainTextAsync("1 change not saved yet");
        await Expect(waiting).ToContainTextAsync("'turns'");
        await Expect(page.Locator(".files")).ToContainTextAsync("jobs.yaml 1 problem");
        Assert.Equal(before, desk.Read(Jobs));

        // Whoever leaves is asked first, and loses nothing by staying.
        await page.Keyboard.PressAsync("Tab");
        await page.GetByRole(AriaRole.Link, new() { Name = "Search", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Leave and lose it" })).ToBeVisibleAsync();
        Assert.EndsWith("/files/jobs.yaml", page.Url);
        await page.GetByRole(AriaRole.Button, new() { Name = "Stay here" }).ClickAsync();
        await Type(page, grease.GetByLabel("turns *"), "-6 turns");
        await Expect(waiting).ToHaveCountAsync(0);
        Assert.Equal(before, desk.Read(Jobs).Replace("      fastener: {torque: 14 ft-lbf, turns: -6 turns}\n- id", "- id").Replace("      work: moderate\n      fastener: {torque: 14 ft-lbf, turns: -6 turns}\n  - id: look", "      work: moderate\n  - id: look"));
        Assert.NotEqual(before, desk.Read(Jobs));
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator(".difference")).ToContainTextAsync("taken back");
        Assert.Equal(before, desk.Read(Jobs));
    }

    [Fact]
    public async Task File_ChangedOnTheDiskUnderAnUnsavedText_IsSaid_BothStand_AndNothingIsLost()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        IPage page = open.Page;
        string before = desk.Read(People), path = Path.Combine(desk.Folder, People), name = Regex.Match(before, "name: (.+)").Groups[1].Value;
        string mine = before.Replace(name, "Nell Harrow"), theirs = before.Replace(name, "Kit Sands");
        await page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        await page.Locator(".whole textarea").FillAsync(mine);
        File.WriteAllText(path, theirs);
        await Expect(page.GetByText("The file has changed since you began")).ToBeVisibleAsync();
        // What was typed stays typed, also when another file is looked at meanwhile.
        await page.GetByRole(AriaRole.Link, new() { Name = "gear.yaml" }).ClickAsync();
        await Expect(page.Locator("h2").Filter(new() { HasText = "gear.yaml" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "people.yaml not saved" }).ClickAsync();
        await Expect(page.Locator(".whole textarea")).ToHaveValueAsync(mine);

        await page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        ILocator conflict = page.GetByRole(AriaRole.Alert, new() { Name = "Conflict in people.yaml" });
        await Expect(conflict).ToHaveCountAsync(1);
        await Expect(conflict).ToContainTextAsync("changed on the disk");
        await Expect(conflict.Locator("pre").First).ToContainTextAsync("Nell Harrow");
        await Expect(conflict.Locator("pre").Last).ToContainTextAsync("Kit Sands");
        Assert.Equal(theirs, File.ReadAllText(path));
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
        // It stands on every page of the scenario until it is settled.
        await page.GetByRole(AriaRole.Link, new() { Name = "Search", Exact = true }).ClickAsync();
        await Expect(conflict).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Files", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "people.yaml" }).ClickAsync();
        await conflict.GetByRole(AriaRole.Button, new() { Name = "Take what stands on the disk" }).ClickAsync();
        await Expect(conflict).ToHaveCountAsync(0);
        Assert.Equal(theirs, File.ReadAllText(path));
        // What was not taken can still be had.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await page.WaitForFunctionAsync("() => document.querySelector('.difference')?.textContent.includes('taken back')");
        Assert.Equal(mine, File.ReadAllText(path));
    }

    [Fact]
    public async Task File_ChangedOnTheDiskAfterAChangeInTheForm_IsShown_AndTheChangeIsNotPutOverIt()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        IPage page = open.Page;
        await OpenGroups(page, "Ada Marsh");
        ILocator name = page.GetByLabel("name *").First;
        await Type(page, name, "Nell Harrow");
        await page.WaitForFunctionAsync("() => document.querySelector('.difference') !== null");
        string path = Path.Combine(desk.Folder, People), saved = File.ReadAllText(path);
        Assert.Contains("name: Nell Harrow", saved);
        File.WriteAllText(path, saved.Replace("Nell Harrow", "Kit Sands"));
        await Expect(name).ToHaveValueAsync("Kit Sands");
        await Expect(page.Locator(".difference")).ToContainTextAsync("changed on disk: people.yaml");
        // Taking back what stands no more would undo somebody else's work: it is refused, and says by whom the line was changed.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator(".notice.broken")).ToContainTextAsync("another program");
        Assert.Contains("name: Kit Sands", File.ReadAllText(path));
    }

    [Fact]
    public async Task Files_BrokenOrGoneUnderOpenPages_AreSaidOnEach_AndComeBackByThemselves()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await using DeskPage chart = await browser.Open(desk, "/sortie/skerry-short");
        await using DeskPage files = await browser.Open(desk, "/sortie/skerry-short/files/people.yaml");
        ILocator surface = chart.Page.Locator(".stretch").First, standing = chart.Page.Locator(".head .standing"), notice = files.Page.Locator(".notice.broken").First;
        string folder = Path.Combine(desk.Folder, "skerry-short"), path = Path.Combine(desk.Folder, People), whole = File.ReadAllText(path);
        await Expect(chart.Page.Locator("svg").First).ToBeVisibleAsync();

        File.WriteAllText(path, whole + "\nnonsense: [\n");
        await Expect(standing).ToContainTextAsync("Cannot be read: 1 problem");
        await Expect(chart.Page.GetByText("nothing is proven")).ToBeVisibleAsync();
        await Expect(chart.Page.Locator("main")).ToContainTextAsync("people.yaml:");
        await Expect(chart.Page.Locator("main")).Not.ToContainTextAsync("Clean");
        await Expect(notice).ToContainTextAsync("people.yaml:");
        File.WriteAllText(path, whole);
        await Expect(chart.Page.GetByText("nothing is proven")).ToHaveCountAsync(0);
        await Expect(standing).ToContainTextAsync("rules checked", new() { Timeout = 120_000 });

        // One file is taken away: it can be put back as it stood.
        File.Delete(path);
        await Expect(files.Page.GetByText("people.yaml is not in this scenario any more")).ToBeVisibleAsync();
        await Expect(files.Page.Locator("pre").Last).ToContainTextAsync("Ada Marsh");
        await Expect(standing).ToContainTextAsync("Cannot be read");
        await files.Page.GetByRole(AriaRole.Button, new() { Name = "Put it back as it stood here" }).ClickAsync();
        await Expect(files.Page.Locator("h2").Filter(new() { HasText = "people.yaml" })).ToBeVisibleAsync();
        Assert.Equal(whole, File.ReadAllText(path));

        // The whole folder goes, with something typed and not saved: it is said, nothing is written, and all of it is there once the folder is.
        await files.Page.GetByRole(AriaRole.Button, new() { Name = "As text" }).ClickAsync();
        await files.Page.Locator(".whole textarea").FillAsync(whole + "# typed\n");
        Directory.Move(folder, folder + "-away");
        await Expect(chart.Page.GetByText("The folder 'skerry-short' cannot be found on the disk")).ToBeVisibleAsync();
        await Expect(files.Page.GetByText("The folder 'skerry-short' cannot be found on the disk")).ToBeVisibleAsync();
        await Expect(files.Page.Locator("pre").Last).ToContainTextAsync("# typed");
        Assert.False(Directory.Exists(folder));
        Directory.Move(folder + "-away", folder);
        await Expect(files.Page.Locator(".whole textarea")).ToHaveValueAsync(whole + "# typed\n");
        await Expect(standing).ToContainTextAsync("rules checked", new() { Timeout = 120_000 });
        await files.Page.GetByRole(AriaRole.Button, new() { Name = "Save" }).ClickAsync();
        await Expect(files.Page.GetByRole(AriaRole.Button, new() { Name = "Save" })).ToBeDisabledAsync();
        Assert.Equal(whole + "# typed\n", File.ReadAllText(path));
    }

    [Fact]
    public async Task Search_OfWhichTheProofRefusesEveryPlan_TellsTheNearestAndWhatBreaksInIt()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        string rules = Path.Combine(desk.Folder, "skerry-short", "rules.yaml");
        File.AppendAllText(rules, "\nfootings:\n- {kind: free, torque: 1 ft-lbf, force: 1 lbf, source: invented}\n- {kind: body tether, torque: 1 ft-lbf, force: 1 lbf, source: invented}\n");
        await using DeskPage open = await browser.Open(desk, "/sortie/skerry-short/search");
        IPage page = open.Page;
        await page.GetByLabel("Epochs at most").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Search", Exact = true }).ClickAsync();
        ILocator refused = page.Locator(".refused");
        await Expect(refused).ToContainTextAsync("The nearest to one", new() { Timeout = 120_000 });
        await Expect(refused.Locator("li").First).ToContainTextAsync("torque");
        await Expect(page.GetByText("refused by the proof and not used")).ToBeVisibleAsync();
        if (File.Exists(TestBrowser.Axe)) Assert.Empty(await TestBrowser.Complaints(page));
    }

    private static async Task OpenGroups(IPage page, params string[] names)
    {
        foreach (string name in names)
        {
            ILocator summary = page.Locator("details.group > summary").Filter(new() { HasText = name }).Last;
            if (await summary.Locator("..").GetAttributeAsync("open") is not null) continue;
            await summary.ClickAsync();
            await Expect(summary.Locator("..")).ToHaveAttributeAsync("open", "");
        }
    }

    /// <summary>Goes to a field with Tab, types, and leaves it.</summary>
    private static async Task Type(IPage page, ILocator field, string text)
    {
        for (int pressed = 0; pressed < 80 && !await field.EvaluateAsync<bool>("element => document.activeElement === element"); pressed++) await page.Keyboard.PressAsync("Tab");
        await Expect(field).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Control+a");
        await page.Keyboard.TypeAsync(text);
        await page.Keyboard.PressAsync("Tab");
        await Expect(field).ToHaveValueAsync(text);
    }
}
