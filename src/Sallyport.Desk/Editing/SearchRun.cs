using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>How a search shall be done.</summary>
/// <param name="Effort">Epochs at most.</param>
/// <param name="Seconds">End after the epoch in which so many seconds have passed; null for no clock.</param>
/// <param name="Seed">The seed.</param>
/// <param name="FromChosen">Whether it goes on from the chosen outline, its pins kept.</param>
public sealed record SearchWish(int Effort = 40, int? Seconds = null, int Seed = 7, bool FromChosen = false);

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
public sealed record SearchSight(int Epoch, long Tried, int Jobs, int Value, Pet? End, int? MostValue, Pet? LeastEnd, double? ValueGap, double? EndGap, bool NoPlan);

/// <summary>What a search found: a plan that plays clean, as text to be taken with <see cref="TakeOutline"/>.</summary>
/// <param name="Plan">The plan, proven whole.</param>
/// <param name="Text">Its outline, as a file.</param>
/// <param name="Differs">How it differs from the best plan, in words; empty for that one.</param>
public sealed record FoundPlan(ProvenPlan Plan, string Text, string Differs);

/// <summary>A search under way.</summary>
public sealed class SearchRun
{
    internal SearchRun(SearchWish wish) => Wish = wish;

    /// <summary>Told of progress and of the end, from the thread of the search; must be quick.</summary>
    public event Action<SearchRun>? Progress;

    /// <summary>What was asked for.</summary>
    public SearchWish Wish { get; }

    /// <summary>How far it is.</summary>
    public SearchSight Sight { get; private set; } = new(0, 0, 0, 0, null, null, null, null, null, false);

    /// <summary>Whether it goes on.</summary>
    public bool IsRunning => false;

    /// <summary>What was found, the best first and then alternatives; empty while it goes on or when nothing was found.</summary>
    public ImmutableArray<FoundPlan> Found { get; private set; } = [];

    /// <summary>Why nothing was found, in words; empty while it goes on or when something was.</summary>
    public string Why { get; private set; } = "";

    /// <summary>Ends when the search has ended.</summary>
    public Task Ended { get; } = Task.CompletedTask;

    /// <summary>Ends it after the epoch under way; the best plan so far is kept.</summary>
    public void Stop() => Progress?.Invoke(this);

    /// <summary>Searches further plans, each clean and different from the ones before; <see cref="Progress"/> tells of each.</summary>
    public Task Alternatives(int count) => Task.CompletedTask;
}
