using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The kinds of spot where play can find a thing. Finer than a file's location: play knows which carry point, and when a thing is in somebody's hands.</summary>
internal enum SpotKind
{
    Inside,
    Spent,
    Grip,
    Bag,
    Carry,
    Hands,
    Socket,
    Site,
    Arm,
}

/// <summary>Where a thing is. <paramref name="Carry"/> is the carry point, for <see cref="SpotKind.Carry"/> only.</summary>
internal readonly record struct Spot(SpotKind Kind, string Name, string Carry = "")
{
    public static Spot Inside { get; } = new(SpotKind.Inside, "");

    public static Spot Spent { get; } = new(SpotKind.Spent, "");

    public static Spot At(GripId grip) => new(SpotKind.Grip, grip.Value);

    public static Spot In(SocketId socket) => new(SpotKind.Socket, socket.Value);

    public static Spot On(PersonId person, CarryPointId carry) => new(SpotKind.Carry, person.Value, carry.Value);

    public static Spot InHands(PersonId person) => new(SpotKind.Hands, person.Value);

    /// <summary>Whether it hangs on, or is held by, this person.</summary>
    public bool IsWith(PersonId person) => Kind is SpotKind.Carry or SpotKind.Hands && Name == person.Value;

    /// <summary>As it stands in the trace.</summary>
    public override string ToString() => Kind switch
    {
        SpotKind.Inside => "inside",
        SpotKind.Spent => "spent",
        SpotKind.Carry => $"person {Name} {Carry}",
        _ => $"{Kind.ToString().ToLowerInvariant()} {Name}",
    };

    /// <summary>As a sentence says it, after "is".</summary>
    public string InWords() => Kind switch
    {
        SpotKind.Inside => "inside the station",
        SpotKind.Spent => "used up",
        SpotKind.Grip => $"hooked at {Name}",
        SpotKind.Bag => $"in {Name}",
        SpotKind.Carry => $"on {Name}'s {Carry}",
        SpotKind.Hands => $"in {Name}'s hands",
        SpotKind.Socket => $"plugged into {Name}",
        SpotKind.Site => $"installed at {Name}",
        _ => $"on {Name}",
    };
}

/// <summary>The names that a person's place, footing and anchor take in the trace.</summary>
internal static class Places
{
    public const string Inside = "inside";
    public const string Free = "free";
    public const string BodyTether = "body tether";
    public const string None = "none";

    public static string At(GripId grip) => grip.Value;

    public static string At(ArmId arm, PoseId pose) => $"{arm}/{pose}";

    public static string MovingOn(ArmId arm) => $"{arm}/moving";

    public static string In(SocketId socket) => $"socket {socket}";

    public static string On(ArmId arm) => $"arm {arm}";

    /// <summary>The place where a worksite is worked at.</summary>
    public static string At(Site site) => site.Grip is { } grip ? At(grip) : At(site.Arm!.Value, site.Pose!.Value);
}
