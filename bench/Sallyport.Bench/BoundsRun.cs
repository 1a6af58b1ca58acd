using System.Diagnostics;
using System.Globalization;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Bench;

/// <summary>
/// For every case of the family: a plan, and what no plan can better. Time is the processor's own, so that a machine with other work to do gives about
/// the same figures: <c>10s</c> stands for 10 s of two cores, half for the search and half for the bounds.
/// </summary>
internal static class BoundsRun
{
    /// <summary>Runs it.</summary>
    /// <param name="words">See <see cref="BenchWords"/>; a time a case.</param>
    public static void Run(string[] words)
    {
        BenchWords asked = new(words);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| case | value | at most | end | not before | gap | | first bound |\n| --- | --- | --- | --- | --- | --- | --- | --- |"));
        foreach (int legs in asked.Sizes)
        {
            List<double> gaps = [];
            foreach (int seed in asked.Seeds)
                if (RunCase(legs, seed, asked.Seconds) is { } gap) gaps.Add(gap);
            gaps.Sort();
            if (gaps.Count > 0) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{legs} legs, {gaps.Count} plans: end gap median {gaps[gaps.Count / 2]:0.0} %, mean {gaps.Average():0.0} %, worst {gaps[^1]:0.0} %"));
        }
    }

    /// <summary>One case; the gap of its end in per cent, null without a plan.</summary>
    private static double? RunCase(int legs, int seed, double seconds)
    {
        Scenario scenario = FrozenFamily.Of(legs, seed);
        Expander expander = new(scenario);
        SearchProgress? last = null;
        using (ProcessorTime time = new(seconds / 2))
            new Searcher(scenario, expander).Run(new(int.MaxValue, seed, null, Environment.ProcessorCount), outline => Proving.IsClean(scenario, expander, outline, out _), progress => last = progress, time.Token);

        Bounds bounds = new(scenario, expander);
        Bound most;
        double? first = null;
        using (ProcessorTime time = new(seconds / 8))
        {
            Stopwatch clock = Stopwatch.StartNew();
            most = bounds.MostValue(double.PositiveInfinity, double.PositiveInfinity, 2, time.Token, _ => first ??= clock.Elapsed.TotalSeconds);
        }
        string name = string.Create(CultureInfo.InvariantCulture, $"| {legs}-{seed:00} |");
        if (last?.End is not { } end)
        {
            Console.WriteLine($"{name} none | {(most.IsImpossible ? "there is none: proven" : most.Figure)} | | | | | |");
            return null;
        }
        Bound least;
        using (ProcessorTime time = new(seconds * 3 / 8)) least = bounds.LeastEnd(last.Value, end, double.PositiveInfinity, double.PositiveInfinity, 2, time.Token);
        double gap = 100.0 * (end.Seconds - least.Figure) / end.Seconds;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{name} {last.Value} | {most.Figure} of {scenario.Jobs.Sum(job => job.Value)} | {end} | {Pet.FromSeconds((int)least.Figure)} | {gap:0.0} % | {(least.IsReached ? "closed" : "")} | {first:0.00} s |"));
        return gap;
    }

    /// <summary>Cancels once this process has used so many seconds of two cores.</summary>
    private sealed class ProcessorTime : IDisposable
    {
        private readonly CancellationTokenSource stop = new();
        private readonly Timer timer;

        public ProcessorTime(double seconds)
        {
            TimeSpan until = Process.GetCurrentProcess().TotalProcessorTime + TimeSpan.FromSeconds(2 * seconds);
            timer = new(_ =>
            {
                if (Process.GetCurrentProcess().TotalProcessorTime >= until) stop.Cancel();
            }, null, 50, 50);
        }

        public CancellationToken Token => stop.Token;

        public void Dispose()
        {
            timer.Dispose();
            stop.Dispose();
        }
    }
}
