using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What is proven so far of every plan of a scenario.</summary>
/// <param name="MostValue">No plan is worth more; null while nothing is proven.</param>
/// <param name="Worth">What <paramref name="LeastEnd"/> is about: plans worth so much or more.</param>
/// <param name="LeastEnd">None of them ends before this; null while nothing is proven.</param>
/// <param name="NoPlan">Whether it is proven that there is no plan.</param>
public sealed record ProvenBounds(int? MostValue, int Worth, Pet? LeastEnd, bool NoPlan)
{
    /// <summary>Nothing is proven.</summary>
    public static ProvenBounds None { get; } = new(null, 0, null, false);

    /// <summary>For how long something is shut down at least; null while nothing is proven, or nothing is ever shut down.</summary>
    public DeadBound? Dead { get; init; }

    /// <summary>How much more than a plan's any value can be, in per cent of the most; null while nothing is proven.</summary>
    public double? ValueGap(int value) => MostValue is { } most ? most <= value ? 0 : 100.0 * (most - value) / most : null;

    /// <summary>How much sooner a plan worth as much can end, in per cent of its end; null while nothing is proven.</summary>
    public double? EndGap(Pet end) => LeastEnd is { } least && end.Seconds > 0 ? Math.Max(0, 100.0 * (end.Seconds - least.Seconds) / end.Seconds) : null;

    /// <summary>Whether a search need not go on: there is no plan, or neither value nor end can be more than so many per cent better.</summary>
    /// <param name="far">How far the search is.</param>
    /// <param name="gap">So many per cent; null to go on whatever the gap.</param>
    public bool IsEnough(SearchProgress far, double? gap) => NoPlan || (far.End is { } end && ValueGap(far.Value) <= gap && EndGap(end) <= gap);
}

/// <summary>What is proven of the time in which things are shut down.</summary>
/// <param name="Worth">It is about plans worth so much or more</param>
/// <param name="By">that end by then:</param>
/// <param name="Least">in each of them it is so long or longer, summed over what is shut down.</param>
public sealed record DeadBound(int Worth, Pet By, Duration Least)
{
    /// <summary>Whether it holds for every plan that is worth as much as one and ends as soon.</summary>
    public bool HoldsFor(int value, Pet end) => Worth <= value && end <= By;
}

/// <summary>
/// Proves bounds on a thread of its own while a search goes on: first of the value, then of the end of plans worth what the search has found, then of the time
/// in which theirs is shut down. What it
/// proves in a given time depends on the machine; it never touches the search.
/// </summary>
public sealed class BoundsWatch : IDisposable
{
    private readonly Scenario scenario;
    private readonly bool ends;
    private readonly CancellationTokenSource stop = new();
    private readonly AutoResetEvent told = new(false);
    private readonly Lock guard = new();
    private ProvenBounds now = ProvenBounds.None;
    private (int Value, Pet End)? plan;
    private CancellationTokenSource? question;
    private Thread? thread;

    /// <summary>How much is thought on each question at first, in the solver's own count: some seconds of one core.</summary>
    private const double WorkBeside = 2;

    /// <summary>How much is thought on the dead time of one plan.</summary>
    private const double WorkOnDead = 0.5;

    /// <summary>Prepares; nothing is done before the search tells something.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="ends">Whether the search ends by a gap or by a clock: then both questions are thought on, in turn and longer each time, for as long as it goes on.</param>
    public BoundsWatch(Scenario scenario, bool ends) => (this.scenario, this.ends) = (scenario, ends);

    /// <summary>What is proven so far.</summary>
    public ProvenBounds Now
    {
        get
        {
            lock (guard) return now;
        }
    }

    /// <summary>Tells how far the search is. The first plan is not slowed: proving begins once it is there, or an epoch was searched without one.</summary>
    public void Tell(SearchProgress progress)
    {
        lock (guard)
        {
            if (progress.End is { } end)
            {
                // A question about plans worth less is no longer the one to ask.
                if (plan is { } known && known.Value != progress.Value) question?.Cancel();
                plan = (progress.Value, end);
            }
            else if (progress.Epoch < 1) return;
        }
        if (thread is null)
        {
            thread = new(Prove) { IsBackground = true, Name = "bounds" };
            thread.Start();
        }
        told.Set();
    }

    /// <summary>Ends the proving.</summary>
    public void Dispose()
    {
        stop.Cancel();
        told.Set();
        thread?.Join();
        stop.Dispose();
        told.Dispose();
    }

    private void Prove()
    {
        Bounds bounds = new(scenario, new(scenario));
        double work = WorkBeside;
        (double Work, bool Closed) value = (0, false);
        (int Worth, double Work, bool Closed) end = (int.MinValue, 0, false);
        (int Value, Pet End)? dead = null;
        while (!stop.IsCancellationRequested)
        {
            if (!value.Closed && value.Work < work)
            {
                Bound most = bounds.MostValue(double.PositiveInfinity, work, 1, stop.Token, bound => Note(known => known with { MostValue = (int)Math.Min(bound, known.MostValue ?? int.MaxValue) }));
                Note(known => most.IsImpossible ? known with { NoPlan = true } : known with { MostValue = (int)Math.Min(most.Figure, known.MostValue ?? int.MaxValue) });
                if (most.IsImpossible) return;
                value = (work, most.IsReached);
                continue;
            }
            (int Value, Pet End)? wanted;
            lock (guard) wanted = plan;
            if (wanted is { } one && (one.Value != end.Worth || (!end.Closed && end.Work < work))) end = (one.Value, work, AskEnd(bounds, one.Value, one.End, work));
            else if (bounds.HasShutdowns && wanted is { } best && dead != best)
            {
                dead = best;
                Bound least = bounds.LeastDead(best.Value, best.End, double.PositiveInfinity, WorkOnDead, 1, stop.Token);
                if (!least.IsImpossible && !stop.IsCancellationRequested) Note(known => known with { Dead = new(best.Value, best.End, Duration.FromSeconds((int)least.Figure)) });
            }
            // Both in turn, each time for twice as long, so that neither waits until the other is closed.
            else if (ends && !(value.Closed && (wanted is null || end.Closed))) work *= 2;
            else told.WaitOne();
        }
    }

    /// <summary>Asks how soon a plan worth so much can end; whether thinking longer would give no better answer.</summary>
    private bool AskEnd(Bounds bounds, int worth, Pet by, double work)
    {
        using CancellationTokenSource asking = CancellationTokenSource.CreateLinkedTokenSource(stop.Token);
        lock (guard)
        {
            if (plan is { } known && known.Value != worth) return false;
            question = asking;
        }
        Bound least = bounds.LeastEnd(worth, by, double.PositiveInfinity, work, 1, asking.Token, bound => NoteEnd(worth, bound));
        lock (guard) question = null;
        // Impossible to end by then and be worth as much cannot be, since a plan does: a fault, and nothing is claimed of it.
        if (!least.IsImpossible) NoteEnd(worth, least.Figure);
        return least.IsReached;
    }

    private void NoteEnd(int worth, long seconds)
    {
        if (seconds is <= 0 or > int.MaxValue) return;
        Note(known => worth == known.Worth && known.LeastEnd is { } least && least.Seconds >= seconds ? known : known with { Worth = worth, LeastEnd = Pet.FromSeconds((int)seconds) });
    }

    private void Note(Func<ProvenBounds, ProvenBounds> change)
    {
        lock (guard) now = change(now);
    }
}
