using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>The further hook is on before the other one is off.</summary>
internal sealed class TetherSwap : FactRule
{
    public override RuleCard Card { get; } = new(new("tether.swap"),
        "a person adrift in the middle of changing over",
        "the hooks that hold a person at each moment at which one is released: in a change of reels, and in getting on and off an arm, at the "
            + "moments told; with two short tethers, when a walk begins, since at each grip on the way the second is on before the first is moved",
        "the scenario's limit; its time until a further hook is on",
        Guard.Expansion("every change hooks on first and releases at its end"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Count)
        ?? (scenario.Tether is { Protocol: TetherProtocol.Reel, Hooked: null } ? "the scenario does not say how long it takes until the further hook is on (hooked)" : null);
}

/// <summary>No line lies where something moves.</summary>
internal sealed class TetherSwept : Rule
{
    public override RuleCard Card { get; } = new(new("tether.swept"),
        "a line caught and drawn along by an arm or a turning joint, with a person on its end",
        "each line as it lies from grip to grip, the rider's own too: its distance from the straight line between the poses of an arm while that "
            + "moves, whether it lies at a grip that the ride is told to pass, and whether it lies on what moves with a joint that is not locked",
        "the scenario's limit; the grips of each ride and of each joint",
        Guard.Decoder("a plan in which a line lies in what a ride sweeps counts as broken; ways keep out of joints that can move"));

    public override string? Missing(Scenario scenario) => scenario.Arms.IsEmpty ? null : MissingLimit(scenario, Dimension.Length);

    public override IEnumerable<string> Unseen(Scenario scenario) => Whereabouts.UntoldRides(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        ImmutableArray<LaidLine> lines = given.LaidLines;
        Dictionary<GripId, Point> points = given.Scenario.Station.Grips.ToDictionary(grip => grip.Id, grip => grip.At);
        return Arms(given, lines, points).Concat(Joints(given, lines));
    }

    private IEnumerable<Finding> Arms(Case given, ImmutableArray<LaidLine> lines, Dictionary<GripId, Point> points)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        double keep = limit.Value.Value;
        Overlaps<LaidLine> inTime = new(lines, line => new(line.From, line.To));
        foreach (ArmMove move in given.Timeline.Activities.OfType<ArmMove>())
        {
            Whereabouts swept = Whereabouts.RideOf(given.Scenario, move);
            foreach (IGrouping<PersonId, LaidLine> own in inTime.Between(move.Start, move.End).GroupBy(line => line.Person))
            {
                LaidLine? caught = null;
                double least = double.MaxValue;
                foreach (LaidLine line in own)
                {
                    double distance = Distance(line, swept, points);
                    if (distance < keep && distance < least) (caught, least) = (line, distance);
                }
                if (caught is null) continue;
                yield return Broken(given, caught.From > move.Start ? caught.From : move.Start, [own.Key],
                    $"{own.Key}'s line lies {least:0.00} m from where {move.Arm} moves from {move.From} to {move.To}; {limit.Value} must be kept.",
                    $"Lead {own.Key} another way, or let {move.Arm} move at another time.", move.Id) with
                {
                    Measured = $"{Math.Floor(least * 100) / 100:0.00} m",
                    Limit = limit.Value.ToString(),
                    Margin = $"{Math.Floor((least - keep) * 100) / 100:0.00} m",
                    Source = SourceOf(limit),
                };
            }
        }
    }

    private static double Distance(LaidLine line, Whereabouts swept, Dictionary<GripId, Point> points)
    {
        if (line.Grips.Any(swept.Grips.Contains)) return 0;
        double least = Closeness.Between(Stretch.Of(points[line.Grips[0]]), swept.Line);
        for (int i = 1; i < line.Grips.Length; i++)
            least = Math.Min(least, Closeness.Between(new Stretch(points[line.Grips[i - 1]], points[line.Grips[i]]), swept.Line));
        return least;
    }

    private IEnumerable<Finding> Joints(Case given, ImmutableArray<LaidLine> lines)
    {
        foreach (Joint joint in given.Scenario.Station.Joints)
        {
            ImmutableArray<PetInterval> loose = given.History.While(given.History[$"feature {joint.Feature} state"], state => !joint.Locked.Contains(state));
            foreach (IGrouping<PersonId, LaidLine> own in lines.Where(line => line.Grips.Any(joint.Moves.Contains)).GroupBy(line => line.Person))
                foreach (PetInterval both in Intervals.Common(Intervals.Join(own.Select(line => new PetInterval(line.From, line.To))), loose))
                    yield return Broken(given, both.From, [own.Key],
                        $"{own.Key}'s line lies on what moves with {joint.Id} until {both.To}, while {joint.Feature} may move.",
                        $"Lock {joint.Feature} before {both.From}, and keep it locked until {both.To}.");
        }
    }
}

/// <summary>No two lines lie across each other.</summary>
internal sealed class TetherCrossed : Rule
{
    public override RuleCard Card { get; } = new(new("tether.crossed"),
        "two lines that hold each other, so that neither winds in",
        "each two lines as they lie from grip to grip. Where they share spans and part at both ends: whether the one lies on one side of the other "
            + "where they meet and not on the same side where they part, square across counted as not the same; where they meet at one grip only and "
            + "come and leave by four spans: always. Always a caution",
        RuleCard.NoFigure,
        Guard.Proof("a caution breaks no plan"));

    public override IEnumerable<Finding> Find(Case given)
    {
        ImmutableArray<LaidLine> lines = given.LaidLines;
        Dictionary<GripId, Point> points = given.Scenario.Station.Grips.ToDictionary(grip => grip.Id, grip => grip.At);
        for (int i = 0; i < given.People.Length; i++)
            for (int j = i + 1; j < given.People.Length; j++)
                foreach (Finding finding in Between(given, lines, given.People[i], given.People[j], points)) yield return finding;
    }

    /// <summary>One finding for each stretch of time in which two people's lines are crossed.</summary>
    private IEnumerable<Finding> Between(Case given, ImmutableArray<LaidLine> lines, PersonId one, PersonId other, Dictionary<GripId, Point> points)
    {
        List<(PetInterval While, GripId At)> crossed = [];
        Overlaps<LaidLine> others = new(lines.Where(line => line.Person == other), line => new(line.From, line.To));
        foreach (LaidLine a in lines.Where(line => line.Person == one))
            foreach (LaidLine b in others.Between(a.From, a.To))
                if (Crossings.First(a.Grips, b.Grips, points) is { } at)
                    crossed.Add((new(a.From > b.From ? a.From : b.From, a.To < b.To ? a.To : b.To), at));
        Dictionary<Pet, GripId> firstAt = [];
        foreach ((PetInterval lasting, GripId at) in crossed) firstAt.TryAdd(lasting.From, at);
        foreach (PetInterval stretch in Intervals.Join(crossed.Select(found => found.While)))
            yield return Broken(given, stretch.From, [one, other],
                $"the lines of {one} and {other} lie across each other at {firstAt[stretch.From]} until {stretch.To}.",
                $"Lead one of the two along the same side as the other, or let {other} wait until {one}'s line is taken in.") with
            {
                Severity = Severity.Near,
            };
    }
}

/// <summary>A person's line while it lies one way.</summary>
internal sealed record LaidLine(PersonId Person, Pet From, Pet To, ImmutableArray<GripId> Grips)
{
    /// <summary>All lines of a trace that lie anywhere.</summary>
    public static ImmutableArray<LaidLine> All(Case given)
    {
        ImmutableArray<LaidLine>.Builder all = ImmutableArray.CreateBuilder<LaidLine>();
        foreach (IGrouping<PersonId, LineLaid> own in given.Trace.Lines.GroupBy(line => line.Person))
        {
            LineLaid[] laid = [.. own];
            for (int i = 0; i < laid.Length; i++)
            {
                Pet to = i + 1 < laid.Length ? laid[i + 1].At : given.Trace.To;
                if (!laid[i].Grips.IsEmpty && laid[i].At < to) all.Add(new(own.Key, laid[i].At, to, laid[i].Grips));
            }
        }
        return all.ToImmutable();
    }
}

/// <summary>Where two lines that lie from grip to grip are crossed.</summary>
internal static class Crossings
{
    /// <summary>The first grip at which two lines are crossed; null when they are not.</summary>
    public static GripId? First(ImmutableArray<GripId> one, ImmutableArray<GripId> other, Dictionary<GripId, Point> points)
    {
        for (int i = 1; i + 1 < one.Length; i++)
            for (int j = 1; j + 1 < other.Length; j++)
            {
                if (one[i] != other[j]) continue;
                foreach (int way in (ReadOnlySpan<int>)[1, -1])
                {
                    // Only from where the two meet: the grips before differ.
                    if (one[i - 1] == other[j - way]) continue;
                    int length = 0;
                    while (i + length + 1 < one.Length && Within(other, j + way * (length + 1)) && one[i + length + 1] == other[j + way * (length + 1)]) length++;
                    int a = i + length, b = j + way * length;
                    if (a + 1 >= one.Length || !Within(other, b + way)) continue;
                    if (length == 0)
                    {
                        HashSet<GripId> round = [one[i - 1], one[i + 1], other[j - 1], other[j + 1]];
                        if (round.Count == 4) return one[i];
                        continue;
                    }
                    if (Swapped(points[one[i]], points[one[a]], points[one[i - 1]], points[other[j - way]], points[one[a + 1]], points[other[b + way]])) return one[i];
                }
            }
        return null;
    }

    private static bool Within(ImmutableArray<GripId> line, int index) => index >= 0 && index < line.Length;

    /// <summary>Whether the side on which the one lies of the other is not the same at both ends of what they share, seen along it.</summary>
    private static bool Swapped(Point meet, Point part, Point oneBefore, Point otherBefore, Point oneAfter, Point otherAfter)
    {
        (double X, double Y, double Z) along = (part.X - meet.X, part.Y - meet.Y, part.Z - meet.Z);
        var before = Across(oneBefore, otherBefore, along);
        var after = Across(oneAfter, otherAfter, along);
        return before.X * after.X + before.Y * after.Y + before.Z * after.Z <= 0;
    }

    /// <summary>From the other to the one, without what lies along the shared stretch.</summary>
    private static (double X, double Y, double Z) Across(Point one, Point other, (double X, double Y, double Z) along)
    {
        (double x, double y, double z) = (one.X - other.X, one.Y - other.Y, one.Z - other.Z);
        double square = along.X * along.X + along.Y * along.Y + along.Z * along.Z;
        double share = square == 0 ? 0 : (x * along.X + y * along.Y + z * along.Z) / square;
        return (x - share * along.X, y - share * along.Y, z - share * along.Z);
    }
}
