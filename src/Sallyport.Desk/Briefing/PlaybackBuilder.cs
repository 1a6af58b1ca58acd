using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Makes the playback of a plan: the likely branch, and the other one of a decision.</summary>
internal sealed class PlaybackBuilder
{
    private const int SunStep = 60;

    private readonly BriefedPlan plan;
    private readonly Scenario scenario;
    private readonly Wording words;
    private readonly PlaceNames names;
    private readonly Trace trace;
    private readonly History history;
    private readonly PlaybackPaths paths;
    private readonly Dictionary<GripId, int> grips;

    private PlaybackBuilder(BriefedPlan plan)
    {
        (this.plan, scenario, words, trace, history) = (plan, plan.Scenario, plan.Words, plan.Trace, plan.History);
        names = new(scenario);
        paths = new(scenario, plan.Timeline, trace, history);
        grips = scenario.Station.Grips.Select((grip, i) => (grip.Id, i)).ToDictionary(pair => pair.Id, pair => pair.i);
    }

    public static Playback Of(BriefedPlan plan, ScenarioOrbit? orbit, Told told, ChartFrame chart)
    {
        ImmutableArray<PlaybackBranch> branches = [new PlaybackBuilder(plan).Branch(told.Likely), .. plan.Other is { } other ? [new PlaybackBuilder(other).Branch(told.Other)] : Array.Empty<PlaybackBranch>()];
        // A thing keeps its number, whichever branch is played; what is to be seen on none is left out.
        bool[] seen = [.. plan.Scenario.Gear.Select((_, i) => branches.Any(branch => branch.Things[i].Spots.Any(spot => spot.At is not null || spot.Person is not null || spot.Arm is not null)))];
        return new PlaybackBuilder(plan).Whole(orbit, [.. branches.Select(branch => branch with { Things = [.. branch.Things.Where((_, i) => seen[i])] })], chart);
    }

    /// <summary>What PET counts from, UTC, as a browser reads it.</summary>
    internal static string ZeroOf(Scenario scenario) => scenario.Sortie.PetZero.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private Playback Whole(ScenarioOrbit? orbit, ImmutableArray<PlaybackBranch> branches, ChartFrame chart) => new()
    {
        Caution = Caution.Text,
        Draft = NarrationText.Draft(plan),
        Title = Wording.OneLine(scenario.Sortie.Title),
        Outline = Wording.OneLine(plan.Plan.Name),
        Plan = plan.Plan.Verdict.PlanId,
        PetZero = ZeroOf(scenario),
        From = trace.From.Seconds,
        Speed = Narration.Speed,
        Station = Station(),
        Branches = branches,
        Sun = orbit?.Attitude is { } attitude ? [.. SunTrack.Of(orbit.Elements, attitude.Flown, scenario.Sortie.PetZero, trace.From, plan.Plan.End, SunStep)
            .Select(sight => new[] { sight.At.Seconds, Round(sight.Toward.X), Round(sight.Toward.Y), Round(sight.Toward.Z) })] : null,
        Earth = orbit?.Attitude is { } flown ? EarthFrom(flown.Flown, orbit.Elements) : null,
        Chart = PlaybackChart.Of(chart),
        Words = words.Under("ui.").ToImmutableSortedDictionary(StringComparer.Ordinal),
    };

    private PlaybackBranch Branch(ImmutableArray<Cue> cues) => new(
        plan.Plan.Outline?.Decision is { } decision ? words.Say(plan.Timeline.Branch == Model.Branch.Likely ? "ui.branchLikely" : "ui.branchOther", decision.IfBefore) : "",
        trace.To.Seconds,
        [.. scenario.Outside.Select(Person)],
        [.. scenario.Arms.Select(Arm)],
        [.. scenario.Gear.Select(Thing)],
        [.. plan.Timeline.Activities.OfType<SendCommand>().Select(command => Deed(command, null))],
        history.Of("sky light") is { Count: > 0 } light ? [.. light.Select(one => new PlaybackState(one.At.Seconds, one.State))] : [new(trace.From.Seconds, "unknown")],
        new[] { "link", "voice", "radiation" }.ToImmutableSortedDictionary(aspect => aspect,
            aspect => history.Of($"sky {aspect}").Select(one => new PlaybackState(one.At.Seconds, one.State)).ToImmutableArray(), StringComparer.Ordinal),
        [.. cues.Select(cue => new PlaybackCue(cue.From.Seconds, cue.To.Seconds, cue.Text))]);

    private PlaybackStation Station()
    {
        Station station = scenario.Station;
        HashSet<SiteId> used = [.. plan.Plan.Played.SelectMany(one => one.Timeline.Activities).OfType<DoStep>().Select(step => plan.Leg(step.Leg).Site)];
        return new(Wording.OneLine(station.Name),
            [.. station.Modules.Select(module => new PlaybackBody(Wording.OneLine(module.Name),
                module.Shape switch { SolidShape.Cylinder => "round", SolidShape.Box => "square", _ => "thin" }, At(module.From), At(module.To), module.Width))],
            [.. station.Spans.Select(span => new[] { grips[span.A], grips[span.B], (int)span.Class })],
            [.. station.Grips.Select(grip => At(grip.At))],
            [.. station.Sites.Select(site => (site, point: paths.PointOf(site))).Where(pair => pair.point is not null)
                .Select(pair => new PlaybackSite(Wording.OneLine(pair.site.Title), At(pair.point!.Value), used.Contains(pair.site.Id))).OrderByDescending(site => site.Used)]);
    }

    private PlaybackPerson Person(Person person) => new(
        Wording.OneLine(person.Id.Value), Wording.OneLine(person.Name), paths.Of(person.Id), Lines(person.Id),
        [.. history.Of($"person {person.Id} place").Select(place => new PlaybackState(place.At.Seconds, Where(place.State)))],
        Carries(person),
        [.. history.Of($"person {person.Id} tether").Select(paid => new[] { paid.At.Seconds, Math.Ceiling(paid.Value / 100.0) / 10 })],
        [.. trace.Returns.FirstOrDefault(curve => curve.Kind == ReturnKind.One && curve.Person == person.Id)?.Points
            .Select(point => new[] { point.At.Seconds, point.Seconds < ReturnPoint.NoWaySeconds ? Math.Ceiling(point.Seconds) : -1 }) ?? []],
        [.. plan.Timeline.Activities.Where(activity => activity.People.Contains(person.Id)).Select(activity => Deed(activity, person.Id))]);

    /// <summary>A place by the title that stands in the picture; where there is none, as on paper.</summary>
    private string Where(string place)
    {
        if (grips.ContainsKey(new(place))) return Wording.OneLine(names.Of(new GripId(place)));
        int slash = place.IndexOf('/');
        return slash > 0 && place[(slash + 1)..] is var pose && pose != "moving" ? words.Say("place.arm", place[..slash], names.Of(new ArmId(place[..slash]), new PoseId(pose))) : plan.PlaceWords(place);
    }

    private ImmutableArray<PlaybackState> Carries(Person person)
    {
        ImmutableArray<PlaybackState>.Builder carries = ImmutableArray.CreateBuilder<PlaybackState>();
        IEnumerable<string> where = [.. person.CarryPoints.Select(point => $"person {person.Id} carry {point.Id}"), .. scenario.Gear.Select(thing => $"gear {thing.Id} place")];
        foreach (Pet at in where.SelectMany(history.Of).Select(change => change.At).Append(trace.From).Distinct().Order())
        {
            string things = words.List([.. plan.OnSuit(person.Id, at)]) is { Length: > 0 } some ? some : words["ui.nothing"];
            if (carries.Count == 0 || carries[^1].Is != things) carries.Add(new(at.Seconds, things));
        }
        return carries.ToImmutable();
    }

    /// <summary>How a tether lies. Going back along a span, one is off its far grip from the first second on.</summary>
    private ImmutableArray<PlaybackLine> Lines(PersonId person)
    {
        SortedDictionary<int, int[]> laid = [];
        int[] last = [];
        laid[trace.From.Seconds] = last;
        foreach (LineLaid line in trace.Lines.Where(line => line.Person == person))
        {
            int[] now = [.. line.Grips.Select(grip => grips[grip])];
            if (paths.StepTo(person, line.At) is { } began && now.Length < last.Length)
            {
                int off = laid.ContainsKey(began) ? began + 1 : began;
                if (off < line.At.Seconds) laid[off] = now;
            }
            laid[line.At.Seconds] = last = now;
        }
        HashSet<int> moments = [.. laid.Keys, .. history.Of($"person {person} place").Select(place => place.At.Seconds)];
        ImmutableArray<PlaybackLine>.Builder lines = ImmutableArray.CreateBuilder<PlaybackLine>();
        foreach (int at in moments.Order())
        {
            string place = plan.State($"person {person} place", Pet.FromSeconds(at)) ?? "";
            bool held = grips.ContainsKey(new(place));
            int[] now = laid[laid.Keys.Last(key => key <= at)];
            if (lines.Count == 0 || lines[^1].Held != held || !lines[^1].Grips.SequenceEqual(now)) lines.Add(new(at, now, held));
        }
        return lines.ToImmutable();
    }

    private PlaybackArm Arm(Arm arm)
    {
        Point foot = paths.BaseOf(arm);
        return new(Wording.OneLine(arm.Id.Value), At(foot), Round(arm.Poses.Max(pose => pose.At.DistanceTo(foot))), paths.Of(arm),
            [.. plan.Timeline.Activities.OfType<ArmMove>().Where(move => move.Arm == arm.Id).Select(move => new PlaybackDeed(move.Start.Seconds, move.End.Seconds, move.Rider is { } rider
                ? words.Say("inside.ride", move.From, move.To, rider) : words.Say("inside.empty", move.From, move.To), null))]);
    }

    private PlaybackThing Thing(Gear gear)
    {
        ImmutableArray<PersonId> outside = [.. scenario.Outside.Select(person => person.Id)];
        ImmutableArray<PlaybackSpot>.Builder spots = ImmutableArray.CreateBuilder<PlaybackSpot>();
        foreach ((Pet at, string state, _, _) in history.Of($"gear {gear.Id} place"))
        {
            int space = state.IndexOf(' ');
            (string kind, string name) = space < 0 ? (state, "") : (state[..space], state[(space + 1)..]);
            Point? point = kind switch
            {
                "grip" => paths.PointOf(new GripId(name)),
                "socket" => scenario.Station.Sockets.FirstOrDefault(socket => socket.Id.Value == name) is { } socket ? paths.PointOf(socket.Grip) : null,
                "site" => scenario.Station.Sites.FirstOrDefault(site => site.Id.Value == name) is { } site ? paths.PointOf(site) : null,
                _ => null,
            };
            // On a carry point, or in somebody's hands.
            int person = kind is "person" or "hands" ? outside.ToList().FindIndex(one => name == one.Value || name.StartsWith(one.Value + " ", StringComparison.Ordinal)) : -1, arm = kind == "arm" ? scenario.Arms.Select(one => one.Id.Value).ToImmutableArray().IndexOf(name) : -1;
            spots.Add(new(at.Seconds, point is { } place ? At(place) : null, person < 0 ? null : person, arm < 0 ? null : arm));
        }
        return new(Wording.OneLine(gear.Title), gear.Kind.ToString().ToLowerInvariant(), Round(Math.Cbrt(gear.Volume)), spots.ToImmutable());
    }

    private PlaybackDeed Deed(Activity activity, PersonId? to) => new(activity.Start.Seconds, activity.End.Seconds,
        // The picture shows which way.
        activity is Translate walk ? words.Say("short.go", names.Of(walk.Spans[^1].To)) : plan.Do(activity, to),
        activity is DoStep step && to is not null ? Wording.OneLine(plan.Leg(step.Leg).Title) : null);

    private double[] EarthFrom(Attitude attitude, OrbitElements elements)
    {
        Vector3D down = attitude.Turned(new(0, 0, 1));
        return [Round(down.X), Round(down.Y), Round(down.Z), Round(SunTrack.EarthHalfAngle(elements, scenario.Sortie.PetZero, trace.From))];
    }

    private static double[] At(Point point) => [Round(point.X), Round(point.Y), Round(point.Z)];

    /// <summary>To a millimetre, or as much of an angle: finer than anything here is known, and short to write.</summary>
    internal static double Round(double value) => Math.Round(value, 3);
}
