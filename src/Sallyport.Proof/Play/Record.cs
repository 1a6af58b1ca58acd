using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Keeps what changes and what fails. Of several writes of one variable in one instant the last one counts.</summary>
internal sealed class Record(World world)
{
    private readonly ImmutableArray<Change>.Builder changes = ImmutableArray.CreateBuilder<Change>();
    private readonly List<Fact> facts = [];
    private readonly List<int> now = [];
    private readonly (bool Written, int Before, ActivityId? By)[] writes = new (bool Written, int Before, ActivityId? By)[world.Values.Length];
    private readonly HashSet<(ActivityId, string, string)> told = [];
    private ActivityId? by;
    private Action<int>? alsoTold;
    private Action<int>? writing;

    public ImmutableArray<int> Start { get; private set; } = [];

    public ImmutableArray<Change> Changes => changes.ToImmutable();

    public ImmutableArray<Fact> Facts =>
    [
        .. facts.OrderBy(fact => fact.At).ThenBy(fact => fact.Activity.Value, StringComparer.Ordinal)
            .ThenBy(fact => fact.Rule.Value, StringComparer.Ordinal).ThenBy(fact => fact.What, StringComparer.Ordinal),
    ];

    /// <summary>The variables written since the last instant was closed.</summary>
    public IReadOnlyList<int> ChangedNow
    {
        get
        {
            now.Sort();
            return now;
        }
    }

    /// <summary>Takes the values as the start of the trace.</summary>
    public void Open() => Start = [.. world.Values];

    /// <summary>Runs an effect and keeps what it writes.</summary>
    public void By(ActivityId? activity, Action effect, Action<int>? note = null)
    {
        (by, alsoTold) = (activity, note);
        world.NotingWrites(writing ??= Writes, effect);
    }

    private void Writes(int variable)
    {
        if (!writes[variable].Written) now.Add(variable);
        writes[variable] = (true, writes[variable].Written ? writes[variable].Before : world.Peek(variable), by);
        alsoTold?.Invoke(variable);
    }

    /// <summary>Writes down what is different after the instant from what it was before.</summary>
    public void CloseInstant(Pet at)
    {
        now.Sort();
        foreach (int variable in now)
        {
            if (world.Peek(variable) != writes[variable].Before) changes.Add(new Change(at, variable, world.Peek(variable), writes[variable].By));
            writes[variable] = default;
        }
        now.Clear();
    }

    /// <summary>Notes a failed condition; the same words of the same activity once only.</summary>
    public void Fails(Activity activity, Condition condition, Pet at)
    {
        string what = condition.What();
        Figures figures = condition.Figures?.Invoke() ?? Figures.None;
        Tell(new Fact(new RuleId(condition.Rule), at, activity.Id, activity.People, what + ".", condition.Mend(), figures.Measured, figures.Limit, figures.Margin));
    }

    public void Tell(Fact fact)
    {
        if (told.Add((fact.Activity, fact.Rule.Value, fact.What))) facts.Add(fact);
    }
}
