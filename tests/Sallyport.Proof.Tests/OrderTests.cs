using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>That the order inside a phase never matters, and that time.clash says so where it would.</summary>
public sealed class OrderTests
{
    /// <summary>One plan that holds every kind of activity: commands, restraint, arm, a second reel, a bag put down, taken up and handed over.</summary>
    private static Timeline Busy { get; } = Plan.Outside()
        .Send("bus off", 1020).Send("bus on", 2100)
        .Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Plug("EV1", "B6").Enter("EV1").Step("EV1", "box/open", "open", 300).Leave("EV1").Unplug("EV1", "waist")
        .Mount("EV1").Ride("EV1", "low", "high").Step("EV1", "head/fit", "fit", 600).Ride("EV1", "high", "low").Dismount("EV1")
        .Take("EV2", "latch-bag", "lock", "waist").Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1380).Walk("EV2", "quay-1", ("quay-2", 90))
        .Swap("EV2", "quay-2", "quay-2").Walk("EV2", "quay-2", ("quay-3", 120)).Put("EV2", "latch-bag", "quay-3").Wait("EV2", 2280)
        .Take("EV2", "latch-bag", "quay-3", "waist").Walk("EV2", "quay-3", ("quay-2", 120)).Swap("EV2", "quay-2", "lock").Wait("EV2", 4470)
        .Give("EV2", "EV1", "latch-bag", "quay-2", "stiff")
        .Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360)
        .Walk("EV2", "quay-2", ("quay-1", 90)).Wait("EV2", 5190).Step("EV2", "latch/look", "look", 180)
        .Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Walk("EV2", "quay-1", ("lock", 60)).Home();

    [Fact]
    public void BusyPlan_AsTold_IsClean() => Assert.Empty(Judged.All(Skerry, Busy));

    private static readonly Gen<(Timeline Timeline, int Seed)> Damaged =
        Gen.Select(Gen.Select(Gen.Int[0, 200], Gen.Int[-2, 2], Gen.Int[0, 3]).Array[0, 6], Gen.Int, (damages, seed) =>
        {
            Timeline timeline = Busy;
            int number = 0;
            foreach ((int which, int minutes, int kind) in damages)
            {
                number++;
                Activity hit = timeline.Activities[which % timeline.Activities.Length];
                timeline = kind switch
                {
                    0 => timeline.Without(hit.Id.Value),
                    1 => timeline.With(hit.Id.Value, one => one with { Start = one.Start.Plus(Minutes(minutes)), End = one.End.Plus(Minutes(minutes)) }),
                    2 => timeline.With(hit.Id.Value, one => one with { End = one.End.Plus(Minutes(Math.Abs(minutes))) }),
                    _ => timeline with { Activities = timeline.Activities.Add(hit with { Id = new($"{hit.Id}-again-{number}") }) },
                };
            }
            return (timeline, seed);
        });

    [Fact]
    public void Play_WithTheOrderInsidePhasesShuffled_GivesTheSameTraceUnlessItTellsOfAClash() => Damaged.Sample(sample =>
    {
        Trace usual = Player.Play(Skerry, sample.Timeline);
        Trace shuffled = Player.Play(Skerry, sample.Timeline, activities => Shuffle(activities, sample.Seed));
        // Whether there is a clash never depends on the order; and without one, nothing does.
        Pet? clash = FirstClash(usual);
        Assert.Equal(clash, FirstClash(shuffled));
        if (clash is { } first)
        {
            Assert.Equal(usual.Changes.Where(change => change.At < first), shuffled.Changes.Where(change => change.At < first));
            return;
        }
        Assert.Equal(usual.Start, shuffled.Start);
        Assert.Equal(usual.Changes, shuffled.Changes);
        Assert.Equal(usual.Facts.Select(Plain), shuffled.Facts.Select(Plain));
        Assert.Equal(usual.Returns.SelectMany(curve => curve.Points), shuffled.Returns.SelectMany(curve => curve.Points));
    }, iter: 400, print: sample => $"{sample.Seed}: {string.Join(" | ", sample.Timeline.Activities.Select(one => $"{one.Id} {one.GetType().Name} {one.Start}-{one.End}"))}");

    private static Pet? FirstClash(Trace trace) => trace.Facts.FirstOrDefault(fact => fact.Rule.Value == "time.clash")?.At;

    private static (RuleId, Pet, ActivityId, string, string) Plain(Fact fact) => (fact.Rule, fact.At, fact.Activity, fact.What, fact.Measured);

    private static ImmutableArray<Activity> Shuffle(ImmutableArray<Activity> activities, int seed)
    {
        Activity[] shuffled = [.. activities];
        new Random(seed).Shuffle(shuffled);
        return [.. shuffled];
    }

    [Fact]
    public void Play_OfDamagedPlans_LosesNothing() => Damaged.Sample(sample =>
    {
        // Whatever a plan says, each thing is in one place, and each carry point holds what says it hangs there.
        History history = new(Player.Play(Skerry, sample.Timeline));
        foreach (string who in new[] { "EV1", "EV2" })
            foreach (string point in new[] { "waist", "chest", "stiff" })
                foreach (Pet moment in history.Trace.Changes.Select(change => change.At).Distinct())
                {
                    string holds = history.StateAt(history[$"person {who} carry {point}"], moment);
                    string[] hanging = [.. Skerry.Gear.Where(gear => history.StateAt(history[$"gear {gear.Id} place"], moment) == $"person {who} {point}").Select(gear => gear.Id.Value)];
                    Assert.Equal(holds == "none" ? [] : [holds], hanging);
                }
    }, iter: 100);

    [Fact]
    public void Judge_OfDamagedPlans_AlwaysComesToAVerdict() => Damaged.Sample(sample =>
    {
        Verdict verdict = Judge.Of(Skerry, [(sample.Timeline, Player.Play(Skerry, sample.Timeline))]);
        Assert.Equal(RuleBook.All.Count(rule => rule.Missing(Skerry) is null), verdict.Checked.Length);
        Assert.Equal(verdict.Findings.OrderBy(one => one.Severity).ThenBy(one => one.At).Select(one => (one.Severity, one.At)), verdict.Findings.Select(one => (one.Severity, one.At)));
    }, iter: 100);
}
