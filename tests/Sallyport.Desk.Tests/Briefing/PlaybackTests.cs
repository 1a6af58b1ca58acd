using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk.Tests;

/// <summary>What is drawn is what the trace says.</summary>
public sealed class PlaybackTests
{
    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Paths_WheneverSomebodyHasArrived_AreWhereTheTraceSays(string name)
    {
        Walk walk = Walks.Named(name);
        PlaybackBranch playback = walk.Playback.Branches[0];
        int looked = 0;
        foreach ((Person person, int i) in walk.Scenario.Outside.Select((person, i) => (person, i)))
            foreach ((Pet at, string place) in History(walk.Trace, $"person {person.Id} place"))
            {
                double[]? drawn = Place(playback.People[i].Path, at.Seconds);
                if (place.EndsWith("/moving", StringComparison.Ordinal)) continue;
                Point? point = place == "inside" ? null : PointOf(walk.Scenario, place);
                Assert.Equal(point is { } there ? [there.X, there.Y, there.Z] : null, drawn);
                looked++;
            }
        Assert.True(looked > (name == "skerry" ? 100 : 4), $"only {looked} moments were looked at");
    }

    [Fact]
    public void Branches_OfADecision_AreEachAsItsTraceSaysAndTheSameUntilTheyPart()
    {
        Walk walk = Walks.Skerry;
        ImmutableArray<PlaybackBranch> branches = walk.Playback.Branches;
        Assert.Equal(2, branches.Length);
        Trace trace = walk.Plan.Played[1].Trace;
        Assert.Equal(trace.To.Seconds, branches[1].To);
        int parts = walk.Briefed.Other!.PartsAt.Seconds;
        Assert.InRange(parts, 3600, trace.To.Seconds - 600);
        foreach ((Person person, int i) in walk.Scenario.Outside.Select((person, i) => (person, i)))
        {
            foreach ((Pet at, string place) in History(trace, $"person {person.Id} place").Where(one => !one.State.EndsWith("/moving", StringComparison.Ordinal)))
                Assert.Equal(place == "inside" ? null : PointOf(walk.Scenario, place) is var there ? [there.X, there.Y, there.Z] : null, Place(branches[1].People[i].Path, at.Seconds));
            for (int second = walk.Trace.From.Seconds; second < parts; second += 60) Assert.Equal(Place(branches[0].People[i].Path, second), Place(branches[1].People[i].Path, second));
            Assert.Equal(branches[0].People[i].Does.Where(deed => deed.To <= parts), branches[1].People[i].Does.Where(deed => deed.To <= parts));
            Assert.NotEqual(branches[0].People[i].Does.AsEnumerable(), branches[1].People[i].Does.AsEnumerable());
        }
        Assert.Equal(branches[0].Things.Select(thing => thing.Name), branches[1].Things.Select(thing => thing.Name));
    }

    [Fact]
    public void Path_HalfWayAlongASpan_IsHalfWayBetweenItsGrips()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        foreach (Translate way in walk.Plan.Likely.Activities.OfType<Translate>())
        {
            int person = walk.Scenario.Outside.Select(one => one.Id).ToList().IndexOf(way.Person);
            double begun = way.Start.Seconds;
            foreach (SpanWalk span in way.Spans)
            {
                Point a = PointOf(walk.Scenario, span.From.Value), b = PointOf(walk.Scenario, span.To.Value);
                double[] drawn = Place(playback.People[person].Path, begun + span.Time.Seconds / 2.0)!;
                Assert.Equal((a.X + b.X) / 2, drawn[0], 0.002);
                Assert.Equal((a.Y + b.Y) / 2, drawn[1], 0.002);
                Assert.Equal((a.Z + b.Z) / 2, drawn[2], 0.002);
                begun += span.Time.Seconds;
            }
        }
    }

    [Fact]
    public void Riders_WhileAnArmMoves_AreAtItsEnd()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        ArmMove[] rides = [.. walk.Plan.Likely.Activities.OfType<ArmMove>().Where(move => move.Rider is not null)];
        Assert.NotEmpty(rides);
        foreach (ArmMove ride in rides)
        {
            int person = walk.Scenario.Outside.Select(one => one.Id).ToList().IndexOf(ride.Rider!.Value);
            ImmutableArray<Pose> poses = walk.Scenario.Arms[0].Poses;
            Point from = poses.First(pose => pose.Id == ride.From).At, to = poses.First(pose => pose.Id == ride.To).At;
            Assert.Equal([from.X, from.Y, from.Z], Place(playback.Arms[0].Path, ride.Start.Seconds)!);
            Assert.Equal([to.X, to.Y, to.Z], Place(playback.Arms[0].Path, ride.End.Seconds)!);
            for (int second = ride.Start.Seconds; second <= ride.End.Seconds; second += 15)
                Assert.Equal(Place(playback.Arms[0].Path, second), Place(playback.People[person].Path, second));
        }
    }

    [Fact]
    public void Lines_WheneverTheTraceLaysOne_LieAlongItsGrips()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        Assert.NotEmpty(walk.Trace.Lines);
        foreach (IGrouping<(PersonId, Pet), LineLaid> same in walk.Trace.Lines.GroupBy(line => (line.Person, line.At)))
        {
            int person = walk.Scenario.Outside.Select(one => one.Id).ToList().IndexOf(same.Key.Item1);
            PlaybackLine drawn = playback.People[person].Lines.Last(line => line.At <= same.Key.Item2.Seconds);
            Assert.Equal(same.Last().Grips.Select(grip => walk.Scenario.Station.Grips.Select(one => one.Id).ToList().IndexOf(grip)), drawn.Grips);
        }
    }

    [Fact]
    public void Lines_OfWhoeverIsOnAnArm_ReachNobody()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        int looked = 0;
        foreach ((Person person, int i) in walk.Scenario.Outside.Select((person, i) => (person, i)))
            foreach ((Pet at, string place) in History(walk.Trace, $"person {person.Id} place").Where(one => one.State != "inside"))
            {
                Assert.Equal(!place.Contains('/'), playback.People[i].Lines.Last(line => line.At <= at.Seconds).Held);
                if (place.Contains('/')) looked++;
            }
        Assert.True(looked > 0, "nobody was on an arm");
    }

    [Fact]
    public void Things_WheneverTheyMove_AreWithWhomTheTraceSays()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        List<string> people = [.. walk.Scenario.Outside.Select(person => person.Id.Value)];
        int carried = 0, hooked = 0;
        foreach (Gear gear in walk.Scenario.Gear.Where(gear => gear.Kind == GearKind.Bag))
        {
            PlaybackThing? drawn = playback.Things.FirstOrDefault(thing => thing.Name == gear.Title);
            foreach ((Pet at, string place) in History(walk.Trace, $"gear {gear.Id} place"))
            {
                PlaybackSpot? spot = drawn?.Spots.Last(one => one.Time <= at.Seconds);
                Assert.Equal(place.Split(' ') is ["person" or "hands", var who, ..] ? people.IndexOf(who) : null, spot?.Person);
                Point? point = place.StartsWith("grip ", StringComparison.Ordinal) ? PointOf(walk.Scenario, place["grip ".Length..]) : null;
                Assert.Equal(point is { } there ? [there.X, there.Y, there.Z] : null, spot?.At);
                if (spot?.Person is not null) carried++;
                if (spot?.At is not null) hooked++;
            }
        }
        Assert.True(carried > 5 && hooked > 5, $"{carried} times carried, {hooked} times hooked");
    }

    [Fact]
    public void Light_AndSun_AreThoseOfTheTraceAndTheOrbit()
    {
        Walk walk = Walks.Skerry;
        Playback playback = walk.Playback;
        Assert.Equal(History(walk.Trace, "sky light").Select(one => (one.At.Seconds, one.State)), playback.Branches[0].Light.Select(one => (one.At, one.Is)));
        ScenarioOrbit orbit = walk.Desk.Orbit!;
        Assert.Equal(walk.Trace.To.Seconds, playback.Sun!.Value[^1][0]);
        foreach (double[] sun in playback.Sun.Value.Where((_, i) => i % 40 == 0))
        {
            DateTime then = walk.Scenario.Sortie.PetZero.AddSeconds(sun[0]);
            Assert.Equal(Sgp4Fault.None, new Sgp4(orbit.Elements).Propagate(orbit.Elements.MinutesTo(then), out TemeState state));
            Vector3D toward = orbit.Attitude!.Flown.SunInStation(state, then);
            // Written to a thousandth.
            Assert.Equal(0, new Vector3D(sun[1], sun[2], sun[3]).AngleTo(toward), 0.002);
        }
        // 465 km up: asin(6378.137 / 6843.1) is 68.75 degrees; SGP4's own radius differs from that by its short periods.
        Assert.Equal(68.75, playback.Earth![3], 0.3);
        Assert.Null(Walks.Short.Playback.Sun);
    }

    [Fact]
    public void ReturnTimes_OfThePlayback_AreNeverShorterThanThoseOfTheTrace()
    {
        Walk walk = Walks.Skerry;
        PlaybackBranch playback = walk.Playback.Branches[0];
        foreach ((Person person, int i) in walk.Scenario.Outside.Select((person, i) => (person, i)))
        {
            ReturnCurve curve = walk.Trace.Returns.Single(one => one.Kind == ReturnKind.One && one.Person == person.Id);
            Assert.Equal(curve.Points.Length, playback.People[i].Home.Length);
            foreach ((ReturnPoint point, double[] drawn) in curve.Points.Zip(playback.People[i].Home))
                Assert.True(drawn[0] == point.At.Seconds && (drawn[1] >= point.Seconds || (drawn[1] == -1 && point.Seconds >= 86_400)), $"{point}");
        }
    }

    [Fact]
    public void Json_MarkupInNames_CannotEndTheElementThatHoldsIt()
    {
        string json = Encoding.UTF8.GetString(Walks.Short.Renamed("</script><!--&'\"").Playback.ToJson());
        Assert.DoesNotContain('<', json);
        Assert.DoesNotContain('&', json);
        using JsonDocument read = JsonDocument.Parse(json);
        Assert.Equal(2, read.RootElement.GetProperty("playback").GetInt32());
        Assert.Equal("</script><!--&'\"", read.RootElement.GetProperty("title").GetString());
    }

    [Fact]
    public void Files_MadeTwice_AreTheSameToTheByteAndNotTooLarge()
    {
        Walk walk = Walks.Skerry;
        var files = walk.Desk.WalkthroughOf(walk.Plan, Briefings.Options);
        Assert.Equal(["walkthrough.html", "walkthrough.vtt", "walkthrough-otherwise.vtt", "narration.md"], files.Select(file => file.Name));
        Assert.All(files.Zip(walk.Desk.WalkthroughOf(walk.Plan, Briefings.Options)), pair => Assert.True(pair.First.Content.AsSpan().SequenceEqual(pair.Second.Content), pair.First.Name));
        Assert.InRange(files[0].Content.Length, 100_000, 2_000_000);
    }

    /// <summary>The referee's own reading of a list of moments: the place straight in between, or none.</summary>
    internal static double[]? Place(ImmutableArray<double[]> path, double moment)
    {
        int i = path.Length - 1;
        while (i >= 0 && path[i][0] > moment) i--;
        if (i < 0 || path[i].Length < 4) return null;
        if (i + 1 == path.Length || path[i + 1].Length < 4 || path[i + 1][0] == path[i][0]) return path[i][1..];
        double part = (moment - path[i][0]) / (path[i + 1][0] - path[i][0]);
        return [.. Enumerable.Range(1, 3).Select(k => path[i][k] + (path[i + 1][k] - path[i][k]) * part)];
    }

    private static List<(Pet At, string State)> History(Trace trace, string name)
    {
        int variable = trace.Variables.Select(one => one.Name).ToList().IndexOf(name);
        ImmutableArray<string> states = trace.Variables[variable].States;
        SortedDictionary<int, string> history = new() { [trace.From.Seconds] = states[trace.Start[variable]] };
        foreach (Change change in trace.Changes.Where(change => change.Variable == variable)) history[change.At.Seconds] = states[change.Value];
        return [.. history.Select(pair => (Pet.FromSeconds(pair.Key), pair.Value))];
    }

    private static Point PointOf(Scenario scenario, string place) =>
        place.Split('/') is [var arm, var pose] ? scenario.Arms.Single(one => one.Id.Value == arm).Poses.Single(one => one.Id.Value == pose).At
            : scenario.Station.Grips.Single(grip => grip.Id.Value == place).At;
}
