using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>How much to search.</summary>
/// <param name="Effort">Epochs.</param>
/// <param name="Seed">The seed; the same effort and seed give the same outline.</param>
/// <param name="From">An outline to go on from, its pins kept; null to begin afresh.</param>
/// <param name="Threads">How many threads the lanes share; what comes out does not depend on it.</param>
/// <param name="Decodes">Candidates that each of eight lanes tries in an epoch; at least 20. Where units are many, fewer lanes try as many together.</param>
public sealed record SearchOptions(int Effort, int Seed, Outline? From = null, int Threads = 1, int Decodes = 8_000);

/// <summary>How far a search has got.</summary>
/// <param name="Epoch">Epochs finished.</param>
/// <param name="Decodes">Candidates tried.</param>
/// <param name="Jobs">Jobs in the best plan that was accepted; 0 with none yet.</param>
/// <param name="Value">Its value.</param>
/// <param name="End">Its end; null with none yet.</param>
public sealed record SearchProgress(int Epoch, long Decodes, int Jobs, int Value, Pet? End);

/// <summary>What a search came to.</summary>
/// <param name="Outline">The best outline that was accepted; null when none was.</param>
/// <param name="Epochs">Epochs finished.</param>
/// <param name="Decodes">Candidates tried.</param>
/// <param name="Refused">Outlines that search thought clean and the proof refused: by a rule that the proof alone guards, or for a bug of search.</param>
/// <param name="Why">With no outline, what kept the best candidate from being one, in words.</param>
public sealed record SearchResult(Outline? Outline, int Epochs, long Decodes, ImmutableArray<Outline> Refused, string Why);

/// <summary>
/// Searches outlines of one scenario: a fixed number of lanes, each annealing a fixed number of candidates an epoch, and an exchange between
/// epochs. So the same effort and seed give the same outline on any number of cores, and stopping after an epoch gives what that effort gives.
/// </summary>
public sealed class Searcher
{
    /// <summary>The first epoch is cut into slices, so that a first plan is there at once.</summary>
    private const int FirstSlices = 20;

    /// <summary>After each epoch, and each slice of the first, at most so many plans are offered to the proof.</summary>
    private const int MostOffers = 8;

    /// <summary>Over so many epochs the lanes cool once; then those that are worst go on from the best plan of all, hot again.</summary>
    private const int CoolingEpochs = 8;

    /// <summary>Where there are many units, over so many the first time, and each time twice as many as the time before: a search as long as it usually is cools once.</summary>
    private const int LongCoolingEpochs = 15;

    /// <summary>Half-way down, so many lanes that lag behind begin anew from the best plan of all, as warm as they are.</summary>
    private const int Laggards = 2;

    /// <summary>After so many coolings a plan that the last one left as it was is handed to the solver, part by part: as many as a search makes that is not told to go on longer.</summary>
    private const int CoolingsAlone = 2;

    private readonly SearchCase all;
    private readonly Expander expander;

    /// <summary>Prepares to search.</summary>
    /// <param name="scenario">The scenario, with what of the wishes can be put into it.</param>
    /// <param name="expander">Its expander.</param>
    /// <param name="wishes">What else the order of legs must keep to; null for nothing.</param>
    public Searcher(Scenario scenario, Expander expander, IReadOnlyList<Wish>? wishes = null)
    {
        this.expander = expander;
        all = new(scenario, expander);
        foreach (Wish wish in wishes ?? []) wish.Arrange(all);
    }

    /// <summary>Searches until the effort is spent or cancelled; keeps the best plan that <paramref name="accept"/> takes.</summary>
    /// <param name="options">How much.</param>
    /// <param name="accept">Expands, plays and judges an outline: true when it plays clean.</param>
    /// <param name="progress">Told after each epoch, and when a first plan is there.</param>
    /// <param name="cancel">Ends the search after the epoch under way; its best plan is kept.</param>
    public SearchResult Run(SearchOptions options, Func<Outline, bool> accept, Action<SearchProgress> progress, CancellationToken cancel)
    {
        (Candidate start, UnitPins[] pins) = options.From is { } from ? new OutlineReading(all, expander).Read(from, asTold: false) : (Starts.First(all), []);
        return Run(options, [start], pins, OutlineReading.ByHand(options.From), accept, progress, cancel);
    }

    /// <summary>The case searched, for whoever gives it a past.</summary>
    internal SearchCase Case => all;

    /// <summary>The same from several starts, of which each lane takes one in turn.</summary>
    internal SearchResult Run(SearchOptions options, IReadOnlyList<Candidate> starts, UnitPins[] pins, IReadOnlyDictionary<LegId, LegEntry> byHand,
        Func<Outline, bool> accept, Action<SearchProgress> progress, CancellationToken cancel)
    {
        if (WhyNever() is { } never) return new(null, 0, 0, [], never);
        HashSet<ulong> refusedKeys = [];
        IReadOnlyList<LaneSetting> settings = all.HasMany ? LaneSetting.Few : LaneSetting.Lanes;
        int decodes = options.Decodes * LaneSetting.Lanes.Count / settings.Count;
        Annealer[] lanes = [.. settings.Select((setting, i) => new Annealer(all, setting, options.Seed * LaneSetting.Lanes.Count + i, starts[i % starts.Count], pins, refusedKeys))];
        Annealer Leader() => lanes.MinBy(lane => lane.BestScore)!;
        long Decodes() => lanes.Sum(lane => lane.Decodes);
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = Math.Max(1, options.Threads) };
        Outline? best = null;
        PlanScore bestScore = PlanScore.Worst;
        ImmutableArray<Outline>.Builder refused = ImmutableArray.CreateBuilder<Outline>();
        Candidate plan = starts[0];
        int epoch = 0, jobs = 0, found = 0, part = 0, coolings = 0, cooling = all.HasMany ? LongCoolingEpochs : CoolingEpochs;
        PartMoves parts = new(all, expander.Graph, pins);
        PlanScore ordered = PlanScore.Worst;

        // The best that the lanes keep, the best of all first: the proof may refuse some, by rules that search does not see.
        void TryBest(int epochs)
        {
            foreach (Kept one in lanes.SelectMany(lane => lane.Best).OrderBy(one => one.Score).DistinctBy(one => one.Key).Take(MostOffers).ToList())
            {
                if (one.Score.Broken > 0 || one.Score.CompareTo(bestScore) >= 0) break;
                Outline outline = Write(one.Candidate, pins, byHand, new(epochs, options.Seed), []);
                if (!accept(outline))
                {
                    refused.Add(outline);
                    refusedKeys.Add(one.Key);
                    continue;
                }
                (best, bestScore, jobs) = (outline, one.Score, one.Candidate.JobIn.Count(isIn => isIn));
                (plan, found) = (one.Candidate, epochs);
                progress(new(epochs, Decodes(), jobs, bestScore.Value, Pet.FromSeconds(bestScore.End)));
                break;
            }
            foreach (Annealer lane in lanes) lane.Forget();
        }

        // Once a plan: what annealing did not better in a whole cooling. What comes of it a lane takes up.
        void OrderAnew()
        {
            if (best is null || all.SoFar is not null || epoch - found < part || ordered == bestScore) return;
            ordered = bestScore;
            if (parts.Improve(plan, bestScore, refusedKeys, options.Threads, cancel) is not { } better) return;
            lanes.MaxBy(lane => lane.BestScore)!.Take(better.Candidate, better.Score);
            TryBest(epoch);
        }

        // A start may be a plan already.
        if (all.SoFar is not null) TryBest(0);
        while (epoch < options.Effort && !cancel.IsCancellationRequested)
        {
            if (epoch == 0)
                for (int slice = 0; slice < FirstSlices; slice++)
                {
                    Parallel.ForEach(lanes, parallel, lane => lane.Run(decodes / FirstSlices, 0.2));
                    if (best is null) TryBest(1);
                }
            else
            {
                // Slowly from hot to cold over several epochs, and then again.
                if (part == cooling)
                {
                    if (++coolings >= CoolingsAlone) OrderAnew();
                    Exchange(lanes);
                    (part, cooling) = (0, all.HasMany ? 2 * cooling : cooling);
                }
                else if (part == cooling / 2) Restart(lanes);
                Parallel.ForEach(lanes, parallel, lane => lane.Run(decodes, 1, (double)part / cooling, (part + 1.0) / cooling));
                part++;
            }
            epoch++;
            TryBest(epoch);
            progress(new(epoch, Decodes(), jobs, best is null ? 0 : bestScore.Value, best is null ? null : Pet.FromSeconds(bestScore.End)));
        }
        if (best is null) return new(null, epoch, Decodes(), refused.ToImmutable(), refused.Count > 0 ? "every plan that search found was refused by the proof; try more effort or another seed" : WhyNone(Leader().BestScore, Decodes()));
        best = best with { Made = new(epoch, options.Seed), LeftOut = new LeftOutReasons(all, pins).Explain(plan) };
        // What a decision would need may be past.
        if (all.SoFar is null) best = new Decisions(all, expander, pins, accept).TryMake(plan, best, byHand) ?? best;
        return new(best, epoch, Decodes(), refused.ToImmutable(), "");
    }

    internal Outline Write(Candidate candidate, UnitPins[] pins, IReadOnlyDictionary<LegId, LegEntry> byHand, MadeBy made, ImmutableArray<LeftOut> leftOut)
    {
        List<Deed> deeds = [];
        Decoder decoder = new(all);
        decoder.Decode(candidate, pins, deeds);
        return new OutlineBuilder(all, expander.Graph, byHand).Build(deeds, [.. decoder.Commands()], decoder.Voices(), made, leftOut);
    }

    /// <summary>The worse half of the lanes goes on from the best plan of all, the others each from their own best.</summary>
    private static void Exchange(Annealer[] lanes)
    {
        Annealer[] ranked = [.. lanes.OrderBy(lane => lane.BestScore)];
        for (int rank = 0; rank < ranked.Length; rank++) GoOn(ranked[rank], rank < ranked.Length / 2 ? ranked[rank] : ranked[0]);
    }

    /// <summary>The worst lanes go on from the best plan of all, the others from where they are.</summary>
    private static void Restart(Annealer[] lanes)
    {
        Annealer[] ranked = [.. lanes.OrderBy(lane => lane.BestScore)];
        foreach (Annealer lane in ranked[^Laggards..]) GoOn(lane, ranked[0]);
    }

    private static void GoOn(Annealer lane, Annealer from)
    {
        if (from.Best.Count > 0) lane.GoOnFrom(from.Best[0].Candidate, from.BestScore);
    }

    /// <summary>With a must-job from whose site nobody who may do it is home in time, whatever the order, why there is nothing to search for; otherwise null.</summary>
    internal string? WhyNever()
    {
        Decoder decoder = new(all);
        for (int u = 0; u < all.Units.Length; u++)
        {
            SearchCase.Unit unit = all.Units[u];
            if (all.Leavable[unit.Job] || all.SoFar?.Units[u] == true || unit.Options.Length == 0) continue;
            int beyond = unit.Options.Min(who => who.Select((p, role) => decoder.BeyondReturn(p, unit.Legs[role])).Max());
            if (beyond > 0)
                return $"none can be found: leg {all.Legs[unit.Legs[0]].Id} of a must-job misses a limit of the return times by {Duration.FromSeconds(beyond)} at the least, whoever does it and whenever";
        }
        return null;
    }

    private string WhyNone(PlanScore score, long decodes)
    {
        List<string> reasons = [];
        if (score.End > all.PetLimit) reasons.Add($"the must-jobs end at {Pet.FromSeconds(score.End)}, the limit is {Pet.FromSeconds(all.PetLimit)}");
        long rest = score.Broken - Math.Max(0, score.End - all.PetLimit);
        if (rest > 0) reasons.Add($"other limits (return time, light, links, thermal clocks, pins, room on the suit) are missed by {Duration.FromSeconds((int)Math.Min(rest, int.MaxValue))} in all");
        return $"none found: in the best of {decodes} candidates {string.Join(", and ", reasons)}";
    }
}
