using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk.Tests;

/// <summary>What a briefing says of a plan is what its trace says, and nothing is rounded towards danger.</summary>
public sealed class BriefedPlanTests
{
    private static readonly ReturnCurve Curve = new(ReturnKind.One, null,
        [new(Pet.FromSeconds(0), 100, default), new(Pet.FromSeconds(60), 220, default), new(Pet.FromSeconds(60), 20, default), new(Pet.FromSeconds(120), 80, default)]);

    [Theory]
    [InlineData(0, 100.0)]
    [InlineData(30, 160.0)]
    [InlineData(60, 220.0)]
    [InlineData(90, 50.0)]
    [InlineData(120, 80.0)]
    public void ReturnAt_BetweenPointsAndWhereItJumps_IsStraightAndTheLonger(int seconds, double expected) => Assert.Equal(expected, BriefedPlan.ReturnAt(Curve, Pet.FromSeconds(seconds)));

    [Theory]
    [InlineData(-1)]
    [InlineData(121)]
    public void ReturnAt_OutsideTheCurve_IsNone(int seconds) => Assert.Null(BriefedPlan.ReturnAt(Curve, Pet.FromSeconds(seconds)));

    [Fact]
    public void LongestReturn_OverAStretch_SeesWhatLiesBetween()
    {
        Assert.Equal(220, BriefedPlan.LongestReturn(Curve, Pet.FromSeconds(30), Pet.FromSeconds(90)));
        Assert.Equal(80, BriefedPlan.LongestReturn(Curve, Pet.FromSeconds(90), Pet.FromSeconds(120)));
    }

    [Theory]
    [InlineData(60.0, 1, 1)]
    [InlineData(61.0, 2, 1)]
    [InlineData(119.0, 2, 1)]
    public void Minutes_TakenAndLeft_AreRoundedAwayFromDanger(double seconds, int up, int down) => Assert.Equal((up, down), (BriefedPlan.MinutesUp(seconds), BriefedPlan.MinutesDown(seconds)));

    // What the proof writes for "no way at all" is a whole day: it is told in words, and never as minutes.
    [Theory]
    [InlineData(ReturnPoint.NoWaySeconds, true)]
    [InlineData(ReturnPoint.NoWaySeconds - 1, false)]
    public void Pages_WhereThereIsNoWayHome_SayThatInWords(double seconds, bool isNone)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry-short");
        (Timeline timeline, Trace trace) = plan.Played[0];
        Trace shut = trace with { Returns = [.. trace.Returns.Select(curve => curve with { Points = [.. curve.Points.Select(point => point with { Seconds = seconds })] })] };
        BriefedPlan briefed = new(scenario, plan with { Played = [(timeline, shut)], Tight = Tightest.Of(scenario, shut) }, Wording.English);
        string Told(Chapter chapter) => string.Join("\n", chapter.Blocks.OfType<Table>().SelectMany(table => table.Rows).SelectMany(row => row.Cells).SelectMany(cell => cell.Phrases).Select(phrase => phrase.Words));
        string pages = Told(PersonChapter.Of(briefed, briefed.People[0])), table = Told(ReturnChapter.Of(briefed)), summary = Told(FrontChapters.Summary(briefed));
        Assert.Equal((isNone, isNone, isNone), (pages.Contains("NO WAY HOME"), table.Contains("NO WAY"), summary.Contains("NO WAY")));
        Assert.Equal((!isNone, !isNone), (pages.Contains("1440 min"), table.Contains("1440")));
    }

    [Fact]
    public void PersonPages_EachLine_SaysWhereThePersonIsAndWhatHangsOnTheSuitByTheTrace()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry");
        BriefedPlan briefed = new(scenario, plan, Wording.English);
        History history = new(plan.Played[0].Trace);
        foreach (Person person in briefed.People)
        {
            Table table = PersonChapter.Of(briefed, person).Blocks.OfType<Table>().First();
            Row[] lines = [.. table.Rows.Where(row => !row.IsBand)];
            Activity[] activities = [.. briefed.Of(person.Id).OrderBy(activity => activity.Start)];
            Assert.Equal(activities.Length, lines.Length);
            foreach ((Activity activity, Row line) in activities.Zip(lines))
            {
                Assert.Equal(activity.Start.ToString(), line.Cells[0].Phrases[0].Words);
                string place = history.StateAt(history[$"person {person.Id} place"], activity is Translate ? activity.End : activity.Start);
                if (!place.Contains('/')) Assert.Equal(place, line.Cells[2].Phrases[0].Words);
                foreach (CarryPoint point in person.CarryPoints)
                {
                    string thing = history.StateAt(history[$"person {person.Id} carry {point.Id}"], activity.Start);
                    Assert.Equal(thing != "none", line.Cells[4].Phrases.Any(phrase => thing != "none" && phrase.Words == $"{point.Id}: {scenario.Gear.First(one => one.Id.Value == thing).Title}"));
                }
            }
        }
    }

    [Fact]
    public void BagCards_LastContent_IsWhereTheTraceLeavesEveryThing()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry");
        BriefedPlan briefed = new(scenario, plan, Wording.English);
        Table[] cards = [.. GearChapter.Of(briefed).Blocks.OfType<Table>()];
        Gear[] bags = [.. scenario.Gear.Where(thing => thing.Kind == GearKind.Bag)];
        History history = new(plan.Played[0].Trace);
        foreach ((Gear bag, Table card) in bags.Zip(cards))
        {
            string[] inside = [.. scenario.Gear.Where(thing => history.LastState(history[$"gear {thing.Id} place"]) == $"bag {bag.Id}").Select(thing => thing.Title)];
            string[] told = [.. card.Rows.TakeWhile(row => !row.IsBand).Last().Cells[2].Phrases.Select(phrase => phrase.Words)];
            if (inside.Length == 0) Assert.Equal([Wording.English["bags.empty"]], told);
            else Assert.Equal(inside, told.Select(words => inside.First(title => words == title || words.StartsWith(title + ": ", StringComparison.Ordinal))));
        }
    }
}
