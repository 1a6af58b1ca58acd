using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>What one candidate is decoded to: how gear comes to who needs it, and what is foreseen to go wrong.</summary>
public class DecoderTests
{
    private static readonly GearId RimBag = new("rim-bag");

    private static LegId Free => ShortWalk.Free;

    private static LegId Look => ShortWalk.Look;

    // The ring is 2 min 30 s from the lock, the rim on the way there 1 min from the lock and 1 min 30 s from the ring.
    [Theory]
    [InlineData(0, "latch-bag latch/free rim-bag latch/look", 0)]
    [InlineData(1, "latch-bag rim-bag latch/free latch/look", 120)]
    [InlineData(2, "latch-bag rim-bag latch/free latch/look", 120)]
    public void Ahead_SecondBagAtTheHatch_IsTakenAlongAndSavesTheWayBack(int ahead, string told, int saved)
    {
        Scenario scenario = OneDoesBoth();
        (PlanScore usual, _, _) = Decode(scenario, 0, (Look, default));
        (PlanScore score, Outline outline, Candidate candidate) = Decode(scenario, 0, (Look, new Bringing((byte)ahead, 0, 0, 0)));
        Assert.Equal(told, string.Join(' ', outline.People[0].Entries.Select(entry => entry is TakeEntry take ? take.Gear.Value : entry is LegEntry leg ? leg.Leg.Value : "").Where(word => word.Length > 0)));
        Assert.Equal(Look, outline.People[0].Entries.OfType<TakeEntry>().First(take => take.Gear == RimBag).For);
        Assert.Equal(usual.End - saved, score.End);
        PlaysCleanAndReadsBack(scenario, outline, candidate, score);
    }

    [Fact]
    public void Ahead_NoSecondCarryPoint_ChangesNothing()
    {
        Scenario scenario = OneDoesBoth() with { People = ShortWalk.Skerry.People };
        Assert.Equal(Decode(scenario, 0, (Look, default)).Score, Decode(scenario, 0, (Look, new Bringing(Bringing.MostAhead, 0, 0, 0))).Score);
    }

    [Theory]
    [InlineData(0, "meets quay-2")]
    [InlineData(Bringing.AtLeg, "meets quay-1")]
    [InlineData(Bringing.PutDown, "takes lock")]
    [InlineData(Bringing.AtStow, "meets lock")]
    public void HandOver_BagThatTheOtherOneHas_ComesWhereItIsChosen(byte how, string told)
    {
        Scenario scenario = ShortWalk.Skerry with { Jobs = [.. ShortWalk.Skerry.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { With = [new("latch-bag")] })] })] };
        (PlanScore score, Outline outline, Candidate candidate) = Decode(scenario, 1, (Look, new Bringing(0, how, 0, 0)));
        Assert.Equal(told, string.Join(' ', outline.People[1].Entries.Select(entry => entry is TakeEntry take ? $"takes {take.From}" : entry is MeetEntry meet ? $"meets {meet.At}" : "").Where(word => word.Length > 0)));
        PlaysCleanAndReadsBack(scenario, outline, candidate, score);
    }

    // The step ends with its leg and takes 60 s to break off: so the better way on, ending in order, has what is shut down off for 60 s longer.
    [Theory]
    [InlineData(600, 0, 60)]
    [InlineData(600, 59, 1)]
    [InlineData(600, 60, 0)]
    [InlineData(30, 0, 30)]
    [InlineData(30, 30, 0)]
    public void Trouble_InAWindow_CountsWhatTheBetterWayOnIsBeyondItsLongest(int extra, int room, int beyond)
    {
        int dead = Decode(Powered(null, extra), 1).Score.Dead;
        Assert.True(dead > 600);
        Assert.Equal(beyond, Decode(Powered(Duration.FromSeconds(dead + room), extra), 1).Score.Broken);
    }

    [Fact]
    public void Trouble_LegLeftOut_CountsNothing()
    {
        Scenario scenario = Powered(Duration.FromSeconds(1), 600);
        SearchCase all = new(scenario, new(scenario));
        Candidate none = Starts.First(all);
        none.JobIn[0] = false;
        Assert.Equal(0, new Decoder(all).Decode(none, []).Broken);
    }

    /// <summary>One person does both legs, each with a bag of its own.</summary>
    private static Scenario OneDoesBoth() => ShortWalk.Skerry with
    {
        Gear = [.. ShortWalk.Skerry.Gear, ShortWalk.Skerry.Gear[0] with { Id = RimBag }],
        People = [.. ShortWalk.Skerry.People.Select(person => person with { CarryPoints = [.. person.CarryPoints.Select(point => new CarryPoint(point.Id, [new("small"), new("bag")], 30))] })],
        Jobs = [.. ShortWalk.Skerry.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg.Id == Look ? leg with { With = [RimBag], Who = [new("EV1")] } : leg)] })],
    };

    /// <summary>The first leg wants something shut down, for so long at most, and its last step may take longer.</summary>
    private static Scenario Powered(Duration? longest, int extra)
    {
        Duration more = Duration.FromSeconds(extra);
        Command Send(string id) => new(new(id), Duration.FromMinutes(1), NeedsLink: false, []) { SeenAboard = true };
        return ShortWalk.Skerry with
        {
            Consoles = [new(new("power"), [Send("off"), Send("on")], [new(new("ring"), new("off"), new("on"), longest, CutsLink: false, "invented for the test")])],
            Jobs = [.. ShortWalk.Skerry.Jobs.Select(job => job with
            {
                Legs = [.. job.Legs.Select(leg => leg.Id == Free ? leg with { Shutdowns = [new("ring")] } : leg)],
                Contingencies = [new(Free, new("grease"), "Stiff", 0.05, "invented for the test", new(more, more, more, "invented for the test"), "go on slowly")],
            })],
        };
    }

    /// <summary>The legs in the order of the file, the second one done by a person, its gear brought in a way.</summary>
    private static (PlanScore Score, Outline Outline, Candidate Candidate) Decode(Scenario scenario, int person, params ReadOnlySpan<(LegId Leg, Bringing How)> bringing)
    {
        Expander expander = new(scenario);
        SearchCase all = new(scenario, expander);
        Candidate candidate = Starts.First(all);
        int look = all.UnitOfLeg[all.LegIndex[Look]];
        candidate.Options[look] = Array.FindIndex(all.Units[look].Options, who => who[0] == person);
        foreach ((LegId leg, Bringing how) in bringing) candidate.Bringing[all.UnitOfLeg[all.LegIndex[leg]]] = how;
        List<Deed> deeds = [];
        Decoder decoder = new(all);
        PlanScore score = decoder.Decode(candidate, [], deeds);
        return (score, new OutlineBuilder(all, expander.Graph, new Dictionary<LegId, LegEntry>()).Build(deeds, [.. decoder.Commands()], decoder.Voices(), new(0, 0), []), candidate);
    }

    private static void PlaysCleanAndReadsBack(Scenario scenario, Outline outline, Candidate candidate, PlanScore score)
    {
        Expander expander = new(scenario);
        Timeline timeline = expander.Expand(outline, Branch.Likely, "").Timeline!;
        Verdict verdict = Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]);
        Assert.True(verdict.Clean, string.Join('\n', verdict.Findings.Where(finding => finding.Severity == Severity.Broken).Select(finding => finding.Sentence)));
        Assert.Equal(score.End, timeline.Activities.Max(activity => activity.End).Seconds);
        SearchCase all = new(scenario, expander);
        (Candidate read, _) = new OutlineReading(all, expander).Read(outline, asTold: false);
        Assert.Equal(score, new Decoder(all).Decode(read, []));
        Assert.Equal(candidate.Order, read.Order);
    }
}
