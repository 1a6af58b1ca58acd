using System.Collections.Immutable;
using System.Reflection;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>What is held against the plan before the moment of a contingency: whatever anybody does then, of every kind.</summary>
public sealed class ToldTests
{
    private static readonly Pet Start = At("0:10"), End = At("0:12"), Moment = At("0:20");

    private static readonly PersonId Who = new("EV1");

    private static readonly HookMoves Moves = new(At("0:11"), At("0:12"));

    /// <summary>No deeds: a name, what it is shown to wait for, the words of a wait and what it waits to do.</summary>
    private static readonly HashSet<string> NoDeeds = ["*.Id", "*.After", "Await.Until", "Await.For"];

    private static readonly ImmutableArray<Activity> Samples =
    [
        new AirlockPhase { Id = new("x"), Start = Start, End = End, Airlock = new("lock"), Phase = AirlockPhaseKind.Check, Who = [Who] },
        new Translate { Id = new("x"), Start = Start, End = End, Person = Who, Spans = [new(new("a"), new("b"), Seconds(120))] },
        new SwapReel { Id = new("x"), Start = Start, End = End, Person = Who, At = new("a"), Onto = new("a"), Hooks = Moves },
        new Take { Id = new("x"), Start = Start, End = End, Person = Who, Gear = new("bag"), At = new("a"), Carry = new("waist") },
        new Put { Id = new("x"), Start = Start, End = End, Person = Who, Gear = new("bag"), At = new("a") },
        new Give { Id = new("x"), Start = Start, End = End, From = Who, To = new("EV2"), Gear = new("bag"), Carry = new("waist"), At = new("a") },
        new Plug { Id = new("x"), Start = Start, End = End, Person = Who, Gear = new("frame"), Socket = new("s"), Setting = "A" },
        new Unplug { Id = new("x"), Start = Start, End = End, Person = Who, Gear = new("frame"), Socket = new("s"), Carry = new("waist") },
        new EnterRestraint { Id = new("x"), Start = Start, End = End, Person = Who, Socket = new("s") },
        new LeaveRestraint { Id = new("x"), Start = Start, End = End, Person = Who, Socket = new("s") },
        new MountArm { Id = new("x"), Start = Start, End = End, Person = Who, Arm = new("crane"), At = new("a"), Hooks = Moves },
        new ArmMove { Id = new("x"), Start = Start, End = End, Arm = new("crane"), From = new("low"), To = new("high"), Rider = Who, BrakesSet = true },
        new DismountArm { Id = new("x"), Start = Start, End = End, Person = Who, Arm = new("crane"), At = new("a"), Hooks = Moves },
        new DoStep { Id = new("x"), Start = Start, End = End, Person = Who, Leg = new("latch/free"), Step = new("loosen"), LeftBy = Leaving.Abort },
        new Await { Id = new("x"), Start = Start, End = End, Person = Who, Until = "it is over" },
        new CheckGloves { Id = new("x"), Start = Start, End = End, Person = Who },
        new Rest { Id = new("x"), Start = Start, End = End, Person = Who },
        new SendCommand { Id = new("x"), Start = Start, End = End, Console = new("power"), Command = new("bus off") },
    ];

    [Fact]
    public void Samples_AreOfEveryKindOfActivity() => Assert.Equal(
        typeof(Activity).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Activity)) && !type.IsAbstract).Select(type => type.Name).Order(),
        Samples.Select(sample => sample.GetType().Name).Order());

    [Fact]
    public void Told_OfEveryKind_ChangesWithEverythingThatIsDone() => Assert.All(Samples, sample =>
    {
        foreach (PropertyInfo property in sample.GetType().GetProperties().Where(one => one.CanWrite))
        {
            Activity changed = Copy(sample);
            object? was = property.GetValue(sample), other = Other(property.PropertyType, was);
            Assert.NotEqual(was, other);
            property.SetValue(changed, other);
            bool deed = !NoDeeds.Contains($"*.{property.Name}") && !NoDeeds.Contains($"{sample.GetType().Name}.{property.Name}");
            Assert.True(deed == (Detour.Told(sample, Moment) != Detour.Told(changed, Moment)), $"{sample.GetType().Name}.{property.Name}");
        }
    });

    // Of what goes on at the moment, what is yet to come is not part of the past.
    [Fact]
    public void Told_OfWhatGoesOn_LeavesItsEndAndHowItIsLeftOpen()
    {
        DoStep step = Samples.OfType<DoStep>().Single() with { End = At("0:25"), LeftBy = null };
        Assert.Equal(Detour.Told(step, Moment), Detour.Told(step with { End = At("0:30"), LeftBy = Leaving.Terminate }, Moment));
        Assert.NotEqual(Detour.Told(step, Moment), Detour.Told(step with { End = Moment.Plus(Seconds(-1)) }, Moment));
    }

    [Fact]
    public void Told_OfAnUnknownKind_IsRefused() =>
        Assert.Contains("unknown kind Juggle", Assert.Throws<ArgumentException>(() => Detour.Told(new Juggle { Id = new("x"), Start = Start, End = End, Person = Who }, Moment)).Message);

    private sealed record Juggle : PersonActivity;

    private static Activity Copy(Activity activity) =>
        (Activity)activity.GetType().GetMethod("<Clone>$", BindingFlags.Instance | BindingFlags.Public)!.Invoke(activity, null)!;

    /// <summary>Another value of a type.</summary>
    private static object? Other(Type type, object? was) => was switch
    {
        Pet moment => moment.Plus(Seconds(1)),
        bool flag => !flag,
        string text => text + "-other",
        HookMoves moves => moves with { On = moves.On.Plus(Seconds(1)) },
        ImmutableArray<PersonId> people => people.Add(new("EV9")),
        ImmutableArray<SpanWalk> spans => spans.Add(new(new("b"), new("c"), Seconds(1))),
        ImmutableArray<Dependency> waits => waits.Add(new(null, Seconds(0), "day")),
        AirlockPhaseKind => AirlockPhaseKind.Inventory,
        Leaving => Leaving.Terminate,
        _ => Activator.CreateInstance(Nullable.GetUnderlyingType(type) ?? type, "other"),
    };
}
