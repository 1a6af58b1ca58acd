using Sallyport.Model;
using Sallyport.Planning;
using Xunit;
using static Sallyport.Tests.Planning.ShortWalk;

namespace Sallyport.Tests.Planning;

/// <summary>Expansion against a plan worked by hand, and the same plan with pins, deadlocks and waits put in.</summary>
public class ShortWalkTests
{
    // Out 5 min each, bags 3, check 4; take 2 min. 6 m at 6 m/min is 60 s, 4.5 m at 3 m/min is 90 s. Steps 4 and 6 min; look 3 min.
    // In: inventory 8 min, bags 3, 3 each, close 4.
    [Fact]
    public void Expand_TheOutlineWorkedByHand_GivesEveryActivityAsWorked()
    {
        Timeline timeline = Expand(ByHand);
        string[] worked =
        [
            "0:00 0:05 EV1 Out", // 0 + 5
            "0:00 0:08 EV2 WaitInside", // until EV1 has the bags out
            "0:05 0:08 EV1 BagsOut", // + 3
            "0:08 0:13 EV1 Await", // until EV2 is out
            "0:08 0:13 EV2 Out", // + 5
            "0:13 0:17 EV1,EV2 Check", // + 4
            "0:17 0:18 EV2 Translate quay-1", // 60 s
            "0:17 0:19 EV1 Take latch-bag at lock", // 2 min
            "0:18 0:31:30 EV2 Await", // until the latch is free
            "0:19 0:21:30 EV1 Translate quay-1 quay-2", // 60 + 90 s = 2 min 30 s
            "0:21:30 0:25:30 EV1 DoStep latch/free.loosen", // 4 min
            "0:25:30 0:31:30 EV1 DoStep latch/free.grease", // 6 min
            "0:31:30 0:34 EV1 Translate quay-1 lock", // 90 + 60 s
            "0:31:30 0:34:30 EV2 DoStep latch/look.look", // 3 min
            "0:34 0:35:30 EV1 Await", // until EV2 is at the hatch
            "0:34:30 0:35:30 EV2 Translate lock", // 60 s
            "0:35:30 0:43:30 EV2,EV1 Inventory", // + 8
            "0:43:30 0:46:30 EV2,EV1 BagsIn", // + 3
            "0:46:30 0:49:30 EV1 Await", // last out, first in
            "0:46:30 0:49:30 EV2 In", // + 3
            "0:49:30 0:52:30 EV1 In", // + 3
            "0:49:30 0:52:30 EV2 SafeInside",
            "0:52:30 0:56:30 EV2,EV1 Close", // + 4
        ];
        Assert.Equal(worked.Order(StringComparer.Ordinal), timeline.Activities.Select(Line).Order(StringComparer.Ordinal));
        Assert.Empty(timeline.Notes);
        Activity look = timeline.Activities.Single(activity => activity.Id.Value == "latch/look.look");
        Assert.Contains(look.After, dependency => dependency.Activity == new ActivityId("latch/free.grease") && dependency.Lag == default);
    }

    [Theory]
    [InlineData("0:18", "0:21:30")] // EV1 is at the ring at 0:21:30, no sooner
    [InlineData("0:21:29", "0:21:30")]
    public void Expand_APinThatCannotBeMet_IsPlacedEarliestAndNoted(string pin, string got)
    {
        Timeline timeline = Expand(Pinned(Free, Pins.None with { At = At(pin) }));
        MissedPin missed = Assert.Single(timeline.Notes);
        Assert.Equal((Free, At(pin), At(got)), (missed.Leg, missed.Wanted, missed.Got));
        Assert.Equal(At(got), StartOf(timeline, "latch/free.loosen"));
    }

    [Fact]
    public void Expand_ALatestStartThatIsPassed_IsNoted()
    {
        MissedPin missed = Assert.Single(Expand(Pinned(Look, Pins.None with { NotAfter = At("0:31:29") })).Notes);
        Assert.Equal((Look, At("0:31:29"), At("0:31:30")), (missed.Leg, missed.Wanted, missed.Got));
        Assert.Empty(Expand(Pinned(Look, Pins.None with { NotAfter = At("0:31:30") })).Notes);
    }

    [Theory]
    [InlineData("0:21:30")]
    [InlineData("0:30")]
    public void Expand_APinThatCanBeMet_IsMet(string pin)
    {
        foreach (Pins pins in (Pins[])[Pins.None with { At = At(pin) }, Pins.None with { NotBefore = At(pin) }])
        {
            Timeline timeline = Expand(Pinned(Free, pins));
            Assert.Empty(timeline.Notes);
            Assert.Equal(At(pin), StartOf(timeline, "latch/free.loosen"));
        }
    }

    // Whoever gives two things in one order to somebody who takes them in the other waits for ever.
    [Fact]
    public void Expand_MeetingsInOppositeOrder_NamesTheCircle()
    {
        Scenario scenario = Skerry with { Gear = Skerry.Gear.Add(new(new("spare"), "Spare", GearKind.Tool, new("small"), 1, 0.001, Location.Inside, null, 1)) };
        Entry Give(string id, string gear, string carry) => new MeetEntry(id, new("lock"), [new("EV2")], [new(new(gear), new("EV2"), new(carry))], Way.Auto, null, false);
        Entry Receive(string id) => new MeetEntry(id, new("lock"), [new("EV1")], [], Way.Auto, null, false);
        Entry Take(string gear, string carry) => new TakeEntry(new(gear), new("lock"), new(carry), Way.Auto, null, false);
        Outline Met(params Entry[] second) => ByHand with
        {
            People =
            [
                new(new("EV1"), [Egress, Take("latch-bag", "waist"), Take("spare", "chest"), Give("first", "latch-bag", "waist"), Give("then", "spare", "chest"), Ingress]),
                new(new("EV2"), [Egress, .. second, Ingress]),
            ],
            Hands = [new(new("latch-bag"), [new("EV1"), new("EV2")]), new(new("spare"), [new("EV1"), new("EV2")])],
        };
        Expander expander = new(scenario);
        Assert.Null(expander.Expand(Met(Receive("first"), Receive("then")), Branch.Likely, "test").Problem);

        OutlineProblem problem = expander.Expand(Met(Receive("then"), Receive("first")), Branch.Likely, "test").Problem!;
        Assert.Equal("outline.deadlock", problem.Code);
        string circle = problem.Found[(problem.Found.IndexOf(": ", StringComparison.Ordinal) + 2)..];
        string[] names = circle.Split(" → ");
        Assert.Equal(["meeting first", "meeting then"], names[1..].Order());
        Assert.Equal(names[0], names[^1]);
    }

    // The night of 0:26 to 0:40 falls between the steps: loosen ends 0:25:30, grease begins with the day.
    [Fact]
    public void Search_ALegThatMayWaitBetweenItsSteps_EndsWhereExpansionEndsIt()
    {
        Leg free = Skerry.Jobs[0].Legs[0] with { Light = LightCondition.Day, MayWait = true };
        Scenario scenario = Skerry with
        {
            Sky = Skerry.Sky with { Night = [new(At("0:26"), At("0:40"))] },
            Jobs = [Skerry.Jobs[0] with { Legs = Skerry.Jobs[0].Legs.SetItem(0, free) }],
        };
        Expander expander = new(scenario);
        Pet? end = null;
        SearchResult result = new Searcher(scenario, expander).Run(new(Effort: 1, Seed: 1), _ => true, progress => end = progress.End, CancellationToken.None);
        Timeline timeline = expander.Expand(result.Outline!, Branch.Likely, "test").Timeline!;
        Assert.Equal(At("0:21:30"), StartOf(timeline, "latch/free.loosen"));
        Assert.Equal(At("0:40"), StartOf(timeline, "latch/free.grease"));
        Assert.Equal(timeline.Activities.Max(activity => activity.End), end);
    }

    private static Timeline Expand(Outline outline)
    {
        Expansion expansion = new Expander(Skerry).Expand(outline, Branch.Likely, "test");
        Assert.Null(expansion.Problem);
        return expansion.Timeline!;
    }

    private static Outline Pinned(LegId leg, Pins pins) => ByHand with
    {
        People = [.. ByHand.People.Select(list => list with { Entries = [.. list.Entries.Select(entry => entry is LegEntry one && one.Leg == leg ? Do(leg, pins) : entry)] })],
    };

    private static Pet StartOf(Timeline timeline, string id) => timeline.Activities.Single(activity => activity.Id.Value == id).Start;

    private static string Line(Activity activity) => $"{activity.Start} {activity.End} {string.Join(',', activity.People)} " + activity switch
    {
        AirlockPhase phase => phase.Phase.ToString(),
        Translate walk => $"Translate {string.Join(' ', walk.Spans.Select(span => span.To))}",
        Take take => $"Take {take.Gear} at {take.At}",
        DoStep step => $"DoStep {step.Leg}.{step.Step}",
        _ => activity.GetType().Name,
    };
}
