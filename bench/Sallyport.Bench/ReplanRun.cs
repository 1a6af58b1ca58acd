using System.Diagnostics;
using System.Globalization;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Bench;

/// <summary>What a new plan from the middle of a walk takes: a step under way at two fifths of the plan takes 20 min longer than it was planned to.</summary>
internal static class ReplanRun
{
    private const int Longer = 20 * 60;

    /// <summary>Runs it.</summary>
    /// <param name="words">Sizes of the frozen family, 15 without any.</param>
    public static void Run(string[] words)
    {
        int[] sizes = words.Length == 0 ? [15] : [.. words.Select(word => int.Parse(word, CultureInfo.InvariantCulture))];
        Console.WriteLine("| case | plan | now | first plan | it is worth, and ends | after 2 s | dropped |\n| --- | --- | --- | --- | --- | --- | --- |");
        List<double> firsts = [];
        foreach (int legs in sizes)
            foreach (int seed in FrozenFamily.Seeds)
                if (RunCase(legs, seed) is { } first) firsts.Add(first);
        firsts.Sort();
        if (firsts.Count > 0) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{firsts.Count} plans; first: median {firsts[firsts.Count / 2]:0.000} s, worst {firsts[^1]:0.000} s"));
    }

    private static double? RunCase(int legs, int seed)
    {
        Scenario scenario = FrozenFamily.Of(legs, seed);
        string name = string.Create(CultureInfo.InvariantCulture, $"| {legs}-{seed:00} |");
        Expander expander = new(scenario);
        SearchProgress? planned = null;
        using CancellationTokenSource before = new(TimeSpan.FromSeconds(3));
        if (new Searcher(scenario, expander).Run(new(int.MaxValue, seed, null, Environment.ProcessorCount), outline => Proving.IsClean(scenario, expander, outline, out _), one => planned = one, before.Token).Outline is not { } plan)
        {
            Console.WriteLine($"{name} none | | | | | |");
            return null;
        }
        Timeline timeline = expander.Expand(plan, Branch.Likely, "bench").Timeline!;
        DoStep step = timeline.Activities.OfType<DoStep>().Where(one => one.Start.Seconds > planned!.End!.Value.Seconds * 2 / 5).MinBy(one => one.Start)!;
        Scenario longer = scenario with
        {
            Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg.Id != step.Leg ? leg : leg with
            { Steps = [.. leg.Steps.Select(one => one.Id != step.Step ? one : one with { Time = one.Time with { Likely = one.Time.Likely.Plus(Duration.FromSeconds(Longer)) } })] })] })],
        };
        Pet now = step.Start.Plus(Duration.FromSeconds(60));
        SearchProgress? first = null, last = null;
        using CancellationTokenSource stop = new(TimeSpan.FromSeconds(2));
        Stopwatch clock = Stopwatch.StartNew();
        Expander fresh = new(longer);
        double? took = null;
        Replanned made = new Replanner(longer, fresh).Run(plan, now, new(int.MaxValue, seed, null, Environment.ProcessorCount), (world, outline) => Proving.IsClean(world, fresh, outline, out _), one =>
        {
            if (one.End is null) return;
            took ??= clock.Elapsed.TotalSeconds;
            first ??= one;
            last = one;
        }, stop.Token);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{name} {planned!.Value}, {planned.End} | {now} | {(took is { } at ? $"{at:0.000} s" : "none: " + made.Why)} | {first?.Value}, {first?.End} | {last?.Value}, {last?.End} | {string.Join(", ", made.Dropped)} |"));
        return took;
    }
}
