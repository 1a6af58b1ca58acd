using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>Writes a timeline one person's line after another: each thing starts when that person's last one ended.</summary>
internal sealed class Plan
{
    private readonly List<Activity> activities = [];
    private readonly Dictionary<string, int> clock = [];
    private readonly Dictionary<string, int> numbers = [];

    public int Now(string who) => clock.GetValueOrDefault(who);

    public Timeline Timeline => new("skerry/short", "plan-1", Branch.Likely, [.. activities.OrderBy(one => one.Start).ThenBy(one => one.Id.Value)], []);

    /// <summary>Out, bags, out, check; both stand at the hatch from 0:17.</summary>
    public static Plan Outside()
    {
        Plan plan = new();
        plan.Phase(AirlockPhaseKind.Out, 300, "EV1").Phase(AirlockPhaseKind.BagsOut, 180, "EV1").Wait("EV1", 780);
        plan.Phase(AirlockPhaseKind.WaitInside, 480, "EV2").Phase(AirlockPhaseKind.Out, 300, "EV2");
        return plan.Phase(AirlockPhaseKind.Check, 240, "EV1", "EV2");
    }

    /// <summary>Waits for the later one; inventory, bags, in, in, hatch closed.</summary>
    public Timeline Home()
    {
        int both = Math.Max(Now("EV1"), Now("EV2"));
        Wait("EV1", both).Wait("EV2", both);
        Phase(AirlockPhaseKind.Inventory, 480, "EV1", "EV2").Phase(AirlockPhaseKind.BagsIn, 180, "EV1", "EV2");
        Phase(AirlockPhaseKind.In, 180, "EV2").Phase(AirlockPhaseKind.SafeInside, 180, "EV2");
        Wait("EV1", Now("EV1") + 180).Phase(AirlockPhaseKind.In, 180, "EV1");
        Phase(AirlockPhaseKind.Close, 240, "EV1", "EV2");
        return Timeline;
    }

    public Plan Phase(AirlockPhaseKind phase, int seconds, params string[] who)
    {
        (ActivityId id, Pet start, Pet end) = Next(seconds, who);
        activities.Add(new AirlockPhase { Id = id, Start = start, End = end, Airlock = new("lock"), Phase = phase, Who = [.. who.Select(one => new PersonId(one))] });
        return this;
    }

    /// <summary>Waits until a second of PET; nothing when it has come.</summary>
    public Plan Wait(string who, int until)
    {
        if (until <= Now(who)) return this;
        (ActivityId id, Pet start, Pet end) = Next(until - Now(who), who);
        activities.Add(new Await { Id = id, Start = start, End = end, Person = new(who), Until = "its turn" });
        return this;
    }

    /// <summary>Goes on at a second of PET, where something included fills the time before.</summary>
    public Plan Skip(string who, int until)
    {
        clock[who] = until;
        return this;
    }

    public Plan Walk(string who, string from, params (string To, int Seconds)[] spans)
    {
        (ActivityId id, Pet start, Pet end) = Next(spans.Sum(span => span.Seconds), who);
        ImmutableArray<SpanWalk>.Builder walks = ImmutableArray.CreateBuilder<SpanWalk>();
        foreach ((string to, int seconds) in spans)
        {
            walks.Add(new(new(from), new(to), Duration.FromSeconds(seconds)));
            from = to;
        }
        activities.Add(new Translate { Id = id, Start = start, End = end, Person = new(who), Spans = walks.ToImmutable() });
        return this;
    }

    public Plan Swap(string who, string at, string onto, int seconds = 120) =>
        Add(seconds, who, (id, start, end) => new SwapReel { Id = id, Start = start, End = end, Person = new(who), At = new(at), Onto = new(onto) });

    public Plan Take(string who, string gear, string at, string carry, int seconds = 120) =>
        Add(seconds, who, (id, start, end) => new Take { Id = id, Start = start, End = end, Person = new(who), Gear = new(gear), At = new(at), Carry = new(carry) });

    public Plan Put(string who, string gear, string at, int seconds = 120) =>
        Add(seconds, who, (id, start, end) => new Put { Id = id, Start = start, End = end, Person = new(who), Gear = new(gear), At = new(at) });

    public Plan Give(string from, string to, string gear, string at, string carry, int seconds = 120)
    {
        (ActivityId id, Pet start, Pet end) = Next(seconds, from, to);
        activities.Add(new Give { Id = id, Start = start, End = end, From = new(from), To = new(to), Gear = new(gear), At = new(at), Carry = new(carry) });
        return this;
    }

    public Plan Plug(string who, string setting, int seconds = 300) => Add(seconds, who, (id, start, end) =>
        new Plug { Id = id, Start = start, End = end, Person = new(who), Gear = new("frame"), Socket = new("socket-1"), Setting = setting });

    public Plan Unplug(string who, string carry, int seconds = 180) => Add(seconds, who, (id, start, end) =>
        new Unplug { Id = id, Start = start, End = end, Person = new(who), Gear = new("frame"), Socket = new("socket-1"), Carry = new(carry) });

    public Plan Enter(string who, int seconds = 180) =>
        Add(seconds, who, (id, start, end) => new EnterRestraint { Id = id, Start = start, End = end, Person = new(who), Socket = new("socket-1") });

    public Plan Leave(string who, int seconds = 120) =>
        Add(seconds, who, (id, start, end) => new LeaveRestraint { Id = id, Start = start, End = end, Person = new(who), Socket = new("socket-1") });

    public Plan Mount(string who, string at = "quay-2", int seconds = 600) =>
        Add(seconds, who, (id, start, end) => new MountArm { Id = id, Start = start, End = end, Person = new(who), Arm = new("crane"), At = new(at) });

    public Plan Ride(string who, string from, string to, int seconds = 300) => Add(seconds, who, (id, start, end) =>
        new ArmMove { Id = id, Start = start, End = end, Arm = new("crane"), From = new(from), To = new(to), Rider = new PersonId(who) });

    public Plan Dismount(string who, string at = "quay-2", int seconds = 300) =>
        Add(seconds, who, (id, start, end) => new DismountArm { Id = id, Start = start, End = end, Person = new(who), Arm = new("crane"), At = new(at) });

    public Plan Step(string who, string leg, string step, int seconds) =>
        Add(seconds, who, (id, start, end) => new DoStep { Id = id, Start = start, End = end, Person = new(who), Leg = new(leg), Step = new(step) });

    public Plan Send(string command, int from, int seconds = 180, string console = "power", string? id = null)
    {
        activities.Add(new SendCommand
        {
            Id = new(id ?? $"{console}-{command}-{from}"),
            Start = Pet.FromSeconds(from),
            End = Pet.FromSeconds(from + seconds),
            Console = new(console),
            Command = new(command),
        });
        return this;
    }

    public Plan Include(Activity activity)
    {
        activities.Add(activity);
        return this;
    }

    private Plan Add(int seconds, string who, Func<ActivityId, Pet, Pet, Activity> make)
    {
        (ActivityId id, Pet start, Pet end) = Next(seconds, who);
        activities.Add(make(id, start, end));
        return this;
    }

    private (ActivityId Id, Pet Start, Pet End) Next(int seconds, params string[] who)
    {
        int start = who.Max(Now);
        foreach (string one in who) clock[one] = start + seconds;
        int number = numbers[who[0]] = numbers.GetValueOrDefault(who[0]) + 1;
        return (new($"{who[0]}-{number:00}"), Pet.FromSeconds(start), Pet.FromSeconds(start + seconds));
    }

    /// <summary>The short walk of skerry-short: EV1 frees the latch at the ring, EV2 looks along the rim.</summary>
    public static Timeline ShortWalk() => Latch(Outside()).Home();

    /// <summary>The work of the short walk, between going out and coming home.</summary>
    public static Plan Latch(Plan plan) => plan
        .Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360)
        .Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60))
        .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1890).Step("EV2", "latch/look", "look", 180).Walk("EV2", "quay-1", ("lock", 60));
}
