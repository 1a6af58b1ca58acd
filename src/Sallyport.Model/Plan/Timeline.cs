using System.Collections.Immutable;
using System.Text.Json.Serialization;

namespace Sallyport.Model;

/// <summary>Which way a decision near the end is taken to go.</summary>
public enum Branch
{
    /// <summary>The likely one, at its likely time.</summary>
    Likely,
    /// <summary>The other one, at the threshold second.</summary>
    Otherwise,
}

/// <summary>An outline expanded to the second. Never edited by hand, but judged as told when it is.</summary>
/// <param name="Scenario">The scenario it belongs to.</param>
/// <param name="PlanId">The same in every file made from one plan.</param>
/// <param name="Branch">Which branch of a decision it follows.</param>
/// <param name="Activities">Ordered by start, then id. Every second of everybody outside lies in one of them.</param>
/// <param name="Notes">Pins that could not be met, as expansion found them.</param>
public sealed record Timeline(
    string Scenario, string PlanId, Branch Branch, ImmutableArray<Activity> Activities, ImmutableArray<MissedPin> Notes)
{
    /// <summary>The contingency that this timeline follows from some moment on; null for the plan itself.</summary>
    public Trouble? Trouble { get; init; }
}

/// <summary>How a step is left before it is done.</summary>
public enum Leaving
{
    /// <summary>In order.</summary>
    Terminate,
    /// <summary>At once.</summary>
    Abort,
}

/// <summary>A pin that expansion could not meet.</summary>
/// <param name="Leg">The leg pinned.</param>
/// <param name="Pin">What was asked, in words.</param>
/// <param name="Wanted">The moment asked for.</param>
/// <param name="Got">The moment it got.</param>
public sealed record MissedPin(LegId Leg, string Pin, Pet Wanted, Pet Got);

/// <summary>Something an activity waits for.</summary>
/// <param name="Activity">It starts no earlier than the end of this one; null when it waits for the outside world or a pin.</param>
/// <param name="Lag">… plus this.</param>
/// <param name="Why">In words that follow "until", such as <c>EV2 is ready</c>, <c>latch/free is done</c>, <c>day</c>.</param>
public sealed record Dependency(ActivityId? Activity, Duration Lag, string Why);

/// <summary>One grip after another.</summary>
/// <param name="From">From here.</param>
/// <param name="To">To here.</param>
/// <param name="Time">In this time.</param>
public sealed record SpanWalk(GripId From, GripId To, Duration Time);

/// <summary>Something that somebody or something does from <see cref="Start"/> until before <see cref="End"/>; at least one second.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "does")]
[JsonDerivedType(typeof(AirlockPhase), "airlock")]
[JsonDerivedType(typeof(Translate), "translate")]
[JsonDerivedType(typeof(SwapReel), "swap-reel")]
[JsonDerivedType(typeof(Take), "take")]
[JsonDerivedType(typeof(Put), "put")]
[JsonDerivedType(typeof(Give), "give")]
[JsonDerivedType(typeof(Plug), "plug")]
[JsonDerivedType(typeof(Unplug), "unplug")]
[JsonDerivedType(typeof(EnterRestraint), "enter-restraint")]
[JsonDerivedType(typeof(LeaveRestraint), "leave-restraint")]
[JsonDerivedType(typeof(MountArm), "mount")]
[JsonDerivedType(typeof(ArmMove), "arm-move")]
[JsonDerivedType(typeof(DismountArm), "dismount")]
[JsonDerivedType(typeof(DoStep), "step")]
[JsonDerivedType(typeof(Await), "wait")]
[JsonDerivedType(typeof(CheckGloves), "check-gloves")]
[JsonDerivedType(typeof(Rest), "rest")]
[JsonDerivedType(typeof(SendCommand), "command")]
public abstract record Activity
{
    /// <summary>Unique in the timeline.</summary>
    public required ActivityId Id { get; init; }

    /// <summary>Its first second.</summary>
    public required Pet Start { get; init; }

    /// <summary>The first second after it.</summary>
    public required Pet End { get; init; }

    /// <summary>What it waits for; every edge that odds, slack and mends may use.</summary>
    public ImmutableArray<Dependency> After { get; init; } = [];

    /// <summary>The leg it serves; null when it serves the sortie as a whole.</summary>
    public LegId? For { get; init; }

    /// <summary>How long it takes.</summary>
    [JsonIgnore]
    public Duration Length => End.Since(Start);

    /// <summary>The people outside who take part.</summary>
    [JsonIgnore]
    public abstract ImmutableArray<PersonId> People { get; }

    /// <summary>Whether a person outside takes part.</summary>
    public virtual bool Has(PersonId person) => People.Contains(person);
}

/// <summary>An activity of exactly one person outside.</summary>
public abstract record PersonActivity : Activity
{
    /// <summary>Who.</summary>
    public required PersonId Person { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override ImmutableArray<PersonId> People => [Person];

    /// <inheritdoc/>
    public override bool Has(PersonId person) => person == Person;
}

/// <summary>The phases of an airlock's sequence.</summary>
public enum AirlockPhaseKind
{
    /// <summary>One person from inside to the hatch's grip, outside, on the first reel.</summary>
    Out,
    /// <summary>Waiting inside for one's turn to go out.</summary>
    WaitInside,
    /// <summary>Bags out.</summary>
    BagsOut,
    /// <summary>The mutual check that ends egress.</summary>
    Check,
    /// <summary>Clean-up and inventory at the hatch.</summary>
    Inventory,
    /// <summary>Bags in.</summary>
    BagsIn,
    /// <summary>One person in.</summary>
    In,
    /// <summary>Inside while others still come in.</summary>
    SafeInside,
    /// <summary>Hatch closed and repress begun.</summary>
    Close,
}

/// <summary>A phase of an airlock's sequence. <see cref="AirlockPhaseKind.Out"/> ends outside; <see cref="AirlockPhaseKind.In"/> ends
/// inside, with everything that hangs on the person.</summary>
public sealed record AirlockPhase : Activity
{
    /// <summary>Which airlock.</summary>
    public required AirlockId Airlock { get; init; }

    /// <summary>Which phase.</summary>
    public required AirlockPhaseKind Phase { get; init; }

    /// <summary>Who takes part.</summary>
    public required ImmutableArray<PersonId> Who { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override ImmutableArray<PersonId> People => Who;
}

/// <summary>Hand over hand along spans; the place changes as each span ends.</summary>
public sealed record Translate : PersonActivity
{
    /// <summary>The spans, joined end to end; their times add up to the length.</summary>
    public required ImmutableArray<SpanWalk> Spans { get; init; }
}

/// <summary>Change reels at an anchor. It ends with the reel in use hooked at <see cref="Onto"/>.</summary>
public sealed record SwapReel : PersonActivity
{
    /// <summary>Where the person is.</summary>
    public required GripId At { get; init; }

    /// <summary>Where the reel in use hangs afterwards: this grip on the way out, the one before on the way back.</summary>
    public required GripId Onto { get; init; }

    /// <summary>When which hook is moved; null when it is not told.</summary>
    public HookMoves? Hooks { get; init; }
}

/// <summary>The two moments of changing over from one hook to another.</summary>
/// <param name="On">From here on the further hook holds.</param>
/// <param name="Off">From here on the other one does not.</param>
public sealed record HookMoves(Pet On, Pet Off);

/// <summary>Take a thing from a grip, or out of the airlock, onto the suit.</summary>
public sealed record Take : PersonActivity
{
    /// <summary>What.</summary>
    public required GearId Gear { get; init; }

    /// <summary>Where the person is.</summary>
    public required GripId At { get; init; }

    /// <summary>Where on the suit it hangs afterwards.</summary>
    public required CarryPointId Carry { get; init; }
}

/// <summary>Hook a thing from the suit at a grip.</summary>
public sealed record Put : PersonActivity
{
    /// <summary>What.</summary>
    public required GearId Gear { get; init; }

    /// <summary>Where the person is.</summary>
    public required GripId At { get; init; }
}

/// <summary>Hand one thing over. Both people are at the same place.</summary>
public sealed record Give : Activity
{
    /// <summary>Who hands it over.</summary>
    public required PersonId From { get; init; }

    /// <summary>Who gets it.</summary>
    public required PersonId To { get; init; }

    /// <summary>What.</summary>
    public required GearId Gear { get; init; }

    /// <summary>Where on the suit it hangs afterwards.</summary>
    public required CarryPointId Carry { get; init; }

    /// <summary>Where they are.</summary>
    public required GripId At { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override ImmutableArray<PersonId> People => [From, To];
}

/// <summary>Plug a restraint into a socket and set it.</summary>
public sealed record Plug : PersonActivity
{
    /// <summary>Which restraint.</summary>
    public required GearId Gear { get; init; }

    /// <summary>Which socket.</summary>
    public required SocketId Socket { get; init; }

    /// <summary>How it is set.</summary>
    public required string Setting { get; init; }
}

/// <summary>Take a restraint out of its socket onto the suit.</summary>
public sealed record Unplug : PersonActivity
{
    /// <summary>Which restraint.</summary>
    public required GearId Gear { get; init; }

    /// <summary>Which socket.</summary>
    public required SocketId Socket { get; init; }

    /// <summary>Where on the suit it hangs afterwards.</summary>
    public required CarryPointId Carry { get; init; }
}

/// <summary>Get into the restraint in a socket.</summary>
public sealed record EnterRestraint : PersonActivity
{
    /// <summary>Which socket.</summary>
    public required SocketId Socket { get; init; }
}

/// <summary>Get out of the restraint in a socket.</summary>
public sealed record LeaveRestraint : PersonActivity
{
    /// <summary>Which socket.</summary>
    public required SocketId Socket { get; init; }
}

/// <summary>Get onto an arm: tied to the arm, then off the structure's tether, which stays at the grip.</summary>
public sealed record MountArm : PersonActivity
{
    /// <summary>Which arm.</summary>
    public required ArmId Arm { get; init; }

    /// <summary>The grip where the person stands.</summary>
    public required GripId At { get; init; }

    /// <summary>When which hook is moved; null when it is not told.</summary>
    public HookMoves? Hooks { get; init; }
}

/// <summary>An arm goes from one pose to another, with its rider or empty.</summary>
public sealed record ArmMove : Activity
{
    /// <summary>Which arm.</summary>
    public required ArmId Arm { get; init; }

    /// <summary>From this pose.</summary>
    public required PoseId From { get; init; }

    /// <summary>To this pose.</summary>
    public required PoseId To { get; init; }

    /// <summary>Who rides; null when empty.</summary>
    public PersonId? Rider { get; init; }

    /// <summary>Whether the brakes are set at its end.</summary>
    public bool BrakesSet { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override ImmutableArray<PersonId> People => Rider is { } rider ? [rider] : [];
}

/// <summary>Get off an arm: tied to the structure again at the grip, then off the arm.</summary>
public sealed record DismountArm : PersonActivity
{
    /// <summary>Which arm.</summary>
    public required ArmId Arm { get; init; }

    /// <summary>The grip where the person stands then.</summary>
    public required GripId At { get; init; }

    /// <summary>When which hook is moved; null when it is not told.</summary>
    public HookMoves? Hooks { get; init; }
}

/// <summary>One step of a leg.</summary>
public sealed record DoStep : PersonActivity
{
    /// <summary>Which leg.</summary>
    public required LegId Leg { get; init; }

    /// <summary>Which step.</summary>
    public required StepId Step { get; init; }

    /// <summary>How it is left before it is done: its last part is the break-off, and what that leaves behind takes the place of what the
    /// step makes. Null when it is done.</summary>
    public Leaving? LeftBy { get; init; }
}

/// <summary>A wait where one is.</summary>
public sealed record Await : PersonActivity
{
    /// <summary>What for, in words.</summary>
    public required string Until { get; init; }
}

/// <summary>Look over gloves and helmet where one is.</summary>
public sealed record CheckGloves : PersonActivity;

/// <summary>A rest where one is.</summary>
public sealed record Rest : PersonActivity;

/// <summary>A console sends a command, sees it in telemetry and gives the GO; it takes effect at the end.</summary>
public sealed record SendCommand : Activity
{
    /// <summary>Which console.</summary>
    public required ConsoleId Console { get; init; }

    /// <summary>Which command.</summary>
    public required CommandId Command { get; init; }

    /// <inheritdoc/>
    [JsonIgnore]
    public override ImmutableArray<PersonId> People => [];
}
