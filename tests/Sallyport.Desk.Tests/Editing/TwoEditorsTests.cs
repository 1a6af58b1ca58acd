using Sallyport.Model;

namespace Sallyport.Desk.Tests;

public sealed class TwoEditorsTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    private const string Jobs = "jobs.yaml", Title = "jobs/0/title";

    [Fact]
    public void Open_Twice_IsOneScenario_UntilTheLastCloses()
    {
        OpenSortie one = shop.Open("starter"), two = shop.Open("starter");
        Assert.Same(one, two);
        List<long> seen = [];
        two.Changed += state =>
        {
            lock (seen) seen.Add(state.Revision);
        };
        Workshop.Good(one.Apply(new SetValue(Jobs, Title, "Changed"), "Ada", one.State.Revision));
        Assert.Equal("Changed", two.State.Scenario!.Jobs[0].Title);
        Assert.True(SpinWait.SpinUntil(() => { lock (seen) return seen.Count > 0; }, TimeSpan.FromSeconds(20)));
        lock (seen) Assert.Equal(seen.Order(), seen);
        one.Dispose();
        Workshop.Good(two.Apply(new SetValue(Jobs, Title, "Changed again"), "Ben", two.State.Revision));
        two.Dispose();
        Assert.IsType<Refused>(two.Apply(new SetValue(Jobs, Title, "Too late"), "Ben", two.State.Revision));
        using OpenSortie three = shop.Open("starter");
        Assert.NotSame(one, three);
        Assert.Equal("Changed again", three.State.Scenario!.Jobs[0].Title);
    }

    [Fact]
    public void Apply_OnAnOldState_OtherLines_IsMerged()
    {
        using OpenSortie sortie = shop.Open("skerry");
        long seen = sortie.State.Revision;
        Workshop.Good(sortie.Apply(new MoveLeg(new("scar/patch"), new("EV1"), new("next/second")), "Ada", seen));

        Workshop.Good(sortie.Apply(new PinPerson(new("head/mate")), "Ben", seen));
        SortieState both = Workshop.Good(sortie.Apply(new SetValue("gear.yaml", "gear/0/title", "Renamed by Cy"), "Cy", seen)).State;

        LegEntry[] legs = [.. both.Plan!.Outline!.People.SelectMany(list => list.Entries).OfType<LegEntry>()];
        Assert.True(Array.FindIndex(legs, leg => leg.Leg.Value == "scar/patch") < Array.FindIndex(legs, leg => leg.Leg.Value == "next/second"));
        Assert.True(legs.Single(leg => leg.Leg.Value == "head/mate").Pins.Who);
        Assert.Equal("Renamed by Cy", both.Scenario!.Gear.First().Title);
        // Each takes back what is theirs, and nothing else.
        SortieState without = Workshop.Good(sortie.Undo("Ada")).State;
        Assert.True(without.Plan!.Outline!.People.SelectMany(list => list.Entries).OfType<LegEntry>().Single(leg => leg.Leg.Value == "head/mate").Pins.Who);
        Assert.Equal("Renamed by Cy", without.Scenario!.Gear.First().Title);
    }

    [Fact]
    public void Apply_OnAnOldState_SameLines_IsAConflictWithBothTexts()
    {
        using OpenSortie sortie = shop.Open("starter");
        long seen = sortie.State.Revision;
        string before = shop.TextOf(sortie, Jobs);
        Workshop.Good(sortie.Apply(new SetValue(Jobs, Title, "What Ada wants"), "Ada", seen));
        string standing = shop.TextOf(sortie, Jobs);

        Conflict conflict = Assert.IsType<Conflict>(sortie.Apply(new SetValue(Jobs, Title, "What Ben wants"), "Ben", seen));

        Assert.Equal((Jobs, "Ada", before, standing), (conflict.File, conflict.By, conflict.Before, conflict.Theirs));
        Assert.Contains("What Ben wants", conflict.Mine);
        Assert.Equal(standing, shop.TextOf(sortie, Jobs));
        Assert.Null(sortie.UndoOf("Ben"));
        // Seen, and meant all the same.
        Workshop.Good(sortie.Apply(new SetValue(Jobs, Title, "What Ben wants"), "Ben", sortie.State.Revision));
        // Ada's part cannot be taken back alone any more.
        Assert.Contains("Ben", Assert.IsType<Refused>(sortie.Undo("Ada")).Why);
    }

    [Fact]
    public void TwoWhoMoveTheSameLeg_AreAConflict_NotALegTwice()
    {
        using OpenSortie sortie = shop.Open("skerry");
        long seen = sortie.State.Revision;
        Workshop.Good(sortie.Apply(new MoveLeg(new("tray/fetch"), new("EV1"), new("scar/patch")), "Ada", seen));

        Assert.IsType<Conflict>(sortie.Apply(new MoveLeg(new("tray/fetch"), new("EV2"), new("filter/check")), "Ben", seen));

        Assert.Single(sortie.State.Plan!.Outline!.People.SelectMany(list => list.Entries).OfType<LegEntry>(), leg => leg.Leg.Value == "tray/fetch");
    }

    [Fact]
    public async Task Disk_ChangedByAnotherProgram_IsTakenOver_WithoutBeingAsked()
    {
        using OpenSortie sortie = shop.Open("starter");
        TaskCompletionSource<SortieState> told = new();
        sortie.Changed += state =>
        {
            if (state.LastChange.Contains("disk", StringComparison.Ordinal)) told.TrySetResult(state);
        };
        shop.Elsewhere(sortie, Jobs, sortie.State.Scenario!.Jobs[0].Title, "From elsewhere");

        SortieState state = await told.Task.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);

        Assert.Equal("From elsewhere", state.Scenario!.Jobs[0].Title);
        Assert.Equal("changed on disk: jobs.yaml", state.LastChange);
    }

    [Fact]
    public void Disk_ChangedUnderAnEdit_OtherLines_BothStand()
    {
        using OpenSortie sortie = shop.Open("starter");
        long seen = sortie.State.Revision;
        Job job = sortie.State.Scenario!.Jobs[0];
        shop.Elsewhere(sortie, Jobs, job.Legs[0].Title, "From elsewhere");

        SortieState state = Workshop.Good(sortie.Apply(new SetValue(Jobs, Title, "From here"), "Ada", seen)).State;

        Assert.Equal(("From here", "From elsewhere"), (state.Scenario!.Jobs[0].Title, state.Scenario.Jobs[0].Legs[0].Title));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Disk_ChangedUnderAnEdit_SameLines_ShowsBoth_AndLosesNothing(bool mine)
    {
        using OpenSortie sortie = shop.Open("starter");
        long seen = sortie.State.Revision;
        shop.Elsewhere(sortie, Jobs, sortie.State.Scenario!.Jobs[0].Title, "From elsewhere");

        Assert.IsType<Conflict>(sortie.Apply(new SetValue(Jobs, Title, "From here"), "Ada", seen));

        DiskConflict conflict = Assert.Single(sortie.State.DiskConflicts);
        Assert.Contains("From here", conflict.Mine);
        Assert.Contains("From elsewhere", conflict.Theirs);
        Assert.Contains("From elsewhere", shop.TextOf(sortie, Jobs));
        // Nothing else is done to this file before it is settled.
        Assert.Contains("choose", Assert.IsType<Refused>(sortie.Apply(new SetValue(Jobs, "jobs/0/value", "3"), "Ben", sortie.State.Revision)).Why);

        Workshop.Good(mine ? sortie.KeepMine(Jobs) : sortie.TakeTheirs(Jobs));

        Assert.Empty(sortie.State.DiskConflicts);
        Assert.Equal(mine ? "From here" : "From elsewhere", sortie.State.Scenario!.Jobs[0].Title);
        // The other one can be had back.
        Workshop.Good(sortie.Undo("Ada"));
        Assert.Equal(mine ? "From elsewhere" : "From here", sortie.State.Scenario!.Jobs[0].Title);
        Assert.Equal(sortie.State.TextOf(Jobs), shop.TextOf(sortie, Jobs));
        Assert.IsType<Refused>(sortie.KeepMine(Jobs));
    }

    [Fact]
    public void Disk_BrokenByAnotherProgram_IsShownBroken_AndMendedHere()
    {
        using OpenSortie sortie = shop.Open("starter");
        string good = shop.TextOf(sortie, Jobs);
        File.WriteAllText(shop.PathOf(sortie, Jobs), good.Replace("worth: ", "worht: "));
        sortie.LookAtDisk();

        Assert.Null(sortie.State.Scenario);
        Assert.Null(sortie.State.IsClean);
        Assert.Contains(sortie.State.Problems, problem => problem.File == Jobs && problem.Line > 0);
        Assert.Equal(CardState.Broken, Assert.Single(shop.Folder.Scenarios()).State);

        Workshop.Good(sortie.Apply(new ReplaceText(Jobs, good), "Ada", sortie.State.Revision));

        Assert.Equal(good, shop.TextOf(sortie, Jobs));
        Assert.NotNull(sortie.State.Plan);
    }

    [Fact]
    public void ManyAtOnce_EachEditIsThere_AndNoneTwice()
    {
        using OpenSortie sortie = shop.Open("starter");
        Parallel.For(0, 8, i =>
        {
            string file = $"outlines/by-{i}.yaml";
            for (int turn = 0; turn < 5; turn++)
                Workshop.Good(sortie.Apply(new ReplaceText(file, $"# {i} {turn}\nscenario: starter\npeople: {{}}\n"), $"by-{i}", sortie.State.Revision));
        });
        for (int i = 0; i < 8; i++) Assert.StartsWith($"# {i} 4\n", shop.TextOf(sortie, $"outlines/by-{i}.yaml"));
    }
}
