using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>What must hold in every plan played, clean or damaged, and in what follows every contingency, because play itself may never lose or
/// double anything.</summary>
public sealed class InvariantTests
{
    private const int Samples = 300;

    /// <summary>What follows when some step of a clean plan takes longer, on some way on; the plan itself where there is no such way.</summary>
    private static Gen<Damaged> AnyWayOn { get; } = Gen.Select(Gen.Int[0, CleanPlans.All.Length - 1], Gen.Int[0, 9999], Gen.Int[1, 40], Gen.Enum<GoingOn>(), (plan, at, minutes, way) =>
    {
        CleanPlan clean = CleanPlans.All[plan];
        DoStep[] steps = [.. clean.All<DoStep>()];
        DoStep step = steps[at % steps.Length];
        Trouble trouble = new(step.Leg, step.Step, "Trouble", Duration.FromMinutes(minutes), step.End, way);
        return new Damaged(clean.Scenario, new Detours(new Expander(clean.Scenario), clean.Outline).Expand(clean.Timeline, trouble).Timeline ?? clean.Timeline);
    });

    /// <summary>A clean plan, one damaged somewhere, or a way on: what play must keep, it must keep there too.</summary>
    private static Gen<Damaged> AnyPlan { get; } = Gen.OneOf(AnyWayOn, Gen.Select(Gen.Int[0, CleanPlans.All.Length - 1], Gen.Int[-3, Damages.All.Length - 1], Gen.Int[0, 9999], (plan, kind, place) =>
    {
        CleanPlan clean = CleanPlans.All[plan];
        ImmutableArray<Damaged> places = kind < 0 ? [] : [.. Damages.All[kind].At(clean)];
        return places.IsEmpty ? new Damaged(clean.Scenario, clean.Timeline) : places[place % places.Length];
    }));

    [Fact]
    public void WaysOn_OfTheSamples_AreOfEveryKindAndNotThePlanItself()
    {
        HashSet<GoingOn> met = [];
        int plans = 0;
        AnyWayOn.Sample(one =>
        {
            if (one.Timeline.Trouble is { } trouble) met.Add(trouble.GoesOn);
            else plans++;
        }, iter: Samples, threads: 1);
        Assert.Equal(Enum.GetValues<GoingOn>().Order(), met.Order());
        Assert.True(plans < Samples / 2, $"{plans} of {Samples} have no such way");
    }

    [Fact]
    public void WaysOn_InAnyOrderInsideAPhase_PlayTheSameUnlessAClashIsTold() => Gen.Select(AnyWayOn, Gen.Int).Sample((one, seed) =>
    {
        Random random = new(seed);
        Trace told = Player.Play(one.Scenario, one.Timeline);
        Trace shuffled = Player.Play(one.Scenario, one.Timeline, activities => [.. activities.OrderBy(_ => random.Next())]);
        Assert.Equal(told.Facts.Any(fact => fact.Rule.Value == "time.clash"), shuffled.Facts.Any(fact => fact.Rule.Value == "time.clash"));
        if (told.Facts.Any(fact => fact.Rule.Value == "time.clash")) return;
        Assert.Equal(told.Facts.Select(Plain), shuffled.Facts.Select(Plain));
        Assert.Equal(told.Changes, shuffled.Changes);
        Assert.Equal(told.Returns.SelectMany(curve => curve.Points), shuffled.Returns.SelectMany(curve => curve.Points));
    }, iter: Samples, threads: 1);

    /// <summary>Plays of one scenario share ways that were reckoned before, for other timelines: none may get an answer that is not its own.</summary>
    [Fact]
    public void Play_AfterAnyOtherPlans_IsThatOfAScenarioNeverPlayedBefore() => AnyPlan.Sample(one =>
    {
        Trace shared = Player.Play(one.Scenario, one.Timeline), alone = Player.Play(one.Scenario with { }, one.Timeline);
        Assert.Equal(alone.Variables.Select(variable => variable.Name), shared.Variables.Select(variable => variable.Name));
        Assert.Equal(alone.Start, shared.Start);
        Assert.Equal(alone.Changes, shared.Changes);
        Assert.Equal(alone.Facts.Select(Plain), shared.Facts.Select(Plain));
        Assert.Equal(alone.Returns.Select(curve => (curve.Kind, curve.Person)), shared.Returns.Select(curve => (curve.Kind, curve.Person)));
        Assert.Equal(alone.Returns.SelectMany(curve => curve.Points), shared.Returns.SelectMany(curve => curve.Points));
        Assert.Equal(alone.Lines.Select(line => (line.At, line.Person, string.Join(' ', line.Grips))), shared.Lines.Select(line => (line.At, line.Person, string.Join(' ', line.Grips))));
    }, iter: Samples);

    private static (RuleId, Pet, ActivityId, string, string) Plain(Fact fact) => (fact.Rule, fact.At, fact.Activity, fact.What, fact.Measured);

    [Fact]
    public void Gear_AtEveryMoment_IsInOnePlaceThatAgreesWithTheCarryPoints() => Each((scenario, trace, history) =>
    {
        ImmutableArray<Variable> points = [.. trace.Variables.Where(variable => variable.Aspect.StartsWith("carry ", StringComparison.Ordinal))];
        foreach (Pet now in trace.Changes.Select(change => change.At).Distinct())
        {
            ILookup<string, Variable> held = points.ToLookup(point => history.StateAt(history[point.Name], now));
            foreach (Gear gear in scenario.Gear)
            {
                string place = history.StateAt(history[$"gear {gear.Id} place"], now);
                Variable? point = held[gear.Id.Value].SingleOrDefault();
                // A thing on a carry point is there by both accounts, and on no other.
                Assert.Equal(point is null ? null : $"person {point.Subject} {point.Aspect["carry ".Length..]}", place.StartsWith("person ", StringComparison.Ordinal) ? place : null);
            }
        }
    });

    [Fact]
    public void Gear_FromStartToEnd_NeverVanishes() => Each((scenario, trace, history) =>
    {
        foreach (Gear gear in scenario.Gear)
        {
            int place = history[$"gear {gear.Id} place"];
            if (gear.Kind != GearKind.Stock)
            {
                Assert.DoesNotContain("spent", history.Changes(place).Select(change => trace.Variables[place].States[change.Value]));
                continue;
            }
            // Pieces are used by steps alone, and the whole is spent only when none is left.
            int count = history[$"gear {gear.Id} count"];
            Assert.Equal(gear.Count - Used(scenario, trace, gear.Id), history.Last(count));
            Assert.Equal(history.Changes(count).Count > 0 && history.Last(count) <= 0, history.LastState(place) == "spent");
        }
    });

    [Fact]
    public void People_EverySecondOutside_AreAccountedForOrFoundNotToBe()
    {
        AnyPlan.Sample(damaged =>
        {
            Trace trace = Player.Play(damaged.Scenario, damaged.Timeline);
            Verdict verdict = Judge.Of(damaged.Scenario, [(damaged.Timeline, trace)]);
            foreach (PersonId person in damaged.Scenario.Outside.Select(one => one.Id))
                Assert.Equal(!Accounted(damaged, trace, person), verdict.Findings.Any(finding => finding.Rule.Value == "time.twice" && Concerns(finding, person)));
        }, iter: Samples, threads: 1);

        static bool Concerns(Finding finding, PersonId person) => finding.Sentence.Contains($"{person} is in ") || finding.Sentence.Contains($"{person} is outside until ");
    }

    /// <summary>Second by second: nobody in two things at once, nobody outside in none.</summary>
    private static bool Accounted(Damaged damaged, Trace trace, PersonId person)
    {
        History history = new(trace);
        int[] busy = new int[trace.To.Seconds - trace.From.Seconds];
        foreach (Activity activity in damaged.Timeline.Activities.Where(activity => activity.People.Contains(person)))
            for (int second = activity.Start.Seconds; second < activity.End.Seconds; second++) busy[second - trace.From.Seconds]++;
        int place = history[$"person {person} place"];
        for (int i = 0; i < busy.Length; i++)
            if (busy[i] > 1 || (busy[i] == 0 && history.StateAt(place, Pet.FromSeconds(trace.From.Seconds + i)) != "inside")) return false;
        return true;
    }

    private static int Used(Scenario scenario, Trace trace, GearId stock)
    {
        Dictionary<ActivityId, int> uses = [];
        int count = trace.Variables.Select((variable, index) => (variable, index)).Single(pair => pair.variable.Name == $"gear {stock} count").index;
        int last = trace.Start[count];
        foreach (Change change in trace.Changes.Where(change => change.Variable == count))
        {
            Assert.NotNull(change.By);
            uses[change.By.Value] = last - change.Value;
            Assert.Contains(scenario.Legs.SelectMany(leg => leg.Steps).SelectMany(step => step.Makes.OfType<UseStock>()), use => use.Gear == stock && use.Count == last - change.Value);
            last = change.Value;
        }
        return uses.Values.Sum();
    }

    private static void Each(Action<Scenario, Trace, History> holds) => AnyPlan.Sample(damaged =>
    {
        Trace trace = Player.Play(damaged.Scenario, damaged.Timeline);
        holds(damaged.Scenario, trace, new History(trace));
    }, iter: Samples, threads: 1);
}
