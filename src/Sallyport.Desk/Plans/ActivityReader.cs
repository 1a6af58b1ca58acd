using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads what is particular to each kind of activity; <c>does</c> says which kind.</summary>
internal static class ActivityReader
{
    private static readonly ImmutableArray<(string Word, AirlockPhaseKind Value)> Phases =
    [
        ("out", AirlockPhaseKind.Out), ("waitInside", AirlockPhaseKind.WaitInside), ("bagsOut", AirlockPhaseKind.BagsOut), ("check", AirlockPhaseKind.Check),
        ("inventory", AirlockPhaseKind.Inventory), ("bagsIn", AirlockPhaseKind.BagsIn), ("in", AirlockPhaseKind.In), ("safeInside", AirlockPhaseKind.SafeInside),
        ("close", AirlockPhaseKind.Close),
    ];

    private static readonly ImmutableArray<(string Word, Func<MapReader, Activity> Value)> Kind =
    [
        ("airlock", r => new AirlockPhase { Id = default, Start = default, End = default, Airlock = new(r.Ref("airlock", Kinds.Airlock)), Phase = r.Choice("phase", Phases.AsSpan()), Who = r.FilledRefs("who", Kinds.Outside, name => new PersonId(name)) }),
        ("translate", r => new Translate { Id = default, Start = default, End = default, Person = Person(r), Spans = r.FilledList("spans", "a span walked", Span) }),
        ("swap-reel", r => new SwapReel { Id = default, Start = default, End = default, Person = Person(r), At = Grip(r, "at"), Onto = Grip(r, "onto"), Hooks = Hooks(r) }),
        ("take", r => new Take { Id = default, Start = default, End = default, Person = Person(r), Gear = Gear(r), At = Grip(r, "at"), Carry = Carry(r, "person") }),
        ("put", r => new Put { Id = default, Start = default, End = default, Person = Person(r), Gear = Gear(r), At = Grip(r, "at") }),
        ("give", r => new Give { Id = default, Start = default, End = default, From = Person(r, "from"), To = Person(r, "to"), Gear = Gear(r), Carry = Carry(r, "to"), At = Grip(r, "at") }),
        ("plug", r => new Plug { Id = default, Start = default, End = default, Person = Person(r), Gear = Gear(r), Socket = Socket(r), Setting = r.Text("setting") }),
        ("unplug", r => new Unplug { Id = default, Start = default, End = default, Person = Person(r), Gear = Gear(r), Socket = Socket(r), Carry = Carry(r, "person") }),
        ("enter-restraint", r => new EnterRestraint { Id = default, Start = default, End = default, Person = Person(r), Socket = Socket(r) }),
        ("leave-restraint", r => new LeaveRestraint { Id = default, Start = default, End = default, Person = Person(r), Socket = Socket(r) }),
        ("mount", r => new MountArm { Id = default, Start = default, End = default, Person = Person(r), Arm = Arm(r), At = Grip(r, "at"), Hooks = Hooks(r) }),
        ("arm-move", ArmMove),
        ("dismount", r => new DismountArm { Id = default, Start = default, End = default, Person = Person(r), Arm = Arm(r), At = Grip(r, "at"), Hooks = Hooks(r) }),
        ("step", Step),
        ("wait", r => new Await { Id = default, Start = default, End = default, Person = Person(r), Until = r.Text("until") }),
        ("check-gloves", r => new CheckGloves { Id = default, Start = default, End = default, Person = Person(r) }),
        ("rest", r => new Rest { Id = default, Start = default, End = default, Person = Person(r) }),
        ("command", r => new SendCommand { Id = default, Start = default, End = default, Console = new(r.Ref("console", Kinds.Console)), Command = new(r.Ref("command", Kinds.Command)) }),
    ];

    /// <summary>Reads an activity but for what all kinds have; null when its kind is unknown.</summary>
    public static Activity? Read(MapReader r)
    {
        if (r.Find("does") is TextNode { Text: var does } && Kind.All(kind => kind.Word != does)) r.KnowAll();
        else if (!r.Has("does")) r.KnowAll();
        else return r.Choice("does", Kind.AsSpan())(r);
        r.Choice("does", Kind.AsSpan());
        return null;
    }

    private static ArmMove ArmMove(MapReader r)
    {
        ArmId arm = Arm(r);
        string pose = Kinds.Pose(arm.Value);
        return new()
        {
            Id = default,
            Start = default,
            End = default,
            Arm = arm,
            From = new(r.Ref("from", pose)),
            To = new(r.Ref("to", pose)),
            Rider = r.OptionalRef("rider", Kinds.Outside) is { } rider ? new PersonId(rider) : null,
            BrakesSet = r.Flag("brakesSet"),
        };
    }

    private static HookMoves? Hooks(MapReader r) => r.OptionalMap("hooks", "the moves of hooks", inner => new HookMoves(inner.Pet("on"), inner.Pet("off")));

    private static DoStep Step(MapReader r)
    {
        LegId leg = new(r.Ref("leg", Kinds.Leg));
        return new() { Id = default, Start = default, End = default, Person = Person(r), Leg = leg, Step = new(r.Ref("step", Kinds.Step(leg.Value))), LeftBy = r.OptionalChoice("leftBy", ("terminate", Leaving.Terminate), ("abort", Leaving.Abort)) };
    }

    private static SpanWalk Span(MapReader r) => new(Grip(r, "from"), Grip(r, "to"), r.Time("time"));

    private static PersonId Person(MapReader r, string key = "person") => new(r.Ref(key, Kinds.Outside));

    private static GripId Grip(MapReader r, string key) => new(r.Ref(key, Kinds.Grip));

    private static GearId Gear(MapReader r) => new(r.Ref("gear", Kinds.Gear));

    private static SocketId Socket(MapReader r) => new(r.Ref("socket", Kinds.Socket));

    private static ArmId Arm(MapReader r) => new(r.Ref("arm", Kinds.Arm));

    // The carry point is on the suit of the person whose key is given.
    private static CarryPointId Carry(MapReader r, string person) =>
        new(r.Ref("carry", Kinds.CarryPointOf(r.Find(person) is TextNode { Text: var name } ? name : "")));
}
