using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>How much to search.</summary>
/// <param name="Effort">Epochs.</param>
/// <param name="Seed">The seed; the same effort and seed give the same outline.</param>
/// <param name="From">An outline to go on from, its pins kept; null to begin afresh.</param>
public sealed record SearchOptions(int Effort, int Seed, Outline? From);

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
/// <param name="Refused">Outlines that search thought clean and the proof refused: bugs of search.</param>
/// <param name="Why">With no outline, what kept the best candidate from being one, in words.</param>
public sealed record SearchResult(Outline? Outline, int Epochs, long Decodes, ImmutableArray<Outline> Refused, string Why);

/// <summary>Searches outlines of one scenario.</summary>
public sealed class Searcher
{
    private const int DecodesAnEpoch = 40_000;

    /// <summary>The first epoch is cut into slices, so that a first plan is there at once.</summary>
    private const int FirstSlices = 20;

    private readonly SearchCase all;
    private readonly Expander expander;

    /// <summary>Prepares to search.</summary>
    public Searcher(Scenario scenario, Expander expander)
    {
        this.expander = expander;
        all = new(scenario, expander);
    }

    /// <summary>Searches until the effort is spent or cancelled; keeps the best plan that <paramref name="accept"/> takes.</summary>
    /// <param name="options">How much.</param>
    /// <param name="accept">Expands, plays and judges an outline: true when it plays clean.</param>
    /// <param name="progress">Told after each epoch, and when a first plan is there.</param>
    /// <param name="cancel">Ends the search after the epoch under way; its best plan is kept.</param>
    public SearchResult Run(SearchOptions options, Func<Outline, bool> accept, Action<SearchProgress> progress, CancellationToken cancel)
    {
        (Candidate start, UnitPins[] pins) = options.From is { } from ? new OutlineReading(all).Read(from) : (Starts.First(all), []);
        IReadOnlyDictionary<LegId, LegEntry> byHand = OutlineReading.ByHand(options.From);
        Annealer lane = new(all, options.Seed, start, pins);
        Outline? best = null;
        PlanScore bestScore = PlanScore.Worst, lastTried = PlanScore.Worst;
        ImmutableArray<Outline>.Builder refused = ImmutableArray.CreateBuilder<Outline>();
        Candidate plan = start;
        int epoch = 0, jobs = 0;

        void TryBest(int epochs)
        {
            if (lane.BestScore.Broken > 0 || lane.BestScore.CompareTo(lastTried) >= 0) return;
            lastTried = lane.BestScore;
            Outline outline = Write(lane.Best, pins, byHand, new(epochs, options.Seed), []);
            if (!accept(outline))
            {
                refused.Add(outline);
                return;
            }
            (best, bestScore, jobs) = (outline, lane.BestScore, lane.Best.JobIn.Count(isIn => isIn));
            plan = lane.Best.Copy();
            progress(new(epochs, lane.Decodes, jobs, bestScore.Value, Pet.FromSeconds(bestScore.End)));
        }

        while (epoch < options.Effort && !cancel.IsCancellationRequested)
        {
            // Hot and cold in turn; every fourth epoch starts from the best again.
            if (epoch == 0)
                for (int slice = 0; slice < FirstSlices; slice++)
                {
                    lane.Run(DecodesAnEpoch / FirstSlices, 0.2);
                    if (best is null) TryBest(1);
                }
            else
            {
                if (epoch % 4 == 0) lane.ReturnToBest();
                lane.Run(DecodesAnEpoch, epoch % 4 == 3 ? 0.05 : 1.0 / (1 + epoch % 4));
            }
            epoch++;
            TryBest(epoch);
            progress(new(epoch, lane.Decodes, jobs, best is null ? 0 : bestScore.Value, best is null ? null : Pet.FromSeconds(bestScore.End)));
        }
        if (best is null) return new(null, epoch, lane.Decodes, refused.ToImmutable(), WhyNone(lane));
        best = best with { Made = new(epoch, options.Seed), LeftOut = new LeftOutReasons(all, pins).Explain(plan) };
        best = new Decisions(all, expander, pins, accept).TryMake(plan, best, byHand) ?? best;
        return new(best, epoch, lane.Decodes, refused.ToImmutable(), "");
    }

    internal Outline Write(Candidate candidate, UnitPins[] pins, IReadOnlyDictionary<LegId, LegEntry> byHand, MadeBy made, ImmutableArray<LeftOut> leftOut)
    {
        List<Deed> deeds = [];
        Decoder decoder = new(all);
        decoder.Decode(candidate.Order, candidate.Options, candidate.JobIn, pins, deeds);
        return new OutlineBuilder(all, expander.Graph, byHand).Build(deeds, [.. decoder.Commands()], made, leftOut);
    }

    private string WhyNone(Annealer lane)
    {
        PlanScore score = lane.BestScore;
        if (score.Broken == 0) return "every plan that search found was refused by the proof; this is a fault of the search, and its cases are kept";
        List<string> reasons = [];
        if (score.End > all.PetLimit) reasons.Add($"the must-jobs end at {Pet.FromSeconds(score.End)}, the limit is {Pet.FromSeconds(all.PetLimit)}");
        long rest = score.Broken - Math.Max(0, score.End - all.PetLimit);
        if (rest > 0) reasons.Add($"other limits (return time, light, links, thermal clocks, pins, room on the suit) are missed by {Duration.FromSeconds((int)Math.Min(rest, int.MaxValue))} in all");
        return $"none found: in the best of {lane.Decodes} candidates {string.Join(", and ", reasons)}";
    }
}
