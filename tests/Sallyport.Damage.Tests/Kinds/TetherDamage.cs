using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Lines and what holds people.</summary>
internal static class TetherDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("next reel not hooked", "A person waits instead of hooking the next reel, and later goes back to it.", "tether.none",
            "On the way back there is no earlier reel to go back to.",
            plan => plan.All<SwapReel>().Where(swap => swap.Onto == swap.At).Select(swap => plan.Skip(swap))),
        new("reel left behind", "A person waits instead of taking the reel back where it was hooked.", "tether.wrap",
            "The person comes to the hatch with a reel still hooked.",
            plan => plan.All<SwapReel>().Where(swap => swap.Onto != swap.At).Select(swap => plan.Skip(swap))),
        new("reel too short", "The reels in the world as played are 10 cm shorter than what the person pays out at most.", "tether.reach",
            "The line ends before the person is there.",
            plan => plan.Outside.Where(person => Longest(plan, person) > 100)
                .Select(person => plan.WithPerson(person, one => one with { Reels = [.. one.Reels.Select(_ => (Longest(plan, person) - 100) / 1000.0)] }))),
        new("one reel too many", "The person carries one reel fewer in the world as played than are hooked at once.", "tether.reach",
            "There is no reel to hook.",
            plan => plan.All<SwapReel>().Where(swap => swap.Onto == swap.At)
                .Select(swap => plan.WithPerson(swap.Person, one => one with { Reels = one.Reels[..plan.History.At(plan.History[$"person {one.Id} reels"], swap.Start)] }))),
        new("no anchor", "The grip where the next reel is hooked takes no hook in the world as played.", "tether.none",
            "A line hooked there holds nobody.",
            plan => plan.All<SwapReel>().Where(swap => swap.Onto == swap.At).Select(swap => plan.WithStation(station => station with
            {
                Grips = CleanPlan.Each(station.Grips, grip => grip.Id == swap.At, grip => grip with { Anchor = false }),
            }))),
        new("out without a line", "A person goes out with no reel.", "tether.none",
            "Nothing holds the person.",
            plan => plan.Scenario.Tether.Protocol != TetherProtocol.Reel ? [] : plan.Outside.Select(person => plan.WithPerson(person, one => one with { Reels = [] }))),
        new("wrap", "A person walks a loop round the structure while the rest waits, and comes back from the other side.", "tether.wrap",
            "The line stays laid round the structure, and the person comes to the hatch with some of it paid out.",
            Wraps),
        new("rider still tied", "A person waits instead of getting onto the arm, which then carries the person.", "tether.rider",
            "The line on the structure was never given up.",
            plan => plan.All<MountArm>().Where(mount => plan.All<ArmMove>().Any(move => move.Rider == mount.Person && move.Start >= mount.End)).Select(mount => plan.Skip(mount))),
        new("off the arm elsewhere", "A rider gets off at another mount than where the reel was left.", "tether.none",
            "The reel hangs at the other grip.",
            plan => plan.Scenario.Tether.Protocol != TetherProtocol.Reel ? [] : plan.All<DismountArm>().SelectMany(off => plan.Scenario.Arms.Single(arm => arm.Id == off.Arm).Mounts
                .Where(mount => mount.Grip != off.At).Select(mount => plan.Instead(off, off with { At = mount.Grip })))),
    ];

    /// <summary>The most a person pays out of any reel, mm.</summary>
    private static int Longest(CleanPlan plan, PersonId person)
    {
        int variable = plan.History[$"person {person} tether"];
        return plan.History.Changes(variable).Select(change => change.Value).Append(0).Max();
    }

    /// <summary>A loop from where a person stands on the structure, walked in 20 min a span; everything else is held meanwhile.</summary>
    private static IEnumerable<Damaged> Wraps(CleanPlan plan)
    {
        if (plan.Scenario.Tether.Protocol != TetherProtocol.Reel) yield break;
        foreach (Translate walk in plan.All<Translate>())
        {
            if (Loop(plan.Scenario.Station, walk.Spans[0].From) is not { } loop) continue;
            Duration time = Duration.FromMinutes(20);
            Translate round = walk with
            {
                Id = new($"{walk.Id}-round"),
                End = Pet.FromSeconds(walk.Start.Seconds + time.Seconds * (loop.Count - 1)),
                Spans = [.. loop.Zip(loop.Skip(1)).Select(pair => new SpanWalk(pair.First, pair.Second, time))],
            };
            yield return plan.Hold(walk.Start, round.Length.Seconds, round);
        }
    }

    /// <summary>The shortest way round through a grip that uses no span twice; null when there is none.</summary>
    private static List<GripId>? Loop(Station station, GripId start)
    {
        Queue<List<GripId>> open = new([[start]]);
        while (open.TryDequeue(out List<GripId>? way))
        {
            if (way.Count > 7) return null;
            foreach (Span span in station.Spans.Where(span => span.A == way[^1] || span.B == way[^1]))
            {
                GripId next = span.A == way[^1] ? span.B : span.A;
                if (next == start && way.Count > 2) return [.. way, start];
                if (!way.Contains(next)) open.Enqueue([.. way, next]);
            }
        }
        return null;
    }
}
