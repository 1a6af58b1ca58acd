using System.Diagnostics;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

public sealed class OutlineEditTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    private static LegEntry[] LegsOf(SortieState state, string person) =>
        [.. state.Plan!.Outline!.People.Single(list => list.Person.Value == person).Entries.OfType<LegEntry>()];

    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    [InlineData("starter")]
    [InlineData("skerry-short")]
    public async Task Open_EachDemo_IsQuickFirstAndCleanOnlyWhenWhole(string name)
    {
        using OpenSortie sortie = shop.Open(name);
        List<Proving> seen = [sortie.State.Proving];
        Assert.Empty(sortie.State.Problems);
        if (sortie.State.Proving == Proving.Quick) Assert.NotEmpty(sortie.State.NotYet);
        if (sortie.State.Proving == Proving.Quick) Assert.Null(sortie.State.IsClean);

        SortieState whole = await sortie.Whole(TestContext.Current.CancellationToken);

        Assert.Equal(Proving.Whole, whole.Proving);
        Assert.Empty(whole.NotYet);
        Assert.True(whole.IsClean, Workshop.Findings(whole));
        Assert.Equal("first", whole.Chosen);
        // The verdict is the one of the check command, to the last finding.
        CheckOutcome check = SortieDesk.Open(Path.Combine(shop.Root, name)).Value!.Check(shop.PathOf(sortie, "outlines/first.yaml"), asIs: false);
        Assert.Equal(check.Plan!.Verdict.Findings.Select(finding => finding.Sentence), whole.Plan!.Verdict.Findings.Select(finding => finding.Sentence));
    }

    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    [InlineData("starter")]
    [InlineData("skerry-short")]
    public async Task EachEdit_OnEachDemo_ChangesOnlyItsLines_AndUndoGivesBackTheBytesAndTheVerdict(string name)
    {
        using OpenSortie sortie = shop.Open(name);
        SortieState before = await sortie.Whole(TestContext.Current.CancellationToken);
        Outline outline = before.Plan!.Outline!;
        // What a person writes into a file stays, whatever is edited.
        string path = shop.PathOf(sortie, "outlines/first.yaml");
        string kept = File.ReadAllText(path).Replace("people:\n", "# the order was agreed on Tuesday\npeople:\n");
        LegId first = outline.People.SelectMany(list => list.Entries).OfType<LegEntry>().First().Leg;
        kept = string.Join('\n', kept.Split('\n').Select(line => line.Contains($"leg: {first}", StringComparison.Ordinal) ? line + "   # hers" : line));
        File.WriteAllText(path, kept);
        sortie.LookAtDisk();
        before = await sortie.Whole(TestContext.Current.CancellationToken);

        Job optional = before.Scenario!.Jobs.Where(job => outline.LeftOut.All(left => left.Job != job.Id)).OrderBy(job => job.Worth == Worth.Must).First();
        PersonOutline doer = outline.People.First(list => list.Entries.OfType<LegEntry>().Any(entry => entry.Leg == first));
        LegId last = doer.Entries.OfType<LegEntry>().Last().Leg;
        SortieEdit[] edits =
        [
            new Pin(first, null), new Pin(last, Pet.FromSeconds(OutlineEdits.StartOf(before.Plan!.Likely, last)!.Value.Seconds + 300)), new PinPerson(first), new Unpin(first),
            new LeaveOut(optional.Id), new MoveLegTo(last, doer.Person, OutlineEdits.StartOf(before.Plan!.Likely, first)!.Value), new MoveLeg(first, doer.Person, null),
        ];
        int done = 0;
        foreach (SortieEdit edit in edits)
        {
            string text = File.ReadAllText(path);
            EditOutcome outcome = sortie.Apply(edit, "Ada", sortie.State.Revision);
            if (outcome is Refused refused)
            {
                // An order in which somebody would wait for ever is told, and nothing is changed.
                Assert.False(string.IsNullOrWhiteSpace(refused.Why));
                Assert.Equal(text, File.ReadAllText(path));
                Assert.True(edit is MoveLeg or MoveLegTo, refused.Why);
                continue;
            }
            string now = File.ReadAllText(path);
            if (now != text) done++;
            Assert.Contains("# the order was agreed on Tuesday", now);
            if (edit is not LeaveOut || optional.Legs.All(leg => leg.Id != first)) Assert.Contains("   # hers", now);
            if (edit is Pin or Unpin or PinPerson) Assert.True(Workshop.Changed(text, now) is ({ Length: <= 1 }, { Length: <= 1 }), edit.ToString());
            Assert.Equal(sortie.State.TextOf("outlines/first.yaml"), now);
            foreach (string other in Directory.GetFiles(Path.Combine(shop.Root, name))) Assert.Equal(File.ReadAllText(other), before.TextOf(Path.GetFileName(other)) ?? File.ReadAllText(other));
        }
        Assert.True(done >= 5, $"{done} edits changed anything");
        while (sortie.UndoOf("Ada") is not null) Workshop.Good(sortie.Undo("Ada"));
        Assert.Equal(kept, File.ReadAllText(path));
        SortieState after = await sortie.Whole(TestContext.Current.CancellationToken);
        Assert.Equal(PlanFiles.ToJson(before.Plan!.Verdict), PlanFiles.ToJson(after.Plan!.Verdict));
        // And again forward.
        while (sortie.RedoOf("Ada") is not null) Workshop.Good(sortie.Redo("Ada"));
        Assert.NotEqual(kept, File.ReadAllText(path));
    }

    [Fact]
    public async Task MoveLeg_ToSomebodyUntrained_GivesTheFinding_AndUndoTakesItBack()
    {
        using OpenSortie sortie = shop.Open("skerry");
        SortieState before = await sortie.Whole(TestContext.Current.CancellationToken);
        string text = shop.TextOf(sortie, "outlines/first.yaml");

        SortieState after = Workshop.Good(sortie.Apply(new MoveLeg(new("lead/mate-quay"), new("EV2"), new("filter/test")), "Ada", before.Revision)).State;

        Assert.Contains(after.Plan!.Verdict.Findings, finding => finding.Rule.Value == "person.untrained" && finding.Sentence.Contains("lead/mate-quay"));
        Assert.False(after.IsClean);
        Assert.Contains(after.Difference!.Gained, finding => finding.Rule.Value == "person.untrained");
        Assert.Contains(new LegId("lead/mate-quay"), LegsOf(after, "EV2").Select(entry => entry.Leg));

        Workshop.Good(sortie.Undo("Ada"));

        Assert.Equal(text, shop.TextOf(sortie, "outlines/first.yaml"));
        SortieState back = await sortie.Whole(TestContext.Current.CancellationToken);
        Assert.True(back.IsClean);
        Assert.Contains(back.Difference!.Lost, finding => finding.Rule.Value == "person.untrained");
    }

    [Fact]
    public void MoveLeg_WithABag_TheBagComesAlong_AndTheChangesSayIt()
    {
        using OpenSortie sortie = shop.Open("skerry-short");

        SortieState after = Workshop.Good(sortie.Apply(new MoveLeg(new("latch/free"), new("EV2"), new("latch/look")), "Ada", sortie.State.Revision)).State;

        string text = shop.TextOf(sortie, "outlines/first.yaml");
        Assert.Contains("- {take: latch-bag, from: lock, carry: waist", text[text.IndexOf("EV2:", StringComparison.Ordinal)..]);
        Assert.DoesNotContain("latch-bag", text[..text.IndexOf("EV2:", StringComparison.Ordinal)]);
        Assert.NotEmpty(after.Changes);
        Assert.StartsWith("# yaml-language-server", text);
        Assert.Contains("# Worked by hand; the arithmetic is in the tests.", text);
    }

    [Fact]
    public void LeaveOut_ThenBringBack_JobIsGoneAndThereAgain()
    {
        using OpenSortie sortie = shop.Open("skerry");
        JobId job = new("next");

        SortieState without = Workshop.Good(sortie.Apply(new LeaveOut(job, "the bags are late"), "Ada", sortie.State.Revision)).State;

        Assert.DoesNotContain(without.Plan!.Likely.Activities.OfType<DoStep>(), step => step.Leg.Value.StartsWith("next/", StringComparison.Ordinal));
        Assert.Contains("- {job: next, why: \"the bags are late\"}", shop.TextOf(sortie, "outlines/first.yaml"));
        Assert.True(without.Difference!.Value < without.Difference.ValueBefore);

        SortieState with = Workshop.Good(sortie.Apply(new BringBack(job), "Ada", without.Revision)).State;

        Assert.Contains(with.Plan!.Likely.Activities.OfType<DoStep>(), step => step.Leg.Value.StartsWith("next/", StringComparison.Ordinal));
        Assert.DoesNotContain("job: next", shop.TextOf(sortie, "outlines/first.yaml"));
        Assert.Equal(without.Difference.ValueBefore, with.Difference!.Value);
        Assert.Contains(with.Changes, line => line.Contains("+ next/first", StringComparison.Ordinal) && line.Contains("as it stood before", StringComparison.Ordinal));
    }

    // Each leg between the same two as before it was left out; whoever opens the scenario anew cannot know that, and is told that it went last.
    [Fact]
    public void BringBack_JobLeftOutJustNow_StandsWhereItStood_AndLastWhereThatIsNotKnown()
    {
        JobId job = new("next");
        string[][] before, back, anew;
        using (OpenSortie sortie = shop.Open("skerry"))
        {
            before = Orders(sortie.State);
            Workshop.Good(sortie.Apply(new LeaveOut(job, "the bags are late"), "Ada", sortie.State.Revision));
            SortieState with = Workshop.Good(sortie.Apply(new BringBack(job), "Ada", sortie.State.Revision)).State;
            back = Orders(with);
            Workshop.Good(sortie.Apply(new LeaveOut(job, "the bags are late"), "Ada", sortie.State.Revision));
        }
        Assert.NotEqual("next/first", before.Single(legs => legs.Contains("next/first"))[^1]);
        Assert.Equal(before, back);
        using OpenSortie later = shop.Open("skerry");
        SortieState last = Workshop.Good(later.Apply(new BringBack(job), "Ada", later.State.Revision)).State;
        anew = Orders(last);
        Assert.NotEqual(before, anew);
        Assert.Contains(last.Changes, line => line.Contains("next/first, last of what is done", StringComparison.Ordinal));
    }

    private static string[][] Orders(SortieState state) => [.. state.Plan!.Outline!.People.Select(list => list.Entries.OfType<LegEntry>().Select(entry => entry.Leg.Value).ToArray())];

    [Fact]
    public void MoveLegTo_AMoment_BeginsNearerThanInEveryNeighbouringOrder()
    {
        using OpenSortie sortie = shop.Open("skerry");
        SortieState before = sortie.State;
        LegId leg = new("next/second");
        Pet wanted = Pet.FromSeconds(3 * 3600);

        SortieState after = Workshop.Good(sortie.Apply(new MoveLegTo(leg, new("EV1"), wanted), "Ada", before.Revision)).State;

        int away = Math.Abs(OutlineEdits.StartOf(after.Plan!.Likely, leg)!.Value.Seconds - wanted.Seconds);
        Assert.True(away < Math.Abs(OutlineEdits.StartOf(before.Plan!.Likely, leg)!.Value.Seconds - wanted.Seconds), $"{away} s away");
        LegId[] order = [.. LegsOf(after, "EV1").Select(entry => entry.Leg)];
        int place = Array.IndexOf(order, leg);
        foreach (LegId? neighbour in new LegId?[] { place > 0 ? order[place - 1] : null, place + 2 < order.Length ? order[place + 2] : null })
        {
            EditOutcome other = sortie.Apply(new MoveLeg(leg, new("EV1"), neighbour), "Ada", sortie.State.Revision);
            if (other is not Accepted { State: var moved }) continue;
            Assert.True(Math.Abs(OutlineEdits.StartOf(moved.Plan!.Likely, leg)!.Value.Seconds - wanted.Seconds) >= away);
            Workshop.Good(sortie.Undo("Ada"));
        }
    }

    [Theory]
    [InlineData("nobody/here", "EV1", null, "is not in this outline")]
    [InlineData("latch/free", "EV9", null, "does not go outside")]
    [InlineData("latch/free", "EV2", "latch/free", "before itself")]
    [InlineData("latch/look", "EV1", "nobody/here", "is not in the list of EV1")]
    public void MoveLeg_OfWhatIsNotThere_IsRefusedInWords(string leg, string person, string? before, string expected)
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        string text = shop.TextOf(sortie, "outlines/first.yaml");
        SortieState state = sortie.State;

        Refused refused = Assert.IsType<Refused>(sortie.Apply(new MoveLeg(new(leg), new(person), before is null ? null : new LegId(before)), "Ada", state.Revision));

        Assert.Contains(expected, refused.Why);
        Assert.Equal(text, shop.TextOf(sortie, "outlines/first.yaml"));
        Assert.Null(sortie.UndoOf("Ada"));
    }

    [Fact]
    public void TakeOutline_OfASearch_IsAFileOfItsOwnAndChosen_AndUndoTakesItAway()
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        string first = shop.TextOf(sortie, "outlines/first.yaml");

        SortieState taken = Workshop.Good(sortie.Apply(new TakeOutline("first", first.Replace("# Worked by hand", "# Found")), "Ada", sortie.State.Revision)).State;

        Assert.Equal("first-2", taken.Chosen);
        Assert.Equal(first, shop.TextOf(sortie, "outlines/first.yaml"));
        Assert.Contains("# Found", shop.TextOf(sortie, "outlines/first-2.yaml"));
        Assert.Equal(["first", "first-2"], taken.Outlines.Select(one => one.Name).Order());

        Assert.Equal("first", Workshop.Good(sortie.Undo("Ada")).State.Chosen);
        Assert.False(File.Exists(shop.PathOf(sortie, "outlines/first-2.yaml")));
        Assert.Equal("first-2", Workshop.Good(sortie.Redo("Ada")).State.Chosen);
        Assert.IsType<Refused>(sortie.Apply(new TakeOutline("../../out", first), "Ada", sortie.State.Revision));
        Assert.IsType<Refused>(sortie.Apply(new TakeOutline("bad", "people: 3"), "Ada", sortie.State.Revision));
        Assert.Equal("first", Workshop.Good(sortie.Choose("first")).State.Chosen);
    }

    [Fact]
    public void Edit_OnALineEndOfAnotherSystem_KeepsIt()
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        string path = shop.PathOf(sortie, "outlines/first.yaml");
        File.WriteAllText(path, "\uFEFF" + File.ReadAllText(path).ReplaceLineEndings("\r\n").TrimEnd());
        sortie.LookAtDisk();
        string before = File.ReadAllText(path);

        Workshop.Good(sortie.Apply(new PinPerson(new("latch/look")), "Ada", sortie.State.Revision));

        string after = File.ReadAllText(path);
        Assert.Equal((1, 1), (Workshop.Changed(before, after).Gone.Length, Workshop.Changed(before, after).Come.Length));
        Assert.Equal("  - {leg: latch/look, who: pinned, way: auto, anchor: lock}\r\n", Workshop.Changed(before, after).Come[0]);
        Assert.Equal(0xEF, File.ReadAllBytes(path)[0]);
        Workshop.Good(sortie.Undo("Ada"));
        Assert.Equal(before, File.ReadAllText(path));
    }

    [Fact]
    public async Task Rehearse_ShowsWhatMovesWouldComeTo_AndChangesNothing()
    {
        using OpenSortie sortie = shop.Open("skerry");
        SortieState before = sortie.State;
        List<SortieState> shown = [];

        await sortie.Rehearse(8, shown.Add);

        Assert.NotEmpty(shown);
        Assert.All(shown, state => Assert.Equal(Proving.Quick, state.Proving));
        Assert.DoesNotContain(shown, state => state.IsClean == true);
        Assert.Contains(shown, state => !state.Files.SequenceEqual(before.Files));
        Assert.Equal(before.TextRevision, sortie.State.TextRevision);
        Assert.Equal(before.Files.AsEnumerable(), sortie.State.Files);
        Assert.Null(sortie.UndoOf(""));
    }

    [Fact]
    public async Task Edits_OneAfterAnother_LeaveOneWholeVerdict_AndThatOfTheLast()
    {
        using OpenSortie sortie = shop.Open("skerry");
        int wholes = 0;
        sortie.Changed += state => wholes += state.Proving == Proving.Whole ? 1 : 0;
        Stopwatch clock = Stopwatch.StartNew();
        for (int i = 0; i < 6; i++) Workshop.Good(sortie.Apply(i % 2 == 0 ? new PinPerson(new("head/mate")) : new Unpin(new("head/mate")), "Ada", sortie.State.Revision));
        TestContext.Current.TestOutputHelper?.WriteLine($"{clock.ElapsedMilliseconds / 6} ms an edit");
        SortieState whole = await sortie.Whole(TestContext.Current.CancellationToken);
        Assert.Equal(sortie.State.Plan, whole.Plan);
        Assert.True(SpinWait.SpinUntil(() => Volatile.Read(ref wholes) > 0, TimeSpan.FromSeconds(20)));
        Assert.InRange(wholes, 1, 6);
        Assert.True(whole.IsClean);
    }
}
