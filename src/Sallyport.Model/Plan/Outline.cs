using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>One sequence on every shared resource, and what was pinned by hand. People edit it; expansion adds only times.</summary>
/// <param name="Scenario">The scenario it was made for.</param>
/// <param name="Digest">The digest of the inputs it was made from; another one is a note. Null when written by hand.</param>
/// <param name="Made">How search made it; null when written by hand.</param>
/// <param name="People">What each person does, in order.</param>
/// <param name="Hands">For each thing that more than one person carries: who carries it, one name a stretch of carrying, in order.
/// Stretches of one person follow that person's list.</param>
/// <param name="Arms">The sessions of each arm, in order.</param>
/// <param name="Ground">The commands, in the order of their console.</param>
/// <param name="Decision">A choice near the end, or null.</param>
/// <param name="LeftOut">Jobs not in the plan, and why.</param>
public sealed record Outline(
    string Scenario, string? Digest, MadeBy? Made,
    ImmutableArray<PersonOutline> People, ImmutableArray<HandsOutline> Hands, ImmutableArray<ArmOutline> Arms,
    ImmutableArray<GroundEntry> Ground, Decision? Decision, ImmutableArray<LeftOut> LeftOut)
{
    /// <summary>Who is led from inside after whom: one sequence for each conversation that may go on at once. Legs that nobody leads have no
    /// part in it, and of legs that start together one stands for all.</summary>
    public ImmutableArray<VoiceOutline> Voice { get; init; } = [];
}

/// <summary>One conversation after another: the legs whose led steps are read from inside, in order.</summary>
/// <param name="Legs">From the first led step of each to its last one nobody else in this sequence is led.</param>
public sealed record VoiceOutline(ImmutableArray<LegId> Legs);

/// <summary>How search made an outline.</summary>
/// <param name="Effort">Epochs run.</param>
/// <param name="Seed">The seed.</param>
public sealed record MadeBy(int Effort, int Seed);

/// <summary>One person's entries, in order.</summary>
/// <param name="Person">Who.</param>
/// <param name="Entries">What this person does.</param>
public sealed record PersonOutline(PersonId Person, ImmutableArray<Entry> Entries);

/// <summary>Who carries one thing, stretch after stretch.</summary>
/// <param name="Gear">The thing.</param>
/// <param name="Holders">One name a stretch.</param>
public sealed record HandsOutline(GearId Gear, ImmutableArray<PersonId> Holders);

/// <summary>How a person comes to the place of an entry.</summary>
/// <param name="Grips">The grips walked, from the place before to the place of the entry, both named; empty for the standard way.</param>
/// <param name="Anchor">Where the reel in use hangs on arrival; null for the anchor that makes the way home shortest.</param>
public sealed record Way(ImmutableArray<GripId> Grips, GripId? Anchor)
{
    /// <summary>The standard way, with the anchor that makes the way home shortest.</summary>
    public static Way Auto { get; } = new([], null);
}

/// <summary>One line of a person's outline.</summary>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves; null when it serves the sortie as a whole.</param>
/// <param name="ByHand">Whether a person wrote or pinned it: completion leaves it alone.</param>
public abstract record Entry(Way Way, LegId? For, bool ByHand);

/// <summary>Out through the hatch.</summary>
/// <param name="Airlock">Which.</param>
public sealed record EgressEntry(AirlockId Airlock) : Entry(Way.Auto, null, false);

/// <summary>Back in.</summary>
/// <param name="Airlock">Which.</param>
/// <param name="Way">How the person comes there.</param>
public sealed record IngressEntry(AirlockId Airlock, Way Way) : Entry(Way, null, false);

/// <summary>Take a thing from a grip, or out of the airlock when it is inside, onto the suit.</summary>
/// <param name="Gear">What.</param>
/// <param name="From">The grip where it hangs; the airlock's grip when it is inside.</param>
/// <param name="Carry">The carry point it hangs on then.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record TakeEntry(GearId Gear, GripId From, CarryPointId Carry, Way Way, LegId? For, bool ByHand) : Entry(Way, For, ByHand);

/// <summary>Hook a thing from the suit at a grip.</summary>
/// <param name="Gear">What.</param>
/// <param name="At">Where.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record PutEntry(GearId Gear, GripId At, Way Way, LegId? For, bool ByHand) : Entry(Way, For, ByHand);

/// <summary>Plug a restraint from the suit into a socket and set it.</summary>
/// <param name="Restraint">Which restraint.</param>
/// <param name="Socket">Which socket.</param>
/// <param name="Setting">How it is set.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record PlugEntry(GearId Restraint, SocketId Socket, string Setting, Way Way, LegId? For, bool ByHand) : Entry(Way, For, ByHand);

/// <summary>Take a restraint out of its socket onto the suit.</summary>
/// <param name="Restraint">Which restraint.</param>
/// <param name="Socket">Which socket.</param>
/// <param name="Carry">The carry point it hangs on then.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record UnplugEntry(GearId Restraint, SocketId Socket, CarryPointId Carry, Way Way, LegId? For, bool ByHand) : Entry(Way, For, ByHand);

/// <summary>Do a leg. Getting into and out of its restraint is part of it, save where the legs before and after share the restraint.</summary>
/// <param name="Leg">Which.</param>
/// <param name="Pins">What was pinned by hand.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record LegEntry(LegId Leg, Pins Pins, Way Way, bool ByHand) : Entry(Way, Leg, ByHand);

/// <summary>Meet and hand things over: one activity, named the same in the list of everybody who takes part.</summary>
/// <param name="Id">The meeting.</param>
/// <param name="At">The grip where they meet.</param>
/// <param name="With">The others.</param>
/// <param name="Gives">What this person hands over; empty for who only receives.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record MeetEntry(string Id, GripId At, ImmutableArray<PersonId> With, ImmutableArray<Gift> Gives, Way Way, LegId? For, bool ByHand)
    : Entry(Way, For, ByHand);

/// <summary>One thing handed over.</summary>
/// <param name="Gear">What.</param>
/// <param name="To">To whom.</param>
/// <param name="Carry">The carry point it hangs on then.</param>
public sealed record Gift(GearId Gear, PersonId To, CarryPointId Carry);

/// <summary>Get onto an arm.</summary>
/// <param name="Arm">Which.</param>
/// <param name="At">The grip where the person stands.</param>
/// <param name="Way">How the person comes there.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record MountEntry(ArmId Arm, GripId At, Way Way, LegId? For, bool ByHand) : Entry(Way, For, ByHand);

/// <summary>Get off an arm; the ride to the place where that is done is part of it.</summary>
/// <param name="Arm">Which.</param>
/// <param name="At">The grip where the person stands then.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record DismountEntry(ArmId Arm, GripId At, LegId? For, bool ByHand) : Entry(Way.Auto, For, ByHand);

/// <summary>Wait where one is, until day, night, a link, or a moment.</summary>
/// <param name="Until">What is waited for.</param>
/// <param name="At">The moment, when it is one.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record WaitEntry(WaitFor Until, Pet? At, bool ByHand) : Entry(Way.Auto, null, ByHand);

/// <summary>Look over gloves and helmet where one is; the scenario says how long that takes.</summary>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record CheckEntry(LegId? For, bool ByHand) : Entry(Way.Auto, For, ByHand);

/// <summary>Rest where one is.</summary>
/// <param name="Time">How long.</param>
/// <param name="For">The leg that it serves.</param>
/// <param name="ByHand">Whether completion leaves it alone.</param>
public sealed record RestEntry(Duration Time, LegId? For, bool ByHand) : Entry(Way.Auto, For, ByHand);

/// <summary>What a wait ends with.</summary>
public enum WaitFor
{
    /// <summary>Sunrise, or at once by day.</summary>
    Day,
    /// <summary>Sunset, or at once by night.</summary>
    Night,
    /// <summary>A link, or at once with one.</summary>
    Link,
    /// <summary>A stated moment.</summary>
    Moment,
}

/// <summary>What was pinned by hand on a leg. A pin never bends physics: one that cannot be met becomes a finding.</summary>
/// <param name="At">Starts at this moment.</param>
/// <param name="NotBefore">Starts no earlier.</param>
/// <param name="NotAfter">Starts no later.</param>
/// <param name="Who">Search leaves it with this person.</param>
/// <param name="Keep">Search never leaves it out.</param>
public sealed record Pins(Pet? At, Pet? NotBefore, Pet? NotAfter, bool Who, bool Keep)
{
    /// <summary>Nothing pinned.</summary>
    public static Pins None { get; } = new(null, null, null, false, false);
}

/// <summary>The sessions of one arm.</summary>
/// <param name="Arm">Which.</param>
/// <param name="Sessions">In order.</param>
public sealed record ArmOutline(ArmId Arm, ImmutableArray<ArmSession> Sessions);

/// <summary>One session of an arm: an empty move to where the rider gets on, poses in order, and where the rider gets off.</summary>
/// <param name="Rider">Who.</param>
/// <param name="Mount">The grip where the rider gets on.</param>
/// <param name="Poses">The poses worked from, in order.</param>
/// <param name="Dismount">The grip where the rider gets off.</param>
public sealed record ArmSession(PersonId Rider, GripId Mount, ImmutableArray<PoseId> Poses, GripId Dismount);

/// <summary>A command, hung on legs and never on the clock.</summary>
/// <param name="Do">The command.</param>
/// <param name="After">The leg that must have ended; null for none.</param>
/// <param name="Before">The leg that waits for its end; null for none.</param>
/// <param name="Late">As late as nothing else is moved by it.</param>
public sealed record GroundEntry(CommandId Do, LegId? After, LegId? Before, bool Late);

/// <summary>A choice near the end that depends on the clock. Both branches are proven.</summary>
/// <param name="After">The leg at whose end it is taken.</param>
/// <param name="IfBefore">If that is before this moment, <paramref name="Then"/>; otherwise <paramref name="Else"/>.</param>
/// <param name="Then">What the people named do then, to the end.</param>
/// <param name="Else">What they do otherwise, to the end.</param>
public sealed record Decision(LegId After, Pet IfBefore, ImmutableArray<PersonOutline> Then, ImmutableArray<PersonOutline> Else);

/// <summary>A job not in the plan.</summary>
/// <param name="Job">Which.</param>
/// <param name="Why">What kept it out, with figures.</param>
public sealed record LeftOut(JobId Job, string Why);
