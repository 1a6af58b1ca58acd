using Sallyport.Draw;

namespace Sallyport.Desk.Tests;

public sealed class LongWorkTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Fact]
    public async Task Search_OnTheStarter_TellsHowFarItIs_AndItsPlanCanBeTaken()
    {
        using OpenSortie sortie = shop.Open("starter");
        List<SearchSight> seen = [];
        SearchRun run = sortie.StartSearch(new(Effort: 3, Seed: 5));
        run.Progress += told =>
        {
            lock (seen) seen.Add(told.Sight);
        };
        await run.Ended;

        FoundPlan found = Assert.Single(run.Found);
        Assert.True(found.Plan.Verdict.Clean);
        Assert.False(run.IsRunning);
        lock (seen) Assert.NotEmpty(seen);
        Assert.Equal(found.Plan.End, run.Sight.End);
        if (run.Sight.MostValue is { } most) Assert.True(most >= run.Sight.Value);
        SortieState taken = Workshop.Good(sortie.Apply(new TakeOutline("found", found.Text), "Ada", sortie.State.Revision)).State;
        Assert.Equal(("found", found.Plan.End), (taken.Chosen, taken.Plan!.End));
        Assert.False(OutlineFile.IsEdited(shop.PathOf(sortie, "outlines/found.yaml")));
        Assert.True((await sortie.Whole(TestContext.Current.CancellationToken)).IsClean);
    }

    [Fact]
    public async Task Search_Stopped_KeepsTheBest()
    {
        using OpenSortie sortie = shop.Open("tern");
        SearchRun run = sortie.StartSearch(new(Effort: 1_000_000, Seed: 3));
        TaskCompletionSource first = new();
        run.Progress += told =>
        {
            if (told.Sight is { Epoch: > 0, End: not null }) first.TrySetResult();
        };
        await first.Task.WaitAsync(TimeSpan.FromMinutes(3), TestContext.Current.CancellationToken);
        run.Stop();
        await run.Ended.WaitAsync(TimeSpan.FromMinutes(3), TestContext.Current.CancellationToken);
        Assert.True(Assert.Single(run.Found).Plan.Verdict.Clean);
        Assert.Equal("", run.Why);
    }

    [Fact]
    public async Task Alternatives_AfterASearch_AreCleanAndDiffer_AndSayHow()
    {
        using OpenSortie sortie = shop.Open("tern");
        SearchRun run = sortie.StartSearch(new(Effort: 2, Seed: 3));
        await run.Ended;
        await run.Alternatives(1);
        Assert.Equal(2, run.Found.Length);
        Assert.True(run.Found[1].Plan.Verdict.Clean);
        Assert.Equal("", run.Found[0].Differs);
        Assert.NotEqual("", run.Found[1].Differs);
    }

    [Fact]
    public void Ask_WhyOut_AnswersInWords_AndNonsenseIsAProblem()
    {
        using OpenSortie sortie = shop.Open("starter");
        string job = sortie.State.Scenario!.Jobs[^1].Id.Value;
        Assert.NotEmpty(sortie.Ask($"why-out {job}", 1, 7, TestContext.Current.CancellationToken).Answer!.Lines);
        Assert.NotEmpty(sortie.Ask("why not", 1, 7, TestContext.Current.CancellationToken).Problems);
    }

    [Fact]
    public void Brief_IntoTheOutFolderAndAsBytes_AreTheSame()
    {
        using OpenSortie sortie = shop.Open("starter");
        BriefingOptions options = new(PaperSize.A4, new DateOnly(2031, 6, 1));
        (var files, _, Problem? none) = sortie.BriefingFiles(options, TestContext.Current.CancellationToken);
        Assert.Null(none);
        (var written, _, none) = sortie.Brief(options, TestContext.Current.CancellationToken);
        Assert.Null(none);
        Assert.Equal(files.Select(file => file.Name).Order(), written.Select(path => Path.GetFileName(path)).Order());
        Assert.All(written, path => Assert.StartsWith(Path.Combine(shop.OutFolder, "starter", "first", "brief"), path));
        Assert.All(files.Where(file => file.Name.EndsWith(".txt", StringComparison.Ordinal)), file => Assert.Equal(file.Content, File.ReadAllBytes(written.Single(path => Path.GetFileName(path) == file.Name))));
    }

    [Fact]
    public void Compare_TwoOutlines_TellsWhoDoesWhatWhenInEach()
    {
        using OpenSortie sortie = shop.Open("skerry");
        string first = shop.TextOf(sortie, "outlines/first.yaml");
        Workshop.Good(sortie.Apply(new TakeOutline("second", first), "Ada", sortie.State.Revision));
        Workshop.Good(sortie.Apply(new LeaveOut(new("scar")), "Ada", sortie.State.Revision));

        OutlineComparison both = sortie.Compare("first", "second").Comparison!;

        LegInTwo scar = both.Legs.Single(leg => leg.Leg.Value == "scar/patch");
        Assert.NotNull(scar.FirstStart);
        Assert.Null(scar.SecondStart);
        Assert.True(both.Difference.Value < both.Difference.ValueBefore);
        Assert.Equal(sortie.State.Plan!.End, both.Second.End);
        Assert.Contains(both.Legs, leg => leg.FirstStart is not null && leg.SecondStart is not null);
    }
}
