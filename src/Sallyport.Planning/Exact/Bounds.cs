using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>A figure that no plan passes.</summary>
/// <param name="Figure">Value, or seconds of PET.</param>
/// <param name="IsReached">Whether the relaxation itself comes to it: thinking longer gives no better one.</param>
/// <param name="IsImpossible">Whether it is proven that there is no such plan at all.</param>
public sealed record Bound(long Figure, bool IsReached, bool IsImpossible);

/// <summary>
/// What no plan of a scenario can better: proven figures for every plan that plays clean and in which everybody goes out, whoever or whatever made it.
/// </summary>
/// <remarks>They are proven of a scenario with fewer conditions (<see cref="Relaxation"/>), so that the best plan may well not come up to them.</remarks>
public sealed class Bounds
{
    private readonly SearchCase all;
    private readonly LeastWays ways;
    private readonly (int Leg, int From, int To)[] pinned;

    /// <summary>Prepares.</summary>
    /// <param name="scenario">The scenario, with what of the wishes can be put into it.</param>
    /// <param name="expander">Its expander.</param>
    /// <param name="wishes">What else a plan must keep to; null for nothing.</param>
    public Bounds(Scenario scenario, Expander expander, IReadOnlyList<Wish>? wishes = null)
    {
        all = new(scenario, expander);
        ways = new(all, expander.Graph);
        foreach (Wish wish in wishes ?? []) wish.Arrange(all);
        pinned = [.. (wishes ?? []).SelectMany(wish => wish.Pinned).Select(one => (all.LegIndex[one.Leg], one.Pins.NotBefore?.Seconds ?? 0, one.Pins.NotAfter?.Seconds ?? SearchCase.Never))];
    }

    /// <summary>Every plan is worth this or less.</summary>
    /// <param name="seconds">How long to think, by the clock; infinity for no such end.</param>
    /// <param name="work">How much to think, in the solver's own count: about a second each, the same on every machine.</param>
    /// <param name="threads">How many threads; with one, and an end by work alone, the answer is always the same.</param>
    /// <param name="cancel">Ends it; what was proven until then is the answer.</param>
    /// <param name="bounded">Told each better bound while it thinks; null for nobody.</param>
    public Bound MostValue(double seconds, double work, int threads, CancellationToken cancel, Action<long>? bounded = null)
    {
        int most = all.Scenario.Jobs.Sum(job => Math.Max(0, job.Value));
        SolverAnswer answer = Relaxed(SearchCase.Never).MostValue(new(seconds, work, threads, cancel), bounded);
        return new(Math.Min(most, answer.Bound), answer.Word == SolverWord.Closed, answer.Word == SolverWord.Impossible);
    }

    /// <summary>Every plan that is worth so much or more ends at this or later, s of PET.</summary>
    /// <param name="worth">The value.</param>
    /// <param name="latest">When such a plan that is known ends: the bound is not looked for beyond it.</param>
    /// <param name="seconds">How long to think, by the clock; infinity for no such end.</param>
    /// <param name="work">How much to think, in the solver's own count.</param>
    /// <param name="threads">How many threads.</param>
    /// <param name="cancel">Ends it; what was proven until then is the answer.</param>
    /// <param name="bounded">Told each better bound while it thinks; null for nobody.</param>
    public Bound LeastEnd(int worth, Pet? latest, double seconds, double work, int threads, CancellationToken cancel, Action<long>? bounded = null)
    {
        SolverAnswer answer = Relaxed(latest?.Seconds ?? SearchCase.Never).LeastEnd(worth, new(seconds, work, threads, cancel), bounded);
        return new(Math.Max(0, answer.Bound), answer.Word == SolverWord.Closed, answer.Word == SolverWord.Impossible);
    }

    /// <summary>Whether anything is ever shut down.</summary>
    public bool HasShutdowns => all.Shutdowns.Length > 0;

    /// <summary>In every plan that is worth so much or more and ends by a moment, things are shut down for so long or longer, s summed over them: each from the end of
    /// the command that turns it off to the end of the one that turns it on.</summary>
    /// <param name="worth">The value.</param>
    /// <param name="latest">The end.</param>
    /// <param name="seconds">How long to think, by the clock; infinity for no such end.</param>
    /// <param name="work">How much to think, in the solver's own count.</param>
    /// <param name="threads">How many threads.</param>
    /// <param name="cancel">Ends it; what was proven until then is the answer.</param>
    public Bound LeastDead(int worth, Pet latest, double seconds, double work, int threads, CancellationToken cancel)
    {
        SolverAnswer answer = Relaxed(latest.Seconds).LeastDead(worth, new(seconds, work, threads, cancel));
        return new(Math.Max(0, answer.Bound), answer.Word == SolverWord.Closed, answer.Word == SolverWord.Impossible);
    }

    private Relaxation Relaxed(int latest)
    {
        Relaxation relaxed = new(all, ways, latest);
        foreach ((int leg, int from, int to) in pinned) relaxed.Begin(leg, from, to);
        return relaxed;
    }
}
