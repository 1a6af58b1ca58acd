using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>How much a job matters.</summary>
public enum Worth
{
    /// <summary>The sortie is for it; a plan without it is not complete.</summary>
    Must,
    /// <summary>Wanted.</summary>
    Should,
    /// <summary>Done if time allows.</summary>
    GetAhead,
}

/// <summary>What somebody asked for: all of its legs are done, or none.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">As shown.</param>
/// <param name="For">What it is for, as one would say it aloud.</param>
/// <param name="Worth">How much it matters.</param>
/// <param name="Value">What all of it is worth; compared among jobs of this scenario only.</param>
/// <param name="HalfValue">What half of it is worth.</param>
/// <param name="Hazard">What can hurt someone in it; empty when nothing was named.</param>
/// <param name="Legs">Its parts, in the order of the file.</param>
/// <param name="Contingencies">What is done when it does not go.</param>
public sealed record Job(
    JobId Id, string Title, string For, Worth Worth, int Value, int HalfValue, string Hazard,
    ImmutableArray<Leg> Legs, ImmutableArray<Contingency> Contingencies)
{
    /// <summary>The latest moment at which the first of its legs may begin; null for no limit.</summary>
    public Pet? Latest { get; init; }
}

/// <summary>How a person is held while working.</summary>
public enum Footing
{
    /// <summary>By one hand.</summary>
    Free,
    /// <summary>By a stiff body tether.</summary>
    BodyTether,
    /// <summary>In a foot restraint.</summary>
    Restraint,
    /// <summary>In the restraint on an arm.</summary>
    Arm,
}

/// <summary>A part of a job at one worksite by one role. Its steps follow each other without a gap.</summary>
/// <param name="Id">Written <c>job/leg</c>.</param>
/// <param name="Title">As shown.</param>
/// <param name="Site">Where.</param>
/// <param name="Who">The people who may do it; empty for anybody outside.</param>
/// <param name="Training">Trainings the person must hold.</param>
/// <param name="Footing">How the person is held.</param>
/// <param name="Restraint">The restraint used, with <see cref="Footing.Restraint"/>; null otherwise.</param>
/// <param name="Socket">The socket it is plugged into.</param>
/// <param name="Setting">How it is set.</param>
/// <param name="With">Bags and other gear that hang on the person throughout.</param>
/// <param name="PicksUp">Gear that hangs on the person once the leg is done, and did not before.</param>
/// <param name="LeavesBehind">Gear of <paramref name="With"/> that no longer hangs on the person once the leg is done.</param>
/// <param name="Together">Legs of one job with the same word here start at the same moment, by different people; empty for none.</param>
/// <param name="After">What must have ended before.</param>
/// <param name="Shutdowns">What must be off from before its start to after its end.</param>
/// <param name="Light">Day or night needed throughout; null for either.</param>
/// <param name="NeedsLink">Whether a link is needed throughout.</param>
/// <param name="MayWait">Whether a wait may lie between its steps.</param>
/// <param name="Steps">At least one.</param>
public sealed record Leg(
    LegId Id, string Title, SiteId Site, ImmutableArray<PersonId> Who, ImmutableArray<string> Training,
    Footing Footing, GearId? Restraint, SocketId? Socket, string? Setting,
    ImmutableArray<GearId> With, ImmutableArray<GearId> PicksUp, ImmutableArray<GearId> LeavesBehind,
    string Together, ImmutableArray<Precedence> After, ImmutableArray<ShutdownId> Shutdowns,
    LightCondition? Light, bool NeedsLink, bool MayWait, ImmutableArray<Step> Steps)
{
    /// <summary>The job it belongs to.</summary>
    public JobId Job => new(Id.Value[..Id.Value.IndexOf('/')]);

    /// <summary>The latest moment at which it may begin; null for no limit.</summary>
    public Pet? Latest { get; init; }

    /// <summary>The sharp edges that the person was briefed on for this leg.</summary>
    public ImmutableArray<string> Minds { get; init; } = [];

    /// <summary>Whether it tests somebody or something for what was spilled.</summary>
    public bool IsTest => Steps.Any(step => step.Fluid is { Tests.IsEmpty: false });

    /// <summary>The likely length, without waits.</summary>
    public Duration Length => Duration.FromSeconds(Steps.Sum(step => step.Time.Likely.Seconds));
}

/// <summary>That a leg starts after another has ended.</summary>
/// <param name="Leg">The earlier leg.</param>
/// <param name="Least">The least time between its end and this start.</param>
/// <param name="Most">The most time between them; null for no limit.</param>
public sealed record Precedence(LegId Leg, Duration Least, Duration? Most);

/// <summary>How long something takes, and how one knows.</summary>
/// <param name="Low">When all goes well.</param>
/// <param name="Likely">What the plan uses.</param>
/// <param name="High">When it goes slowly, short of a failure.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record StepTime(Duration Low, Duration Likely, Duration High, string Source);

/// <summary>How hard a step is on the body; the rate it stands for is judged by later rules.</summary>
public enum WorkClass
{
    /// <summary>Waiting, watching.</summary>
    Rest,
    /// <summary>Small tools, photographs.</summary>
    Light,
    /// <summary>Bolts, connectors.</summary>
    Moderate,
    /// <summary>Large masses, forcing.</summary>
    Heavy,
}

/// <summary>The smallest thing in a plan.</summary>
/// <param name="Id">Its name, unique in the leg.</param>
/// <param name="Title">What the person does, in the imperative.</param>
/// <param name="For">What it is for; empty when the leg's title says it.</param>
/// <param name="Time">How long.</param>
/// <param name="Needs">What must be so, and when.</param>
/// <param name="Makes">What is so once it ends.</param>
/// <param name="Abort">What it takes to leave it in an abort, at any moment in it.</param>
/// <param name="Terminate">What it takes to leave it in an orderly end.</param>
/// <param name="Work">How hard it is.</param>
/// <param name="Fastener">Torque and turns, when it drives a fastener.</param>
/// <param name="Fluid">What it does with a fluid line; null when nothing.</param>
public sealed record Step(
    StepId Id, string Title, string For, StepTime Time, ImmutableArray<Need> Needs, ImmutableArray<Effect> Makes,
    BreakOff Abort, BreakOff Terminate, WorkClass Work, Fastener? Fastener, FluidTouch? Fluid)
{
    /// <summary>The greatest force that the person works with, N; null when none worth a figure.</summary>
    public double? Force { get; init; }

    /// <summary>The things that this step ties to the person or to a bag as its first act, before anything holds them no longer. The tie stays
    /// until the leg ends.</summary>
    public ImmutableArray<GearId> Ties { get; init; } = [];

    /// <summary>Whether somebody inside reads it to the person, line by line, and can read to nobody else meanwhile.</summary>
    public bool Led { get; init; }

    /// <summary>Whether it is rough on gloves: they are looked over before the next leg.</summary>
    public bool Rough { get; init; }

    /// <summary>Whether it must not be done with the Sun in the eyes.</summary>
    public bool NoGlare { get; init; }

    /// <summary>Whether it is itself a check of gloves and helmet.</summary>
    public bool ChecksGloves { get; init; }
}

/// <summary>What it takes to leave a step.</summary>
/// <param name="Time">At most this long, from any moment in the step; never zero by default.</param>
/// <param name="Leaves">The states it leaves behind; empty when it leaves what was before the step.</param>
public sealed record BreakOff(Duration Time, ImmutableArray<FeatureState> Leaves);

/// <summary>A fastener driven.</summary>
/// <param name="Torque">What the tool is set to, N·m.</param>
/// <param name="Turns">Turns of each, positive to close.</param>
/// <param name="Text">As written.</param>
public sealed record Fastener(double Torque, double Turns, string Text)
{
    /// <summary>Which fastener, when its turns are counted; null otherwise.</summary>
    public BoltId? Bolt { get; init; }

    /// <summary>The tool it is driven with; null when that is not said.</summary>
    public GearId? Tool { get; init; }
}

/// <summary>What a step does with a fluid line: exactly one of opening or closing a quick disconnect of it, reading its pressure, watching
/// it for leaks, letting it off, or testing for what it holds.</summary>
/// <param name="Line">The line.</param>
/// <param name="Opens">Whether a quick disconnect of it is opened.</param>
public sealed record FluidTouch(string Line, bool Opens)
{
    /// <summary>Whether its pressure is read, so that it is known once the step ends.</summary>
    public bool Reads { get; init; }

    /// <summary>Whether it is watched for leaks under pressure.</summary>
    public bool Watches { get; init; }

    /// <summary>Whether it is let off, so that it is not full once the step ends.</summary>
    public bool Vents { get; init; }

    /// <summary>Who and what a spill reaches when it is opened; null when it is not said, and then all of them.</summary>
    public ImmutableArray<Soiled>? Spills { get; init; }

    /// <summary>Who and what is tested for it after the bake-out; empty for a step that tests nothing.</summary>
    public ImmutableArray<Soiled> Tests { get; init; } = [];

    /// <summary>Compares the lists by what is in them.</summary>
    public bool Equals(FluidTouch? other) => other is not null
        && (Line, Opens, Reads, Watches, Vents) == (other.Line, other.Opens, other.Reads, other.Watches, other.Vents)
        && Spills.HasValue == other.Spills.HasValue && (Spills ?? []).SequenceEqual(other.Spills ?? []) && Tests.SequenceEqual(other.Tests);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Line, Opens, Reads, Watches, Vents);
}

/// <summary>When a need must hold.</summary>
public enum NeedTime
{
    /// <summary>At the moment the step starts.</summary>
    Start,
    /// <summary>From its start to its end.</summary>
    Throughout,
    /// <summary>At the moment it ends, before its own effects.</summary>
    End,
}

/// <summary>Something that a step needs.</summary>
/// <param name="When">When it must hold.</param>
public abstract record Need(NeedTime When);

/// <summary>A feature in one of some states.</summary>
/// <param name="When">When.</param>
/// <param name="Condition">Which feature and states.</param>
public sealed record NeedFeature(NeedTime When, FeatureCondition Condition) : Need(When);

/// <summary>A thing at hand: on the person, in a bag on the person, hooked or installed at the worksite.</summary>
/// <param name="When">When.</param>
/// <param name="Gear">Which thing.</param>
public sealed record NeedGear(NeedTime When, GearId Gear) : Need(When);

/// <summary>A node of the power net dead: cut off from every source by enough independent open inhibits.</summary>
/// <param name="When">When.</param>
/// <param name="Node">What is touched.</param>
/// <param name="Inhibits">How many independent open inhibits on every path.</param>
public sealed record NeedDead(NeedTime When, NodeId Node, int Inhibits) : Need(When);

/// <summary>A GO that was read to the crew: since the person came to where the leg is done, and since what it covers changed last.</summary>
/// <param name="When">When.</param>
/// <param name="Command">The command whose GO it is.</param>
public sealed record NeedGo(NeedTime When, CommandId Command) : Need(When);

/// <summary>What a step brings about.</summary>
public abstract record Effect;

/// <summary>A feature takes a state.</summary>
/// <param name="State">Which.</param>
public sealed record MakeFeature(FeatureState State) : Effect;

/// <summary>A thing moves: into a bag, onto the person who does the step (<c>person</c> without a name), to the site, to a grip.</summary>
/// <param name="Gear">Which thing.</param>
/// <param name="To">Where; <see cref="LocationKind.Person"/> with an empty name is whoever does the step.</param>
public sealed record MoveGear(GearId Gear, Location To) : Effect;

/// <summary>Pieces of a stock are used.</summary>
/// <param name="Gear">Which stock.</param>
/// <param name="Count">How many; at least 1.</param>
public sealed record UseStock(GearId Gear, int Count) : Effect;

/// <summary>What is done when a step does not go. Each is proven at the moment the step was planned to end.</summary>
/// <param name="Step">The leg whose step may fail.</param>
/// <param name="StepId">The step.</param>
/// <param name="Title">What happened, such as a stuck bolt.</param>
/// <param name="Probability">How often, between 0 and 1.</param>
/// <param name="Source">Where that figure comes from.</param>
/// <param name="Extra">The time it adds.</param>
/// <param name="Do">What is done, in words.</param>
public sealed record Contingency(LegId Step, StepId StepId, string Title, double Probability, string Source, StepTime Extra, string Do)
{
    /// <summary>What must be at hand for it; empty for bare hands.</summary>
    public ImmutableArray<GearId> Tools { get; init; } = [];
}
