using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Makes a playback of a plan's likely branch.</summary>
internal sealed class PlaybackBuilder
{
    private const int SunStep = 60;

    private readonly Scenario scenario;
    private readonly ProvenPlan plan;
    private readonly WalkthroughWords words;
    private readonly WalkthroughNames names;
    private readonly Trace trace;
    private readonly History history;
    private readonly PlaybackPaths paths;
    private readonly Dictionary<GripId, int> grips;

    public PlaybackBuilder(Scenario scenario, ProvenPlan plan, WalkthroughWords words)
    {
        (this.scenario, this.plan, this.words) = (scenario, plan, words);
        trace = plan.Played[0].Trace;
        names = new(scenario);
        history = new(trace);
        paths = new(scenario, plan.Likely, trace, history);
        grips = scenario.Station.Grips.Select((grip, i) => (grip.Id, i)).ToDictionary(pair => pair.Id, pair => pair.i);
    }

    public Playback Build(ScenarioOrbit? orbit, ImmutableArray<Cue> cues, ChartFrame chart) => new()
    {
        Caution = Caution.Text,
        Draft = NarrationText.Draft(plan, words),
        Title = WalkthroughWords.OneLine(scenario.Sortie.Title),
        Outline = WalkthroughWords.OneLine(plan.Name),
        Plan = plan.Verdict.PlanId,
        PetZero = scenario.Sortie.PetZero.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        From = trace.From.Seconds,
        To = trace.To.Seconds,
        Speed = Narration.Speed,
        Station = Station(),
        People = [.. scenario.Outside.Select(Person)],
        Arms = [.. scenario.Arms.Select(Arm)],
        Things = [.. scenario.Gear.Select(Thing).Where(thing => thing.Spots.Any(spot => spot.At is not null || spot.Person is not null || spot.Arm is not null))],
        Ground = [.. plan.Likely.Activities.OfType<SendCommand>().Select(command => Deed(command, null))],
        Light = history.Of("sky light") is { Count: > 0 } light ? [.. light.Select(one => new PlaybackState(one.At.Seconds, one.State))] : [new(trace.From.Seconds, "unknown")],
        Sky = new[] { "link", "voice", "radiation" }.ToImmutableSortedDictionary(aspect => aspect,
            aspect => history.Of($"sky {aspect}").Select(one => new PlaybackState(one.At.Seconds, one.State)).ToImmutableArray(), StringComparer.Ordinal),
        Sun = orbit?.Attitude is { } attitude ? [.. SunTrack.Of(orbit.Elements, attitude.Flown, scenario.Sortie.PetZero, trace.From, trace.To, SunStep)
            .Select(sight => new[] { sight.At.Seconds, Round(sight.Toward.X), Round(sight.Toward.Y), Round(sight.Toward.Z) })] : null,
        Earth = orbit?.Attitude is { } flown ? EarthFrom(flown.Flown, orbit.Elements) : null,
        Cues = [.. cues.Select(cue => new PlaybackCue(cue.From.Seconds, cue.To.Seconds, cue.Text))],
        Chart = new(Round(chart.Left), Round(chart.Right), chart.From.Seconds, chart.To.Seconds, Round(chart.Top)),
        Words = words.Templates.Where(pair => pair.Key.StartsWith("ui.", StringComparison.Ordinal)).ToImmutableSortedDictionary(pair => pair.Key[3..], pair => pair.Value, StringComparer.Ordinal),
    };

    private PlaybackStation Station()
    {
        Station station = scenario.Station;
        HashSet<SiteId> used = [.. plan.Likely.Activities.OfType<DoStep>().Select(step => names.Leg(step.Leg)?.Site).OfType<SiteId>()];
        return new(WalkthroughWords.OneLine(station.Name),
            [.. station.Modules.Select(module => new PlaybackBody(WalkthroughWords.OneLine(module.Name),
                module.Shape switch { SolidShape.Cylinder => "round", SolidShape.Box => "square", _ => "thin" }, At(module.From), At(module.To), module.Width))],
            [.. station.Spans.Select(span => new[] { grips[span.A], grips[span.B], (int)span.Class })],
            [.. station.Grips.Select(grip => At(grip.At))],
            [.. station.Sites.Select(site => (site, point: paths.PointOf(site))).Where(pair => pair.point is not null)
                .Select(pair => new PlaybackSite(WalkthroughWords.OneLine(pair.site.Title), At(pair.point!.Value), used.Contains(pair.site.Id))).OrderByDescending(site => site.Used)]);
    }

    private PlaybackPerson Person(Person person) => new(
        WalkthroughWords.OneLine(person.Id.Value), WalkthroughWords.OneLine(person.Name), paths.Of(person.Id), Lines(person.Id),
        [.. history.Of($"person {person.Id} place").Select(place => new PlaybackState(place.At.Seconds, Where(place.State)))],
        Carries(person),
        [.. history.Of($"person {person.Id} tether").Select(paid => new[] { paid.At.Seconds, Math.Ceiling(paid.Value / 100.0) / 10 })],
        [.. trace.Returns.FirstOrDefault(curve => curve.Kind == ReturnKind.One && curve.Person == person.Id)?.Points
            .Select(point => new[] { point.At.Seconds, point.Seconds < ReturnPoint.NoWaySeconds ? Math.Ceiling(point.Seconds) : -1 }) ?? []],
        [.. plan.Likely.Activities.Where(activity => activity.People.Contains(person.Id)).Select(activity => Deed(activity, person.Id))]);

    private string Where(string place)
    {
        if (place == "inside") return words.Say("at.inside");
        int slash = place.IndexOf('/');
        if (slash < 0 || grips.ContainsKey(new(place))) return WalkthroughWords.OneLine(names.Of(new GripId(place)));
        (ArmId arm, string pose) = (new(place[..slash]), place[(slash + 1)..]);
        return pose == "moving" ? words.Say("at.moving", ("arm", arm)) : words.Say("at.arm", ("arm", arm), ("place", names.Of(arm, new PoseId(pose))));
    }

    private ImmutableArray<PlaybackState> Carries(Person person)
    {
        var points = person.CarryPoints.Select(point => (point.Id, History: history.Of($"person {person.Id} carry {point.Id}"))).ToList();
        ImmutableArray<PlaybackState>.Builder carries = ImmutableArray.CreateBuilder<PlaybackState>();
        foreach (Pet at in points.SelectMany(point => point.History).Select(change => change.At).Append(trace.From).Distinct().Order())
        {
            string[] things = [.. points.Select(point => (point.Id, State: point.History.LastOrDefault(change => change.At <= at).State)).Where(pair => pair.State is not (null or "" or "none"))
                .Select(pair => words.Say("carry.one", ("gear", names.Of(new GearId(pair.State!))), ("carry", pair.Id)))];
            carries.Add(new(at.Seconds, things.Length == 0 ? words.Say("carry.none") : words.List(things)));
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
            string place = history.At($"person {person} place", Pet.FromSeconds(at));
            bool held = grips.ContainsKey(new(place));
            int[] now = laid[laid.Keys.Last(key => key <= at)];
            if (lines.Count == 0 || lines[^1].Held != held || !lines[^1].Grips.SequenceEqual(now)) lines.Add(new(at, now, held));
        }
        return lines.ToImmutable();
    }

    private PlaybackArm Arm(Arm arm)
    {
        Point foot = paths.BaseOf(arm);
        return new(WalkthroughWords.OneLine(arm.Id.Value), At(foot), Round(arm.Poses.Max(pose => pose.At.DistanceTo(foot))), paths.Of(arm),
            [.. plan.Likely.Activities.OfType<ArmMove>().Where(move => move.Arm == arm.Id).Select(move => new PlaybackDeed(move.Start.Seconds, move.End.Seconds, move.Rider is { } rider
                ? words.Say("do.armRider", ("place", names.Of(arm.Id, move.To)), ("who", rider)) : words.Say("do.armEmpty", ("place", names.Of(arm.Id, move.To))), null))]);
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
        return new(WalkthroughWords.OneLine(gear.Title), gear.Kind.ToString().ToLowerInvariant(), Round(Math.Cbrt(gear.Volume)), spots.ToImmutable());
    }

    private PlaybackDeed Deed(Activity activity, PersonId? to) =>
        new(activity.Start.Seconds, activity.End.Seconds, Doing(activity), activity is DoStep step && to is not null ? WalkthroughWords.OneLine(names.Leg(step.Leg)?.Title ?? step.Leg.Value) : null);

    private string Doing(Activity activity) => activity switch
    {
        AirlockPhase phase => phase.Phase switch
        {
            AirlockPhaseKind.Out => words.Say("do.out", ("airlock", phase.Airlock)),
            AirlockPhaseKind.WaitInside => words.Say("do.waitInside"),
            AirlockPhaseKind.BagsOut => words.Say("do.bagsOut"),
            AirlockPhaseKind.Check => words.Say("do.check"),
            AirlockPhaseKind.Inventory => words.Say("do.inventory"),
            AirlockPhaseKind.BagsIn => words.Say("do.bagsIn"),
            AirlockPhaseKind.In => words.Say("do.in"),
            AirlockPhaseKind.SafeInside => words.Say("do.safe"),
            _ => words.Say("do.close"),
        },
        Translate walk => words.Say("do.walk", ("place", names.Of(walk.Spans[^1].To))),
        SwapReel swap when swap.Onto == swap.At => words.Say("do.reelOut", ("place", names.Of(swap.At))),
        SwapReel swap => words.Say("do.reelBack", ("place", names.Of(swap.Onto))),
        Take take => words.Say("do.take", ("gear", names.Of(take.Gear)), ("carry", take.Carry)),
        Put put => words.Say("do.put", ("gear", names.Of(put.Gear)), ("place", names.Of(put.At))),
        Give give => words.Say("do.give", ("from", give.From), ("gear", names.Of(give.Gear)), ("to", give.To), ("carry", give.Carry)),
        Plug plug => words.Say("do.plug", ("gear", names.Of(plug.Gear)), ("socket", plug.Socket), ("setting", plug.Setting)),
        Unplug unplug => words.Say("do.unplug", ("gear", names.Of(unplug.Gear)), ("socket", unplug.Socket), ("carry", unplug.Carry)),
        EnterRestraint enter => words.Say("do.enter", ("socket", enter.Socket)),
        LeaveRestraint leave => words.Say("do.leave", ("socket", leave.Socket)),
        MountArm mount => words.Say("do.mount", ("arm", mount.Arm)),
        ArmMove move => words.Say("do.ride", ("arm", move.Arm), ("place", names.Of(move.Arm, move.To))),
        DismountArm dismount => words.Say("do.dismount", ("arm", dismount.Arm)),
        DoStep { LeftBy: not null } left => words.Say("do.left", ("step", names.Of(left))),
        DoStep step => words.Say("do.step", ("step", names.Of(step))),
        Await wait => words.Say("do.wait", ("until", wait.Until)),
        CheckGloves => words.Say("do.gloves"),
        Rest => words.Say("do.rest"),
        SendCommand command => words.Say("do.command", ("console", command.Console), ("command", command.Command)),
        _ => activity.Id.Value,
    };

    private double[] EarthFrom(Attitude attitude, OrbitElements elements)
    {
        Vector3D down = attitude.Turned(new(0, 0, 1));
        return [Round(down.X), Round(down.Y), Round(down.Z), Round(SunTrack.EarthHalfAngle(elements, scenario.Sortie.PetZero, trace.From))];
    }

    private static double[] At(Point point) => [Round(point.X), Round(point.Y), Round(point.Z)];

    /// <summary>To a millimetre, or as much of an angle: finer than anything here is known, and short to write.</summary>
    private static double Round(double value) => Math.Round(value, 3);
}
