using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>Everything that is known before a plan: one sortie, its station, people, gear, jobs and rules. Immutable.</summary>
/// <param name="Id">Such as <c>skerry/lee-shore</c>; outlines name it.</param>
/// <param name="Digest">Hash of the input files, hexadecimal.</param>
/// <param name="Sortie">Who, when, how long.</param>
/// <param name="Station">The structure.</param>
/// <param name="People">Everybody, in the order of the file.</param>
/// <param name="Sizes">Size classes of gear.</param>
/// <param name="Gear">Every thing.</param>
/// <param name="Handling">Handling times.</param>
/// <param name="Tether">The tether rules.</param>
/// <param name="Arms">The arms; may be none.</param>
/// <param name="Consoles">The consoles; may be none.</param>
/// <param name="Sky">Day, night and link.</param>
/// <param name="Jobs">What is asked for.</param>
/// <param name="Limits">The limits of the rules.</param>
public sealed record Scenario(
    string Id, string Digest, Sortie Sortie, Station Station, ImmutableArray<Person> People, ImmutableArray<SizeClass> Sizes,
    ImmutableArray<Gear> Gear, Handling Handling, TetherRules Tether, ImmutableArray<Arm> Arms, ImmutableArray<GroundConsole> Consoles,
    Sky Sky, ImmutableArray<Job> Jobs, ImmutableArray<Limit> Limits)
{
    /// <summary>The fasteners whose turns are counted.</summary>
    public ImmutableArray<Bolt> Bolts { get; init; } = [];

    /// <summary>What each way of being held takes.</summary>
    public ImmutableArray<FootingStrength> Footings { get; init; } = [];

    /// <summary>Checks of gloves, and rests; null when the sortie states none.</summary>
    public Checks? Checks { get; init; }

    /// <summary>What helping somebody home takes; null when the sortie does not say.</summary>
    public HelpTimes? Help { get; init; }

    /// <summary>In which states features may be left when everybody goes in before the work is done.</summary>
    public ImmutableArray<MayBeLeft> MayBeLeft { get; init; } = [];

    /// <summary>The thermal clocks; may be none.</summary>
    public ImmutableArray<HeatClock> Clocks { get; init; } = [];

    /// <summary>What bodies burn; null when the sortie does not say.</summary>
    public Body? Body { get; init; }

    /// <summary>How suits use what is aboard; may be none.</summary>
    public ImmutableArray<SuitInUse> Suits { get; init; } = [];

    /// <summary>The prebreathe; null when the sortie does not say.</summary>
    public PrebreathePlan? Prebreathe { get; init; }

    /// <summary>The days of the people outside; may be none.</summary>
    public ImmutableArray<WorkDay> Days { get; init; } = [];

    /// <summary>The people who go outside, in the order of the file.</summary>
    public IEnumerable<Person> Outside => People.Where(person => person.Role == Role.Outside);

    /// <summary>The lowest regulated pressure of anybody's suit, Pa; null when nobody goes outside in one.</summary>
    public double? LowestSuitPressure => Outside.Select(person => person.Suit?.Pressure).Min();

    /// <summary>Every leg of every job, in the order of the file.</summary>
    public IEnumerable<Leg> Legs => Jobs.SelectMany(job => job.Legs);

    /// <summary>The limit of a rule, or null when the scenario gives none.</summary>
    public Limit? LimitOf(string rule) => Limits.FirstOrDefault(limit => limit.Rule.Value == rule);
}

/// <summary>One walk.</summary>
/// <param name="Title">As shown.</param>
/// <param name="PetZero">The instant of PET 0:00, UTC.</param>
/// <param name="PetZeroIs">What happens then, in words.</param>
/// <param name="Outline">The outline marked current, or null.</param>
/// <param name="Decision">A decision wanted near the end, or null.</param>
public sealed record Sortie(string Title, DateTime PetZero, string PetZeroIs, string? Outline, DecisionWish? Decision)
{
    /// <summary>What makes one plan better than another, the first first, of plans that do all must-jobs.</summary>
    public ImmutableArray<Objective> Objectives { get; init; } = UsualObjectives;

    /// <summary>The order where nobody says another one.</summary>
    public static ImmutableArray<Objective> UsualObjectives { get; } = [Objective.Value, Objective.End, Objective.Dead, Objective.Balance];
}

/// <summary>One thing that makes a plan better than another.</summary>
public enum Objective
{
    /// <summary>The jobs in it are worth more.</summary>
    Value,
    /// <summary>The hatch is closed earlier.</summary>
    End,
    /// <summary>Less is shut down, and for less time.</summary>
    Dead,
    /// <summary>People wait less for each other at the hatch.</summary>
    Balance,
    /// <summary>People walk less, in time, added up.</summary>
    Walking,
    /// <summary>The nearest that anybody comes to a limit of a return time is farther away from it.</summary>
    Margin,
}

/// <summary>That the search shall keep a choice open near the end: go on with get-aheads if the clock allows, else go home.</summary>
/// <param name="Earliest">No decision before this PET.</param>
public sealed record DecisionWish(Pet Earliest);

/// <summary>A limit of a rule: data with a source, never hidden in code.</summary>
/// <param name="Rule">The rule it belongs to.</param>
/// <param name="Value">The figure.</param>
/// <param name="Near">A margin below which the rule reports a near finding; null for none.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Verified">False when it is from memory or unsure: shown as "unverified".</param>
public sealed record Limit(RuleId Rule, Quantity Value, Quantity? Near, string Source, bool Verified)
{
    /// <summary>The least, where a rule holds a figure between two; null when it has one limit only.</summary>
    public Quantity? Least { get; init; }

    /// <summary>The margin below which the rule reports a near finding, in the limit's canonical unit; zero for none.</summary>
    public double NearMargin => Near is { } wanted && wanted.Dimension == Value.Dimension ? wanted.Value : 0;

    /// <summary>What the mean over an hour is held against, where the rule has a shorter mean too; null when there is one limit only.</summary>
    public Quantity? Hour { get; init; }
}
