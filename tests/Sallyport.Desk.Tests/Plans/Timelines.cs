using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Timelines with every kind of activity, sensible or not: what a file can say, a file must keep.</summary>
internal static class Timelines
{
    private static readonly PersonId One = new("EV1"), Two = new("EV2");
    private static readonly GripId Door = new("door"), Rail = new("rail-1");
    private static readonly GearId Bag = new("lamp-bag"), Restraint = new("restraint-2");
    private static readonly CarryPointId Waist = new("waist");
    private static readonly SocketId Socket = new("socket-2");
    private static readonly ArmId Boom = new("boom");
    private static readonly LegId Look = new("look/look");

    public static Gen<Timeline> All { get; } = Gen.Select(
        Gen.Select(Gen.Int[0, 19], Gen.Int[-4000, 30000], Gen.Int[1, 4000], Gen.Int[-100, 100], Gen.Int[0, 5]).Array[1, 25], Outlines.Text, Gen.Bool, Gen.Int[-500, 500],
        (made, text, other, missed) => new Timeline(
            Folders.EveryKeyScenario.Id, text, other ? Branch.Otherwise : Branch.Likely,
            [.. made.Select((one, i) => Make(i, one, text)).OrderBy(activity => activity.Start).ThenBy(activity => activity.Id.Value, StringComparer.Ordinal)],
            other ? [new(Look, text, Pet.FromSeconds(missed), Pet.FromSeconds(missed + 7))] : [])
        {
            Trouble = missed > 0 ? new(Look, new("look"), text, Duration.FromSeconds(missed - 250), Pet.FromSeconds(missed), (GoingOn)(missed % 4)) : null,
        });

    /// <summary>One activity of each kind.</summary>
    public static ImmutableArray<Activity> OneOfEach { get; } = [.. Enumerable.Range(0, 20).Select(kind => Make(kind, (kind, kind * 60, 60, 0, 0), "dawn"))];

    private static Activity Make(int index, (int Kind, int Start, int Length, int Lag, int After) made, string text)
    {
        ActivityId id = new($"a{index}");
        Pet start = Pet.FromSeconds(made.Start), end = Pet.FromSeconds(made.Start + made.Length);
        Activity activity = made.Kind switch
        {
            0 => new AirlockPhase { Id = id, Start = start, End = end, Airlock = new("door"), Phase = (AirlockPhaseKind)(made.Length % 9), Who = [One, Two] },
            1 => new Translate { Id = id, Start = start, End = end, Person = One, Spans = [new(Door, Rail, Duration.FromSeconds(made.Length)), new(Rail, Door, Duration.FromSeconds(1))] },
            2 => new SwapReel { Id = id, Start = start, End = end, Person = One, At = Door, Onto = Rail },
            3 => new Take { Id = id, Start = start, End = end, Person = Two, Gear = Bag, At = Door, Carry = Waist },
            4 => new Put { Id = id, Start = start, End = end, Person = One, Gear = Bag, At = Door },
            5 => new Give { Id = id, Start = start, End = end, From = One, To = Two, Gear = Bag, Carry = Waist, At = Rail },
            6 => new Plug { Id = id, Start = start, End = end, Person = One, Gear = Restraint, Socket = Socket, Setting = text },
            7 => new Unplug { Id = id, Start = start, End = end, Person = One, Gear = Restraint, Socket = Socket, Carry = Waist },
            8 => new EnterRestraint { Id = id, Start = start, End = end, Person = One, Socket = Socket },
            9 => new LeaveRestraint { Id = id, Start = start, End = end, Person = One, Socket = Socket },
            10 => new MountArm { Id = id, Start = start, End = end, Person = One, Arm = Boom, At = Rail },
            11 => new ArmMove { Id = id, Start = start, End = end, Arm = Boom, From = new("park"), To = new("lamp-high"), Rider = One },
            12 => new ArmMove { Id = id, Start = start, End = end, Arm = Boom, From = new("lamp-high"), To = new("park") },
            13 => new DismountArm { Id = id, Start = start, End = end, Person = One, Arm = Boom, At = Rail },
            14 or 15 => new DoStep { Id = id, Start = start, End = end, Person = One, Leg = Look, Step = new("look"), LeftBy = made.Kind == 14 ? null : (Leaving)(made.Length % 2) },
            16 => new Await { Id = id, Start = start, End = end, Person = One, Until = text },
            17 => new CheckGloves { Id = id, Start = start, End = end, Person = One },
            18 => new Rest { Id = id, Start = start, End = end, Person = Two },
            _ => new SendCommand { Id = id, Start = start, End = end, Console = new("power"), Command = new("branch-a off") },
        };
        return activity with
        {
            After = made.After == 0 ? [] : [new(made.After == 1 ? null : id, Duration.FromSeconds(made.Lag), text), new(id, default, "same person")],
            For = made.After % 2 == 0 ? Look : null,
        };
    }
}
