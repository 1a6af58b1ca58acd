using System.Collections.Immutable;

namespace Sallyport.Desk;

// What takes longer than an edit: search, questions, documents, a second outline beside the first.
public sealed partial class OpenSortie
{
    private SearchRun? search;

    /// <summary>The search under way or ended last; null when there was none.</summary>
    public SearchRun? Search => Volatile.Read(ref search);

    /// <summary>Begins a search; one that is under way is stopped first.</summary>
    /// <exception cref="InvalidOperationException">The scenario cannot be read.</exception>
    public SearchRun StartSearch(SearchWish wish)
    {
        lock (gate)
        {
            if (now.Desk is not { } desk || disposed) throw new InvalidOperationException("a search needs a scenario that can be read");
            search?.Stop();
            SearchRun run = new(desk, wish, wish.FromChosen && now.Texts.Chosen is { } chosen ? Path.Combine(folder, SortieFiles.OutlinePath(chosen)) : null);
            Volatile.Write(ref search, run);
            run.Start();
            return run;
        }
    }

    /// <summary>Answers a question by searching; long.</summary>
    /// <param name="words">As after <c>ask SCENARIO</c>: <c>why-out JOB</c>, <c>if WISH …</c>, <c>with OUTLINE</c>, an outline of this scenario by its name.</param>
    /// <param name="effort">Epochs of each search.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="cancel">Ends it; the answer tells what was found until then.</param>
    public (Answer? Answer, ImmutableArray<Problem> Problems) Ask(string words, int effort, int seed, CancellationToken cancel)
    {
        SortieState seen = State;
        if (seen.Desk is not { } desk) return (null, seen.Problems);
        string[] parts = words.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts is ["with", var outline, ..])
        {
            // A name and never a path: no question reads a file outside.
            if (seen.Outlines.All(one => one.Name != outline)) return (null, [FileProblems.Whole("ask", "question.outline", $"'{outline}'", "an outline of this scenario", $"name one of {string.Join(", ", seen.Outlines.Select(one => one.Name))}.")]);
            parts[1] = Path.Combine(folder, SortieFiles.OutlinePath(outline));
        }
        ReadResult<Question> question = Question.Read(parts, desk.Scenario);
        return question.Value is { } asked ? (desk.Ask(asked, effort, seed, cancel), []) : (null, [.. question.Problems.Select(Short)]);
    }

    /// <summary>How two outlines differ, both looked at quickly, for one chart.</summary>
    public (OutlineComparison? Comparison, ImmutableArray<Problem> Problems) Compare(string first, string second)
    {
        lock (gate)
        {
            Absorb();
            if (now.Desk is not { } desk) return (null, [.. now.Problems.Select(Short)]);
            List<ProvenPlan> plans = [];
            foreach (string outline in new[] { first, second })
            {
                if (!now.Texts.Files.ContainsKey(SortieFiles.OutlinePath(outline))) return (null, [FileProblems.Whole(outline, "outline.none", "no such outline", "an outline of this scenario", "choose one that is there.")]);
                Evaluated seen = Evaluate(now.Texts with { Chosen = outline }, now);
                if (seen.Plan is not { } plan) return (null, [.. seen.Problems.Select(Short)]);
                plans.Add(plan);
            }
            return (OutlineComparison.Of(desk.Scenario, plans[0], plans[1]), []);
        }
    }

    /// <summary>The files of the briefing of the present plan, proven whole first, and the state that they tell of: an edit meanwhile makes another one. Nothing is written. Long.</summary>
    public (ImmutableArray<(string Name, byte[] Content)> Files, SortieState Of, Problem? Problem) BriefingFiles(BriefingOptions options, CancellationToken cancel)
    {
        SortieState whole = Whole(cancel).GetAwaiter().GetResult();
        return whole is { Proving: Proving.Whole, Plan: { } plan } ? (whole.Desk!.BriefingOf(plan, options), whole, null) : ([], whole, NoPlan());
    }

    /// <summary>Writes the briefing of the present plan, proven whole first, where <c>brief</c> writes it. Long.</summary>
    public (ImmutableArray<string> Written, string? Changes, Problem? Problem) Brief(BriefingOptions options, CancellationToken cancel)
    {
        SortieState whole = Whole(cancel).GetAwaiter().GetResult();
        return whole is { Proving: Proving.Whole, Plan: { } plan } ? whole.Desk!.WriteBriefing(plan, outFolder, options) : ([], null, NoPlan());
    }

    private Problem NoPlan() => FileProblems.Whole(Name, "outline.none", "no plan that can be played and judged", "one", "search a plan, or mend the outline.");
}
