using System.Diagnostics;
using System.Globalization;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Bench;

/// <summary>Searches every case of the family for a stated time and prints what came of it.</summary>
internal static class FamilyRun
{
    /// <summary>Runs it.</summary>
    /// <param name="words">See <see cref="BenchWords"/>.</param>
    public static void Run(string[] words)
    {
        BenchWords asked = new(words);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{(asked.Effort is { } epochs ? $"{epochs} epochs" : $"{asked.Seconds} s")} a case, {Environment.ProcessorCount} cores. First: to the first plan that plays clean, way tables included."));
        Console.WriteLine("case    digest        first    value      end  decodes/s  refused  processor");
        List<double> firsts = [];
        int none = 0, all = 0;
        foreach (int legs in asked.Sizes)
            foreach (int seed in asked.Seeds)
            {
                all++;
                if (asked is { IsAlone: true, Effort: { } effort })
                {
                    RunAlone(legs, seed, effort);
                    continue;
                }
                if (RunCase(legs, seed, asked) is { } first) firsts.Add(first);
                else none++;
            }
        firsts.Sort();
        if (firsts.Count > 0)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{all} cases, {none} without a plan; first plan: median {firsts[firsts.Count / 2]:0.000} s, worst {firsts[^1]:0.000} s"));
    }

    /// <summary>One lane, which cools once, and hears of no other.</summary>
    private static void RunAlone(int legs, int seed, int epochs)
    {
        Scenario scenario = FrozenFamily.Of(legs, seed);
        Expander expander = new(scenario);
        SearchCase all = new(scenario, expander);
        Stopwatch clock = Stopwatch.StartNew();
        Annealer lane = new(all, LaneSetting.Lanes[0], seed, Starts.First(all), [], []);
        lane.Run(10 * epochs * LaneSetting.Lanes.Count * new SearchOptions(epochs, seed).Decodes, 1);
        Outline outline = new Searcher(scenario, expander).Write(lane.Best[0].Candidate, [], OutlineReading.ByHand(null), new(0, seed), []);
        bool clean = Proving.IsClean(scenario, expander, outline, out string why);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{legs}-{seed:00}   alone, {lane.Decodes} candidates in {clock.Elapsed.TotalSeconds:0} s: value {lane.BestScore.Value}, end {Pet.FromSeconds(lane.BestScore.End)}, {(clean ? "clean" : $"refused: {why}")}"));
    }

    private static double? RunCase(int legs, int seed, BenchWords asked)
    {
        Scenario scenario = FrozenFamily.Of(legs, seed);
        using CancellationTokenSource stop = new();
        if (asked.Effort is null) stop.CancelAfter(TimeSpan.FromSeconds(asked.Seconds));
        Stopwatch clock = Stopwatch.StartNew();
        TimeSpan before = Environment.CpuUsage.TotalTime;
        Expander expander = new(scenario);
        double? first = null;
        string refusal = "";
        SearchProgress? last = null;
        bool Accept(Outline outline)
        {
            bool clean = Proving.IsClean(scenario, expander, outline, out string why);
            if (clean) first ??= clock.Elapsed.TotalSeconds;
            else refusal = why;
            return clean;
        }
        SearchResult found = new Searcher(scenario, expander).Run(new(asked.Effort ?? int.MaxValue, seed, null, Environment.ProcessorCount), Accept, progress => last = progress, stop.Token);
        string name = string.Create(CultureInfo.InvariantCulture, $"{legs}-{seed:00}");
        string rate = string.Create(CultureInfo.InvariantCulture, $"{found.Decodes / clock.Elapsed.TotalSeconds,9:0}");
        string told = found.Outline is null
            ? string.Create(CultureInfo.InvariantCulture, $"    none                    {rate}  {found.Refused.Length}  {found.Why}")
            : string.Create(CultureInfo.InvariantCulture, $"{first:0.000} s  {last!.Value,5}/{scenario.Jobs.Sum(job => job.Value),-4} {last.End,8}  {rate}  {found.Refused.Length}");
        told += string.Create(CultureInfo.InvariantCulture, $"  {(Environment.CpuUsage.TotalTime - before).TotalSeconds:0.0} s");
        Console.WriteLine($"{name}   {scenario.Digest}  {told}{(refusal.Length > 0 ? $"  ({refusal})" : "")}");
        return first;
    }
}
