using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// Ways that follow from the scenario alone, whatever is played in it, each reckoned once: the many timelines of a check go the same ways. Whoever plays borrows a
/// book and gives it back, so that only one play at a time reads and writes in it. What depends on what is played is in no book.
/// </summary>
internal sealed class WayBook
{
    /// <summary>So many answers a book keeps; a fuller one is not lent again.</summary>
    private const int Full = 20_000;

    private static readonly ConditionalWeakTable<Scenario, ConcurrentBag<WayBook>> Shelves = [];

    private readonly ConcurrentBag<WayBook> shelf;
    private readonly Dictionary<(PersonId, AirlockId, double), Walker> walkers = [];
    private readonly Dictionary<(ArmId, PoseId), Dictionary<PoseId, (int Seconds, PoseId? Next)>> rides = [];
    private readonly Dictionary<(GripId, Lay, WayLeg?), Standpoint> standpoints = [];

    private WayBook(Scenario scenario, ConcurrentBag<WayBook> shelf)
    {
        this.shelf = shelf;
        Scenario = scenario;
        Lookup = Lookup.Of(scenario);
        if (scenario.Help is { } help) HelpWays = new(this, help);
    }

    public Scenario Scenario { get; }

    public Lookup Lookup { get; }

    /// <summary>A tether of which nothing is laid; every other grows from it.</summary>
    public Lay Nothing { get; } = Lay.Nothing();

    /// <summary>Null where the sortie does not say what helping takes.</summary>
    public HelpWays? HelpWays { get; }

    /// <summary>How many answers are kept.</summary>
    public int Kept { get; set; }

    /// <summary>A book of a scenario that nobody has; to be given back.</summary>
    public static WayBook Borrow(Scenario scenario)
    {
        ConcurrentBag<WayBook> shelf = Shelves.GetValue(scenario, static _ => []);
        return shelf.TryTake(out WayBook? book) ? book : new(scenario, shelf);
    }

    public void GiveBack()
    {
        if (Kept < Full) shelf.Add(this);
    }

    /// <summary>Somebody as loaded, with the airlock that all ways home lead to.</summary>
    public Walker WalkerOf(PersonId person, Airlock airlock, double slower)
    {
        if (walkers.TryGetValue((person, airlock.Id, slower), out Walker? walker)) return walker;
        Kept++;
        return walkers[(person, airlock.Id, slower)] = new(this, Lookup.Person(person), airlock, slower);
    }

    /// <summary>A place where somebody can be found; one object of each.</summary>
    public Standpoint StandpointAt(GripId grip, Lay line, WayLeg? climb = null)
    {
        if (standpoints.TryGetValue((grip, line, climb), out Standpoint? known)) return known;
        Kept++;
        return standpoints[(grip, line, climb)] = new(grip, line, climb);
    }

    /// <summary>The least ride time from each pose to one, over the poses that the table joins, and the pose that comes next.</summary>
    public Dictionary<PoseId, (int Seconds, PoseId? Next)> RideTimes(Arm arm, PoseId to)
    {
        if (rides.TryGetValue((arm.Id, to), out Dictionary<PoseId, (int Seconds, PoseId? Next)>? known)) return known;
        Dictionary<PoseId, (int Seconds, PoseId? Next)> found = [];
        PriorityQueue<(PoseId Pose, PoseId? Next), int> queue = new();
        queue.Enqueue((to, null), 0);
        while (queue.TryDequeue(out (PoseId Pose, PoseId? Next) one, out int seconds))
        {
            if (!found.TryAdd(one.Pose, (seconds, one.Next))) continue;
            foreach (RideTime ride in arm.Rides)
            {
                if (ride.A == one.Pose) queue.Enqueue((ride.B, one.Pose), seconds + arm.TimeOf(ride).Seconds);
                if (ride.B == one.Pose) queue.Enqueue((ride.A, one.Pose), seconds + arm.TimeOf(ride).Seconds);
            }
        }
        return rides[(arm.Id, to)] = found;
    }
}
