using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Trace = Sallyport.Model.Trace;

namespace Sallyport.Bench;

/// <summary>
/// What a proof costs: <c>check</c> of the demo stage by stage, and playing and judging a walk that is repeated until it is long. Every figure is the
/// least of its rounds, with the processor time beside it, since other work on the machine lengthens the one and hardly the other. The digest
/// is that of all that came out, so that a change that is to make nothing but speed can be seen to change nothing else.
/// </summary>
internal static class ProofRun
{
    private static readonly int[] Sizes = [300, 3_000, 30_000];

    /// <summary>Runs it.</summary>
    /// <param name="words"><c>check</c> or <c>long</c> for that part alone; with <c>rules</c>, what each rule costs on the longest walk is printed too.</param>
    public static void Run(string[] words)
    {
        Console.WriteLine($"{Environment.ProcessorCount} cores; the least of the rounds.");
        if (!words.Contains("long")) RunCheck();
        if (!words.Contains("check")) RunLong(words.Contains("rules"));
    }

    private static void RunCheck()
    {
        Scenario scenario = Skerry.Scenario;
        Outline outline = Skerry.Outline;
        string path = Skerry.OutlineFilePath;
        ImmutableArray<Timeline> timelines = Skerry.Timelines;
        GoOn goOn = new Detours(Skerry.Expander, outline).Expand;
        ImmutableArray<(Timeline, Trace)> played = [.. timelines.Select(one => (one, Player.Play(scenario, one)))];
        Console.WriteLine("| stage | wall, ms | processor, ms | allocated, MB | digest |\n| --- | --- | --- | --- | --- |");
        Tell("play", 40, () => Player.Play(scenario, timelines[0]), PlanFiles.ToJson);
        Tell("judge, nothing followed", 40, () => Judge.Of(scenario, played), PlanFiles.ToJson);
        Tell("quick verdict of an outline, nothing followed", 20, () => Quick(scenario, Skerry.Expander, outline), PlanFiles.ToJson);
        Tell("the same, read from the folder first", 20, () => SortieDesk.Open(Skerry.Folder).Value!.Scenario is var read ? Quick(read, new(read), OutlineFile.Read(path, read).Value!) : null!, PlanFiles.ToJson);
        Tell("judge with contingencies", 8, () => Judge.Of(scenario, played, goOn), PlanFiles.ToJson);
        Tell("judge with contingencies and step times", 8, () => Judge.Of(scenario, played, goOn, stepTimes: true), PlanFiles.ToJson);
        Tell("check, from the folder", 8, () => SortieDesk.Open(Skerry.Folder).Value!.Check(path, asIs: false).Plan!.Verdict, PlanFiles.ToJson);
    }

    /// <summary>What an edit is answered with at once: re-derived, expanded, played and judged. What it did not follow stands in its list of what was not checked.</summary>
    private static Verdict Quick(Scenario scenario, Expander expander, Outline outline)
    {
        Outline complete = new Completion(scenario, expander).Complete(outline).Outline;
        return Proving.Judged(scenario, (complete.Decision is null ? [Branch.Likely] : Enum.GetValues<Branch>()).Select(branch => expander.Expand(complete, branch, "bench").Timeline!));
    }

    private static void RunLong(bool rules)
    {
        Timeline plan = Skerry.Timelines[0];
        Console.WriteLine("| activities | wall, ms | processor, ms | allocated, MB | a thousand activities, wall, ms | the same, 30,000 in a row, wall, ms | processor, ms | digest |\n| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (int size in Sizes)
        {
            (Scenario world, Timeline walk) = LongWalk.Of(Skerry.Scenario, plan, size);
            Figures figures = Measure(size > 10_000 ? 4 : 12, () => Prove(world, walk), of => [.. PlanFiles.ToJson(of.Trace), .. PlanFiles.ToJson(of.Verdict)]);
            // A short walk is over before the collector has to run: only as many activities in a row pay for what all of them leave behind.
            int times = Sizes[^1] / size;
            Figures row = Measure(4, () => { for (int time = 0; time < times; time++) Prove(world, walk); return 0; }, _ => []);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"| {size:#,0} | {figures.Wall:0.0} | {figures.Processor:0.0} | {figures.Megabytes:0.0} | {figures.Wall * 1000 / size:0.0} | {row.Wall * 1000 / Sizes[^1]:0.0} | {row.Processor * 1000 / Sizes[^1]:0.0} | {figures.Digest} |"));
            if (size == Sizes[^1] && rules) TellRules(world, walk);
        }
    }

    private static (Trace Trace, Verdict Verdict) Prove(Scenario scenario, Timeline timeline)
    {
        Trace trace = Player.Play(scenario, timeline);
        return (trace, Judge.Of(scenario, [(timeline, trace)]));
    }

    private static void Tell<T>(string stage, int rounds, Func<T> work, Func<T, byte[]> result)
    {
        Figures figures = Measure(rounds, work, result);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {stage} | {figures.Wall:0.0} | {figures.Processor:0.0} | {figures.Megabytes:0.0} | {figures.Digest} |"));
    }

    private static Figures Measure<T>(int rounds, Func<T> work, Func<T, byte[]> result)
    {
        double wall = double.MaxValue, processor = double.MaxValue, megabytes = double.MaxValue;
        T made = work();
        // What is hot is compiled anew beside the first rounds: they would tell what the compiler costs.
        for (long warm = Stopwatch.GetTimestamp(); Stopwatch.GetElapsedTime(warm).TotalSeconds < 3;) made = work();
        for (int round = 0; round < rounds; round++)
        {
            GC.Collect();
            long bytes = GC.GetTotalAllocatedBytes(precise: true), start = Stopwatch.GetTimestamp();
            TimeSpan before = Environment.CpuUsage.TotalTime;
            made = work();
            wall = Math.Min(wall, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            processor = Math.Min(processor, (Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
            megabytes = Math.Min(megabytes, (GC.GetTotalAllocatedBytes(precise: true) - bytes) / 1e6);
        }
        return new(wall, processor, megabytes, Convert.ToHexStringLower(SHA256.HashData(result(made)))[..12]);
    }

    private static void TellRules(Scenario scenario, Timeline timeline)
    {
        long start = Stopwatch.GetTimestamp(), bytes = GC.GetTotalAllocatedBytes();
        Trace trace = Player.Play(scenario, timeline);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"play: {Stopwatch.GetElapsedTime(start).TotalMilliseconds:0} ms, {(GC.GetTotalAllocatedBytes() - bytes) / 1e6:0} MB, {trace.Changes.Length} changes, {trace.Facts.Length} facts"));
        Case given = new(scenario, timeline, trace);
        foreach (Rule rule in RuleBook.All.Where(rule => rule.Missing(scenario) is null))
        {
            (start, bytes) = (Stopwatch.GetTimestamp(), GC.GetTotalAllocatedBytes());
            int found = rule.Find(given).Count();
            double ms = Stopwatch.GetElapsedTime(start).TotalMilliseconds, mb = (GC.GetTotalAllocatedBytes() - bytes) / 1e6;
            if (ms > 5 || mb > 5) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{rule.Card.Id}: {ms:0} ms, {mb:0} MB, {found} findings"));
        }
    }

    private sealed record Figures(double Wall, double Processor, double Megabytes, string Digest);
}
