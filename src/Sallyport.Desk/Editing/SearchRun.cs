using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk;

/// <summary>How a search shall be done.</summary>
/// <param name="Effort">Epochs at most.</param>
/// <param name="Seconds">End after the epoch in which so many seconds have passed; null for no clock.</param>
/// <param name="Seed">The seed.</param>
/// <param name="FromChosen">Whether it goes on from the chosen outline, its pins kept.</param>
/// <param name="Gap">End once neither value nor end can be more than so many per cent better; null to go on.</param>
public sealed record SearchWish(int Effort = 16, int? Seconds = null, int Seed = 7, bool FromChosen = false, double? Gap = null)
{
    /// <summary>What is wished for where nothing else is said.</summary>
    public static SearchWish Usual { get; } = new();
}

/// <summary>How far a search has got.</summary>
/// <param name="Epoch">Epochs finished.</param>
/// <param name="Tried">Candidates tried.</param>
/// <param name="Jobs">Jobs in the best plan so far.</param>
/// <param name="Value">What it is worth.</param>
/// <param name="End">When it ends; null with none yet.</param>
/// <param name="MostValue">Proven: no plan is worth more; null while nothing is proven.</param>
/// <param name="LeastEnd">Proven: no plan worth as much ends before; null while nothing is proven.</param>
/// <param name="ValueGap">How much more the value may be at most, per cent; null while nothing is proven.</param>
/// <param name="EndGap">How much earlier the end may be at most, per cent; null while nothing is proven.</param>
/// <param name="NoPlan">Whether it is proven that there is no plan.</param>
public sealed record SearchSight(int Epoch, long Tried, int Jobs, int Value, Pet? End, int? MostValue, Pet? LeastEnd, double? ValueGap, double? EndGap, bool NoPlan)
{
    internal static SearchSight Of(SearchProgress far, ProvenBounds proven) => new(
        far.Epoch, far.Decodes, far.Jobs, far.Value, far.End, proven.MostValue, proven.Worth == far.Value ? proven.LeastEnd : null,
        far.End is null ? null : proven.ValueGap(far.Value), far.End is { } end && proven.Worth == far.Value ? proven.EndGap(end) : null, proven.NoPlan);
}

/// <summary>What a search found: a plan that plays clean, as text to be taken with <see cref="TakeOutline"/>.</summary>
/// <param name="Plan">The plan, proven whole.</param>
/// <param name="Text">Its outline, as a file.</param>
/// <param name="Differs">How it differs from the best plan, in words; empty for that one.</param>
public sealed record FoundPlan(ProvenPlan Plan, string Text, string Differs);

/// <summary>A search under way.</summary>
public sealed class SearchRun
{
    private readonly SortieDesk desk;
    private readonly string? from;
    private CancellationTokenSource stop = new();
    private readonly Lock gate = new();
    private Task ended = Task.CompletedTask;
    private SearchSight sight = new(0, 0, 0, 0, null, null, null, null, null, false);
    private ImmutableArray<FoundPlan> found = [];
    private string why = "";
    private ImmutableArray<string> refused = [];
    private int refusals;

    internal SearchRun(SortieDesk desk, SearchWish wish, string? from) => (this.desk, Wish, this.from) = (desk, wish, from);

    /// <summary>Told of progress and of the end, from the thread of the search; must be quick.</summary>
    public event Action<SearchRun>? Progress;

    /// <summary>What was asked for.</summary>
    public SearchWish Wish { get; }

    /// <summary>How far it is.</summary>
    public SearchSight Sight
    {
        get
        {
            lock (gate) return sight;
        }
    }

    /// <summary>Whether it goes on.</summary>
    public bool IsRunning => !Ended.IsCompleted;

    /// <summary>What was found, the best first and then alternatives; empty while it goes on or when nothing was found.</summary>
    public ImmutableArray<FoundPlan> Found
    {
        get
        {
            lock (gate) return found;
        }
    }

    /// <summary>Why nothing was found, in words; empty while it goes on or when something was.</summary>
    public string Why
    {
        get
        {
            lock (gate) return why;
        }
    }

    /// <summary>What the proof has against the nearest of the plans that it refused, a line each; empty while it goes on, when something was found, or when nothing was refused.</summary>
    public ImmutableArray<string> Refused
    {
        get
        {
            lock (gate) return refused;
        }
    }

    /// <summary>How many of the plans tried the proof refused; search does not see every rule that it guards.</summary>
    public int Refusals
    {
        get
        {
            lock (gate) return refusals;
        }
    }

    /// <summary>Ends when the search has ended.</summary>
    public Task Ended
    {
        get
        {
            lock (gate) return ended;
        }
    }

    /// <summary>Ends it after the epoch under way; the best plan so far is kept.</summary>
    public void Stop() => stop.Cancel();

    /// <summary>Searches further plans, each clean and different from the ones before, once the search has ended; <see cref="Progress"/> tells when they are there.</summary>
    /// <param name="count">How many, from 1 to 9; fewer when no more are found.</param>
    public Task Alternatives(int count) => Begin(() =>
    {
        if (Found is not [{ } best, ..]) return;
        // The search itself may have been stopped; what is asked for now is asked anew.
        stop = new();
        ImmutableArray<ProvenPlan> others = desk.Alternatives(best.Plan, Math.Clamp(count, 1, 9), Wish.Effort, Wish.Seed, far => Tell(SearchSight.Of(far, ProvenBounds.None)), stop.Token);
        lock (gate) found = [best, .. others.Select(other => Kept(other, best.Plan))];
    });

    internal void Start() => Begin(Run);

    private Task Begin(Action work)
    {
        lock (gate)
            return ended = ended.ContinueWith(_ =>
            {
                try
                {
                    work();
                }
                catch (Exception e) when (e is InvalidOperationException or ArgumentException or ArithmeticException)
                {
                    lock (gate) why = $"The search failed by a fault of this program: {e.Message}";
                }
            }, CancellationToken.None, TaskContinuationOptions.LongRunning, TaskScheduler.Default).ContinueWith(_ => Progress?.Invoke(this), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
    }

    private void Run()
    {
        if (Wish.Seconds is { } seconds) stop.CancelAfter(TimeSpan.FromSeconds(Math.Clamp(seconds, 1, 86_400)));
        using BoundsWatch watch = new(desk.Scenario, ends: Wish.Gap is not null || Wish.Seconds is not null);
        PlanOutcome outcome = desk.Plan("plan", Math.Max(1, Wish.Effort), Wish.Seed, from, far =>
        {
            watch.Tell(far);
            ProvenBounds proven = watch.Now;
            Tell(SearchSight.Of(far, proven));
            if (proven.IsEnough(far, Wish.Gap)) stop.Cancel();
        }, stop.Token);
        // Each is judged whole, so that nobody waits with the lock in hand.
        ImmutableArray<string> against = outcome is { Plan: null, Search: { } ended } ? desk.WhyRefused(ended.Refused) : [];
        lock (gate)
        {
            (refused, refusals) = (against, outcome.Search?.Refused.Length ?? 0);
            if (outcome.Plan is { } plan) found = [Kept(plan, null)];
            else why = outcome.Problems.IsEmpty ? $"No plan. {outcome.Search!.Why}{(watch.Now.NoPlan ? " It is proven that there is none." : "")}" : Problem.Render(outcome.Problems);
        }
    }

    private void Tell(SearchSight far)
    {
        lock (gate) sight = far;
        Progress?.Invoke(this);
    }

    private static FoundPlan Kept(ProvenPlan plan, ProvenPlan? best) =>
        new(plan, Encoding.UTF8.GetString(OutlineFile.Marked(OutlineFile.Write(plan.Outline!))), best is null ? "" : Desk.Alternatives.Differs(plan, best));
}
