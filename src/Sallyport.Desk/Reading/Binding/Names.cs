namespace Sallyport.Desk;

/// <summary>The kinds of name that files give and use, worded as messages say them.</summary>
internal static class Kinds
{
    public const string Grip = "grip";
    public const string Site = "site";
    public const string Socket = "socket";
    public const string Zone = "zone";
    public const string Feature = "feature";
    public const string MayBeLeft = "feature that may be left";
    public const string Node = "power node";
    public const string Capacitor = "capacitor";
    public const string Controller = "controller";
    public const string Clock = "clock";
    public const string FluidLine = "fluid line";
    public const string Surface = "surface";
    public const string Edge = "sharp edge";
    public const string Airlock = "airlock";
    public const string Person = "person";
    public const string Outside = "person outside";
    public const string Training = "training";
    public const string Size = "size";
    public const string Gear = "gear item";
    public const string Bag = "bag";
    public const string Restraint = "restraint";
    public const string Stock = "stock";
    public const string Tool = "tool";
    public const string Bolt = "bolt";
    public const string Footing = "footing";
    public const string Arm = "arm";
    public const string Console = "console";
    public const string Command = "command";
    public const string Shutdown = "shutdown";
    public const string Job = "job";
    public const string Leg = "leg";
    public const string Limit = "limit";
    public const string GroundStation = "ground station or relay";
    public const string Region = "region of high radiation";
    public const string Factor = "factor of a person";
    public const string SuitInUse = "suit of a person";
    public const string Day = "day of a person";
    public const string Hazard = "joint, jets or beam";

    public static string State(string feature) => $"state of {feature}";
    public static string Pose(string arm) => $"pose of {arm}";
    public static string Step(string leg) => $"step of {leg}";
    public static string CarryPointOf(string person) => $"carry point of {person}";
}

/// <summary>What files name and what they refer to. A name may be used before it is given, so uses are looked up at the end.</summary>
internal sealed class Names
{
    // Looking for the nearest name is the one thing here that grows with uses times names: past this many it is left out.
    private const int MostComparisons = 400_000;

    private readonly Dictionary<string, Dictionary<string, Place>> given = new(StringComparer.Ordinal);
    private readonly List<(string Kind, string Name, Place Place, string Section)> uses = [];

    /// <summary>Gives a name; false, and the first place, when it was given already.</summary>
    public bool Give(string kind, string name, Place place, out Place first)
    {
        Dictionary<string, Place> ofKind = OfKind(kind);
        if (ofKind.TryAdd(name, place))
        {
            first = place;
            return true;
        }
        first = ofKind[name];
        return false;
    }

    public void Use(string kind, string name, Place place, string section) => uses.Add((kind, name, place, section));

    /// <summary>Where which kinds of name were used.</summary>
    public IEnumerable<(string Kind, Place Place)> Uses => uses.Select(use => (use.Kind, use.Place));

    public bool Knows(string kind, string name) => given.TryGetValue(kind, out Dictionary<string, Place>? ofKind) && ofKind.ContainsKey(name);

    public IEnumerable<string> All(string kind) => given.TryGetValue(kind, out Dictionary<string, Place>? ofKind) ? ofKind.Keys : [];

    /// <summary>Looks every use up and tells those that lead nowhere.</summary>
    public IEnumerable<(string Section, Problem Problem)> Unknown()
    {
        int comparisons = 0;
        foreach ((string kind, string name, Place place, string section) in uses)
        {
            if (Knows(kind, name)) continue;
            // A state of an unknown feature, a step of an unknown leg: the feature or leg is told, once.
            if (IsPartOfUnknown(kind)) continue;
            string? also = new[] { Kinds.Gear, Kinds.Person }.FirstOrDefault(wider => IsNarrower(kind, wider) && Knows(wider, name));
            if (comparisons <= MostComparisons && given.TryGetValue(kind, out Dictionary<string, Place>? ofKind)) comparisons += ofKind.Count;
            yield return (section, also is null
                ? NameProblems.Unknown(place, kind, name, All(kind), seeksNearest: comparisons <= MostComparisons)
                : NameProblems.WrongKind(place, kind, name, also, All(kind)));
        }
    }

    private Dictionary<string, Place> OfKind(string kind)
    {
        if (!given.TryGetValue(kind, out Dictionary<string, Place>? ofKind)) given[kind] = ofKind = new(StringComparer.Ordinal);
        return ofKind;
    }

    private bool IsPartOfUnknown(string kind) => kind.IndexOf(" of ", StringComparison.Ordinal) > 0 && !given.ContainsKey(kind);

    private static bool IsNarrower(string kind, string wider) =>
        wider == Kinds.Gear ? kind is Kinds.Bag or Kinds.Restraint or Kinds.Stock or Kinds.Tool : kind == Kinds.Outside;
}
