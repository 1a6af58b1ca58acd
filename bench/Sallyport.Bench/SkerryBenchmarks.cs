using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using Sallyport.Desk;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Bench;

/// <summary>The demo scenario and a plan of it, made once for the benchmarks that start from one.</summary>
internal static class Skerry
{
    public static string Folder { get; } = Path.Combine(Root(), "scenarios", "skerry");

    /// <summary>The outline that the tests of a briefing use too.</summary>
    public static string BriefedOutline => Path.Combine(Root(), "tests", "Shared", "skerry-outline.yaml");

    public static Scenario Scenario { get; } = ScenarioReader.Read(Folder).Value ?? throw new InvalidOperationException("the demo scenario cannot be read");

    public static Expander Expander { get; } = new(Scenario);

    private static readonly Lazy<Outline> Planned = new(() => Proving.FirstPlan(Scenario));

    private static readonly Lazy<string> Written = new(WriteOutline);

    public static Outline Outline => Planned.Value;

    /// <summary>The outline in a file of its own, as a user would give it.</summary>
    public static string OutlineFilePath => Written.Value;

    public static ImmutableArray<Timeline> Timelines => [Expander.Expand(Outline, Branch.Likely, "bench").Timeline!];

    private static string WriteOutline()
    {
        string path = Path.Combine(Directory.CreateTempSubdirectory("sallyport-bench-").FullName, "plan.yaml");
        File.WriteAllText(path, OutlineFile.Write(Outline));
        return path;
    }

    private static string Root()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Sallyport.slnx"))) return folder.FullName;
        throw new InvalidOperationException("the benchmarks run outside the repository");
    }
}

/// <summary>Waits of milliseconds: reading, checking, drawing.</summary>
public class ShortWaits
{
    private ImmutableArray<(Timeline, Trace)> played;
    private Verdict verdict = null!;

    [GlobalSetup]
    public void Prepare()
    {
        played = [.. Skerry.Timelines.Select(timeline => (timeline, Player.Play(Skerry.Scenario, timeline)))];
        verdict = Judge.Of(Skerry.Scenario, played);
    }

    /// <summary>From the folder to the scenario.</summary>
    [Benchmark]
    public object ReadSkerry() => ScenarioReader.Read(Skerry.Folder).Value!;

    /// <summary>All that <c>check</c> does but start a process and print: read, expand, play, judge.</summary>
    [Benchmark]
    public bool CheckSkerry() => SortieDesk.Open(Skerry.Folder).Value!.Check(Skerry.OutlineFilePath, asIs: false).Plan!.Verdict.Clean;

    /// <summary>The same without reading, as the desk does after each edit.</summary>
    [Benchmark]
    public bool CheckSkerryWithoutReading() => Proving.IsClean(Skerry.Scenario, Skerry.Expander, Skerry.Outline, out _);

    /// <summary>From the plan to the text of its picture.</summary>
    [Benchmark]
    public string DrawChart() => SvgWriter.Write(RangeChart.Draw(Skerry.Scenario, played, verdict, new("plan", null)));
}

/// <summary>How many candidates search tries in the time of one proof.</summary>
public class Trying
{
    private const int Decodes = 8000;

    private Annealer lane = null!;
    private ImmutableArray<Timeline> timelines;

    [GlobalSetup]
    public void Prepare()
    {
        timelines = Skerry.Timelines;
        SearchCase all = new(Skerry.Scenario, Skerry.Expander);
        lane = new(all, LaneSetting.Lanes[0], 7, Starts.First(all), [], []);
        // As warm as a search is after its first epochs.
        lane.Run(Decodes * 4, 0.2);
    }

    /// <summary>One proof of a plan: play and judge.</summary>
    [Benchmark(Baseline = true)]
    public bool PlayAndJudge() => Proving.Judged(Skerry.Scenario, timelines).Clean;

    /// <summary>One candidate changed and decoded, on one core.</summary>
    [Benchmark(OperationsPerInvoke = Decodes)]
    public long Decode()
    {
        lane.Run(Decodes, 0.2);
        return lane.Decodes;
    }
}

/// <summary>Waits of seconds: the first plan, and all of <c>plan</c> with its default effort.</summary>
public class LongWaits
{
    /// <summary>From the scenario read to the first plan that plays clean, way tables included.</summary>
    [Benchmark]
    public object FirstPlan() => Proving.FirstPlan(Skerry.Scenario);

    /// <summary>From the folder to the plan of the default effort, proven.</summary>
    [Benchmark]
    public bool PlanSkerry() => SortieDesk.Open(Skerry.Folder).Value!.Plan("plan", SearchWish.Usual.Effort, SearchWish.Usual.Seed, from: null, _ => { }, CancellationToken.None).Plan!.Verdict.Clean;
}
