using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What a rule is, for people.</summary>
/// <param name="Id">Its name, two words.</param>
/// <param name="ProtectsFrom">What can happen without it.</param>
/// <param name="Measured">How it is measured.</param>
/// <param name="LimitFrom">Where its limit comes from.</param>
/// <param name="Guard">What keeps an honest plan clear of it before it is judged.</param>
public sealed record RuleCard(RuleId Id, string ProtectsFrom, string Measured, string LimitFrom, Guard Guard)
{
    /// <summary>A card of a rule whose limit is none at all, or a state that must be so.</summary>
    public const string NoFigure = "no figure: it must never happen (common practice, no source)";
}

/// <summary>One rule: what it is, and what it finds in a plan that was played.</summary>
public abstract class Rule
{
    /// <summary>What it is, for people.</summary>
    public abstract RuleCard Card { get; }

    /// <summary>What keeps it from being applied to this scenario, in words: a limit that is not given. Null when it is applied.</summary>
    public virtual string? Missing(Scenario scenario) => null;

    /// <summary>What it cannot see in this scenario although it is applied, for want of data; in words. Never counted as clean.</summary>
    public virtual IEnumerable<string> Unseen(Scenario scenario) => [];

    /// <summary>What it finds. Called only when nothing is missing.</summary>
    public abstract IEnumerable<Finding> Find(Case given);

    /// <summary>A finding of this rule.</summary>
    protected Finding Broken(Case given, Pet at, ImmutableArray<PersonId> who, string sentence, string mend, ActivityId? activity = null) =>
        new(Card.Id, Severity.Broken, given.Timeline.Branch, who, at, activity, $"PET {at}: {sentence}", "", "", "", Card.LimitFrom, mend);

    /// <summary>That a rule needs a limit of this dimension from the scenario; null when it is there.</summary>
    protected string? MissingLimit(Scenario scenario, Dimension dimension) => scenario.LimitOf(Card.Id.Value) switch
    {
        null => "the scenario gives no limit",
        { Value.Dimension: var given } when given != dimension =>
            $"the scenario's limit measures {given.ToString().ToLowerInvariant()}, not {dimension.ToString().ToLowerInvariant()}",
        _ => null,
    };

    /// <summary>The source of a limit, and whether it was verified.</summary>
    protected static string SourceOf(Limit limit) =>
        limit.Verified || limit.Source.Contains("unverified", StringComparison.OrdinalIgnoreCase) ? limit.Source : $"{limit.Source} (unverified)";
}

/// <summary>A rule whose breaks play itself meets, as conditions that do not hold.</summary>
public abstract class FactRule : Rule
{
    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Case given) =>
        given.Trace.Facts.Where(fact => fact.Rule == Card.Id).Select(fact =>
            Broken(given, fact.At, fact.Who, fact.What, fact.Mend, fact.Activity) with
            {
                Measured = fact.Measured,
                Limit = fact.Limit,
                Margin = fact.Margin,
                Source = given.Scenario.LimitOf(Card.Id.Value) is { } limit ? SourceOf(limit) : Card.LimitFrom,
            });
}

/// <summary>What a rule is given: a plan and what playing it showed.</summary>
public sealed class Case
{
    private readonly Dictionary<PersonId, ImmutableArray<Whereabouts>> whereabouts = [];
    private HashSet<(RuleId, ActivityId)>? told;
    private ImmutableArray<Exposure>? exposures;
    private ImmutableArray<LaidLine>? laidLines;
    private ImmutableArray<SuitWalk>? suits;

    /// <summary>Puts a case together.</summary>
    public Case(Scenario scenario, Timeline timeline, Trace trace, ImmutableArray<ContingencyProof> contingencies = default) : this(scenario, timeline, trace, contingencies, null)
    {
    }

    /// <summary>The same, with what suits go through where that is known already.</summary>
    internal Case(Scenario scenario, Timeline timeline, Trace trace, ImmutableArray<ContingencyProof> contingencies, ImmutableArray<SuitWalk>? suits)
    {
        this.suits = suits;
        Contingencies = contingencies.IsDefault ? [] : contingencies;
        Scenario = scenario;
        Timeline = timeline;
        Trace = trace;
        History = new History(trace);
        People = [.. scenario.People.Select(person => person.Id).Where(person => History.Find($"person {person} place") is not null)];
    }

    /// <summary>The scenario.</summary>
    public Scenario Scenario { get; }

    /// <summary>The timeline as told.</summary>
    public Timeline Timeline { get; }

    /// <summary>What playing it gave.</summary>
    public Trace Trace { get; }

    /// <summary>The trace as histories.</summary>
    public History History { get; }

    /// <summary>How the contingencies of the plan come out, over all branches.</summary>
    public ImmutableArray<ContingencyProof> Contingencies { get; }

    /// <summary>Whether the walk is ended before its work is done: then nobody asks that things and features are where the work was to bring
    /// them, but that what is left behind may be left.</summary>
    public bool EndsEarly => Timeline.Trouble is { GoesOn: GoingOn.EndsInOrder };

    /// <summary>The moment from which everybody goes in because the walk is ended early; null when it is not.</summary>
    public Pet? Called => EndsEarly ? Timeline.Trouble!.From : null;

    /// <summary>Everybody who goes outside.</summary>
    public ImmutableArray<PersonId> People { get; }

    /// <summary>Every time that a connector of the power net is bare.</summary>
    internal ImmutableArray<Exposure> Exposures => exposures ??= [.. Exposure.All(this)];

    /// <summary>What it takes to leave each step, and what that leaves behind.</summary>
    internal Ladder Ladder => field ??= new(Scenario, Timeline, History);

    /// <summary>All tether lines, as they lie from when to when.</summary>
    internal ImmutableArray<LaidLine> LaidLines => laidLines ??= LaidLine.All(this);

    /// <summary>What suits go through, of everybody whose suit and body the scenario describes.</summary>
    public ImmutableArray<SuitWalk> Suits => suits ??= SuitWalk.Of(Scenario, Timeline, Trace);

    /// <summary>Whether play told of a break of a rule by an activity.</summary>
    internal bool IsTold(RuleId rule, ActivityId activity) => (told ??= [.. Trace.Facts.Select(fact => (fact.Rule, fact.Activity))]).Contains((rule, activity));

    /// <summary>Where a person is outside, stretch after stretch, as lines and points of the station.</summary>
    public ImmutableArray<Whereabouts> WhereaboutsOf(PersonId person)
    {
        if (!whereabouts.TryGetValue(person, out ImmutableArray<Whereabouts> known)) whereabouts[person] = known = Whereabouts.Of(this, person);
        return known;
    }

    /// <summary>When a person is outside.</summary>
    public ImmutableArray<PetInterval> Outside(PersonId person) =>
        History.While(History[$"person {person} place"], place => place != Places.Inside);

    /// <summary>Where a person is from this moment on.</summary>
    public string PlaceOf(PersonId person, Pet moment) => History.StateAt(History[$"person {person} place"], moment);
}
