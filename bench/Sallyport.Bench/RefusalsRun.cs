using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Sallyport.Tests;

namespace Sallyport.Bench;

/// <summary>What the proof refuses of what search offers, by rule: what search has still to be taught. Each run is of a stated effort, so that it does not
/// depend on the machine.</summary>
internal static class RefusalsRun
{
    private const int RandomSeeds = 300, RandomDecodes = 1_000;

    /// <summary>Runs it.</summary>
    /// <param name="words"><c>random</c>, the name of a demo, or a size of the frozen family; then an effort, 1 without it; with <c>why</c> each finding in words.</param>
    public static void Run(string[] words)
    {
        string what = words.ElementAtOrDefault(0) ?? "skerry";
        int effort = words.Length > 1 && words[1] != "why" ? int.Parse(words[1], CultureInfo.InvariantCulture) : 1;
        bool inWords = words.Contains("why");
        SortedDictionary<string, int> refusals = new(StringComparer.Ordinal);
        int offered = 0, refused = 0, none = 0, seeds = 0, decisions = 0;
        Stopwatch clock = Stopwatch.StartNew();
        Scenario? demo = what == "random" || char.IsAsciiDigit(what[0]) ? null
            : ScenarioReader.Read(Path.Combine(Path.GetDirectoryName(Skerry.Folder)!, what)).Value ?? throw new InvalidOperationException($"the demo '{what}' cannot be read");
        int last = demo is not null ? 10 : what == "random" ? RandomSeeds : FrozenFamily.Seeds.Count();
        for (int seed = 1; seed <= last; seed++)
        {
            Scenario scenario = demo ?? (what == "random" ? RandomScenario.Of(seed) : FrozenFamily.Of(int.Parse(what, CultureInfo.InvariantCulture), seed));
            Expander expander = new(scenario);
            SearchProgress? found = null;
            List<string> told = [];
            bool Accept(Outline outline)
            {
                string[] why = Refusals(scenario, expander, outline, inWords);
                // How late a decision may be taken is found by trying: what is too late is refused, and is no fault of search.
                if (outline.Decision is not null || outline.People.SelectMany(list => list.Entries).OfType<LegEntry>().Any(leg => leg.Pins != Pins.None))
                {
                    decisions++;
                    told.Add(why.Length > 0 ? "decision refused" : "decision taken");
                    return why.Length == 0;
                }
                offered++;
                foreach (string rule in why) refusals[rule] = refusals.GetValueOrDefault(rule) + 1;
                if (why.Length > 0) refused++;
                told.Add(why.Length > 0 ? string.Join('+', why) : "taken");
                return why.Length == 0;
            }
            SearchResult result = new Searcher(scenario, expander).Run(new(effort, seed, null, Environment.ProcessorCount, what == "random" ? RandomDecodes : 8_000), Accept, one => found = one, CancellationToken.None);
            seeds++;
            if (result.Outline is null) none++;
            if (what != "random") Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"seed {seed}: {(result.Outline is null ? "none" : $"value {found!.Value}, end {found.End}")}, {result.Decodes} candidates; {string.Join(", ", told)}"));
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}, effort {effort}: {seeds} searches, {none} without a plan, {offered} plans offered, {refused} refused, {decisions} tries of a decision; {clock.Elapsed.TotalSeconds:0} s"));
        foreach ((string rule, int times) in refusals.OrderByDescending(pair => pair.Value)) Console.WriteLine($"| {rule} | {times} |");
    }

    /// <summary>The rules by which an outline is refused; none when it plays clean.</summary>
    private static string[] Refusals(Scenario scenario, Expander expander, Outline outline, bool inWords)
    {
        List<(Timeline Timeline, Model.Trace Trace)> played = [];
        foreach (Branch branch in outline.Decision is null ? [Branch.Likely] : Enum.GetValues<Branch>())
        {
            Expansion expansion = expander.Expand(outline, branch, "bench");
            if (expansion.Timeline is not { } timeline) return [$"not expanded: {expansion.Problem!.Code}"];
            played.Add((timeline, Player.Play(scenario, timeline)));
        }
        Verdict verdict = Judge.Of(scenario, played);
        GoOn goOn = new Detours(expander, outline).Expand;
        if (inWords)
            foreach (Finding finding in (verdict.Clean ? Judge.Of(scenario, played, goOn) : verdict).Findings.Where(finding => finding.Severity == Severity.Broken))
                Console.WriteLine($"    {played[0].Trace.To} {finding.Rule} {finding.At}: {finding.Sentence}");
        if (!verdict.Clean) return [.. verdict.Findings.Where(finding => finding.Severity == Severity.Broken).Select(RuleAndCause).Distinct().Order(StringComparer.Ordinal)];
        return Judge.IsClean(scenario, played, goOn) ? [] : ["branch.unproven"];
    }

    /// <summary>A rule, and with return times whether something closed is in the way.</summary>
    private static string RuleAndCause(Finding finding) => finding.Rule.Value
        + (finding.Sentence.Contains("closes it", StringComparison.Ordinal) ? " (no way)" : finding.Sentence.Contains("where that is closed", StringComparison.Ordinal) ? " (waiting)" : "");
}
