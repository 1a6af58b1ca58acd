using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>The lanes below the strips: what is dead and how long it may be, what the arms do, what the ground commands.</summary>
internal sealed class Lanes
{
    private const double BarHeight = 14;
    private readonly Sheet sheet;
    private readonly List<(string Name, double Top, double Height, Func<Area, IEnumerable<Element>> Draw)> lanes = [];

    public Lanes(Sheet sheet, double top)
    {
        this.sheet = sheet;
        Bottom = top;
        foreach (GroundConsole console in sheet.Scenario.Consoles)
            foreach (Shutdown shutdown in console.Shutdowns)
                if (Times(shutdown) is { Length: > 0 } times) Add(sheet.Words.Say("drawn.laneoff", shutdown.Id), 25, lane => DrawShutdown(shutdown, times, lane));
        foreach (Arm arm in sheet.Scenario.Arms)
            if (sheet.Timeline.Activities.Any(activity => ArmOf(activity) == arm.Id)) Add(arm.Id.Value, 25, lane => DrawArm(arm, lane));
        foreach (GroundConsole console in sheet.Scenario.Consoles)
            if (sheet.Timeline.Activities.OfType<SendCommand>().Any(command => command.Console == console.Id)) Add(sheet.Words.Say("drawn.lanecommands", console.Id), 42, lane => DrawCommands(console, lane));
    }

    public double Bottom { get; private set; }

    public IEnumerable<Element> Draw()
    {
        foreach ((string name, double top, double height, Func<Area, IEnumerable<Element>> draw) in lanes)
        {
            double left = sheet.Axis.Left, middle = top + height / 2;
            string shown = Lettering.Shorten(name, Face.Regular, 12, left - 10 - sheet.Margin);
            List<Element> parts =
            [
                new Line(new(left, middle), new(sheet.Axis.Right, middle), new(Palette.Grid, 0.8)),
                new Text(new(left - 8, middle + 4), shown, Face.Regular, 12, Palette.Words, Anchor.End),
                .. draw(new(left, top, sheet.Right - left, height)),
            ];
            yield return new Group(sheet.Ids.Take($"lane-{name}"), name, "", [.. parts]);
        }
    }

    private void Add(string name, double height, Func<Area, IEnumerable<Element>> draw)
    {
        lanes.Add((name, Bottom, height, draw));
        Bottom += height;
    }

    /// <summary>From the end of each off to the end of the next on; no end when it is never turned on again.</summary>
    private ImmutableArray<(Pet From, Pet? To)> Times(Shutdown shutdown)
    {
        ImmutableArray<(Pet, Pet?)>.Builder times = ImmutableArray.CreateBuilder<(Pet, Pet?)>();
        Pet? off = null;
        foreach (SendCommand command in sheet.Timeline.Activities.OfType<SendCommand>().OrderBy(command => command.End))
        {
            if (command.Command == shutdown.Off) off ??= command.End;
            if (command.Command != shutdown.On || off is not { } from) continue;
            times.Add((from, command.End));
            off = null;
        }
        if (off is { } open) times.Add((open, null));
        return times.ToImmutable();
    }

    private IEnumerable<Element> DrawShutdown(Shutdown shutdown, ImmutableArray<(Pet From, Pet? To)> times, Area lane)
    {
        TimeAxis axis = sheet.Axis;
        LabelPlacer placer = new(lane);
        List<LabelRequest> requests = [];
        List<(string Title, ImmutableArray<Element> Bars)> bars = [];
        foreach ((Pet from, Pet? to) in times)
        {
            Pet end = to ?? sheet.Trace.To;
            int seconds = end.Since(from).Seconds;
            double left = axis.X(from), right = axis.X(end), top = lane.Centre.Y - BarHeight / 2;
            string words = shutdown.Longest is { } longest ? sheet.Words.Say("drawn.offof", Sheet.MinutesUp(seconds), Sheet.MinutesDown(longest.Seconds)) : sheet.Words.Say("drawn.off", Sheet.MinutesUp(seconds));
            if (to is null) words = sheet.Words.Say("drawn.offstays", words);
            List<Element> parts = [new Box(new(left, top, right - left, BarHeight), new SolidFill(Palette.Dead), null)];
            double last = right;
            if (shutdown.Longest is { } most)
            {
                last = Math.Min(axis.X(from.Plus(most)), axis.Right);
                if (seconds > most.Seconds)
                {
                    words = sheet.Words.Say("drawn.offlong", words);
                    parts.Add(new Box(new(last, top, right - last, BarHeight), new HatchFill(Palette.Paper, 5, 1.6), new(Palette.Ceiling, 2)));
                    last = right;
                }
                else
                {
                    // What is left of the clock, up to where it runs out.
                    parts.Add(new Box(new(right, top + 3, last - right, BarHeight - 6), null, new(Palette.Dead, 1, [3, 2])));
                    parts.Add(new Line(new(last, top - 2), new(last, top + BarHeight + 2), new(Palette.Dead, 2)));
                }
                // The clock running: a wedge that fills the height of the bar when the time is up.
                double full = Math.Min(1, seconds / (double)most.Seconds), tip = axis.X(from.Plus(Duration.FromSeconds(Math.Min(seconds, most.Seconds))));
                parts.Add(new Trail([new(left, top + BarHeight - 1), new(tip, top + BarHeight - 1), new(tip, top + BarHeight - 1 - (BarHeight - 2) * full)], null, new SolidFill(Palette.Clock), true));
            }
            placer.Avoid(new Area(left, top, last - left + 2, BarHeight));
            requests.Add(new([Small(words)], [new(left, lane.Centre.Y), new(last, lane.Centre.Y)], 1, 60));
            bars.Add((sheet.Words.Say("drawn.offfrom", shutdown.Id, from, to is { } known ? known : sheet.Words["drawn.theend"], words), [.. parts]));
        }
        return WithLabels($"shutdown-{shutdown.Id}", bars, placer.Place(requests));
    }

    private IEnumerable<Element> DrawArm(Arm arm, Area lane)
    {
        TimeAxis axis = sheet.Axis;
        LabelPlacer placer = new(lane);
        List<LabelRequest> requests = [];
        List<(string Title, ImmutableArray<Element> Bars)> bars = [];
        List<Element> parts = [];
        List<string> poses = [];
        // That an arm moves empty goes unsaid where there is no room.
        HashSet<int> unsaid = [];
        (MountArm Mount, Pet Since)? aboard = null;
        foreach (Activity activity in sheet.Timeline.Activities.Where(activity => ArmOf(activity) == arm.Id).OrderBy(activity => activity.Start))
        {
            double left = axis.X(activity.Start), right = axis.X(activity.End), top = lane.Centre.Y - BarHeight / 2;
            if (aboard is { } session && activity.Start > session.Since)
                parts.Add(new Box(new(axis.X(session.Since), top + 2, left - axis.X(session.Since), BarHeight - 4), new SolidFill(Palette.Everyone), null));
            Area bar = new(left, top, right - left, BarHeight);
            switch (activity)
            {
                case MountArm mount:
                    aboard = (mount, mount.End);
                    poses = [sheet.PlaceName(mount.At)];
                    parts.Add(new Box(bar, new HatchFill(Palette.Words, 4, 1), new(Palette.Words, 1)));
                    break;
                case DismountArm dismount when aboard is { } done:
                    parts.Add(new Box(bar, new HatchFill(Palette.Words, 4, 1), new(Palette.Words, 1)));
                    double first = axis.X(done.Mount.Start);
                    poses.Add(sheet.PlaceName(dismount.At));
                    string path = string.Join(" → ", poses.Where((pose, i) => i == 0 || pose != poses[i - 1]));
                    placer.Avoid(new Area(first, top, right - first, BarHeight));
                    requests.Add(new([Small(sheet.Words.Say("drawn.aboardpath", done.Mount.Person, path)), Small(sheet.Words.Say("drawn.aboard", done.Mount.Person)) with { Cost = 40 }], [new(first, lane.Centre.Y), new(right, lane.Centre.Y)], 1, 60));
                    bars.Add((sheet.Words.Say("drawn.carries", arm.Id, done.Mount.Person, done.Mount.Start, dismount.End, path), [.. parts]));
                    (aboard, parts) = (null, []);
                    break;
                case ArmMove { Rider: not null } ride:
                    poses.Add(sheet.Scenario.Station.Sites.FirstOrDefault(site => site.Arm == ride.Arm && site.Pose == ride.To)?.Title ?? ride.To.Value);
                    parts.Add(new Box(bar, new SolidFill(Palette.Words), null));
                    parts.Add(new Box(new(left, top + 3.5, right - left, BarHeight - 7), new SolidFill(Palette.Paper), null));
                    aboard = aboard is { } on ? (on.Mount, ride.End) : null;
                    break;
                case ArmMove empty:
                    placer.Avoid(bar);
                    unsaid.Add(bars.Count);
                    bars.Add((sheet.Words.Say("drawn.movesempty", arm.Id, empty.Start, empty.End, empty.From, empty.To), [new Box(bar.Grown(-1), new SolidFill(Palette.Paper), new(Palette.Words, 1.2, [3, 2]))]));
                    requests.Add(new([Small(sheet.Words["drawn.empty"])], [new(left, lane.Centre.Y), new(right, lane.Centre.Y)], 0, 0));
                    break;
            }
        }
        if (parts.Count > 0)
        {
            requests.Add(new([Small(sheet.Words["drawn.stays"])], [new(lane.Right, lane.Centre.Y)], 1, 200));
            bars.Add((sheet.Words.Say("drawn.armstays", arm.Id), [.. parts]));
        }
        return WithLabels($"arm-{arm.Id}", bars, placer.Place(requests), unsaid);
    }

    private IEnumerable<Element> DrawCommands(GroundConsole console, Area lane)
    {
        LabelPlacer placer = new(new(lane.Left - 6, lane.Top, lane.Width + 6, lane.Height));
        List<LabelRequest> requests = [];
        List<(string Title, ImmutableArray<Element> Bars)> bars = [];
        foreach (SendCommand command in sheet.Timeline.Activities.OfType<SendCommand>().Where(command => command.Console == console.Id))
        {
            double left = sheet.Axis.X(command.Start), right = sheet.Axis.X(command.End), y = lane.Centre.Y;
            ImmutableArray<Spot> diamond = [new(right, y - 6), new(right + 5, y), new(right, y + 6), new(right - 5, y)];
            placer.Avoid(new Area(left, y - 2, right - left, 4));
            placer.Avoid(new Area(right - 5, y - 6, 10, 12));
            requests.Add(new([Small(command.Command.Value)], [new(right - 5, y), new(right + 5, y)], 1, 90));
            bars.Add((sheet.Words.Say("drawn.command", console.Id, command.Command, command.Start, command.End), [new Line(new(left, y), new(right, y), new(Palette.Words, 3)), new Trail(diamond, null, new SolidFill(Palette.Words), true)]));
        }
        return WithLabels($"command-{console.Id}", bars, placer.Place(requests));
    }

    private IEnumerable<Element> WithLabels(string id, List<(string Title, ImmutableArray<Element> Bars)> bars, ImmutableArray<PlacedLabel?> labels, IReadOnlySet<int>? unsaid = null)
    {
        for (int i = 0; i < bars.Count; i++)
        {
            IEnumerable<Element> label = labels[i]?.Draw(Palette.Words) ?? [];
            if (labels[i] is null && unsaid?.Contains(i) != true) sheet.MoveToKey(bars[i].Title);
            yield return new Group(sheet.Ids.Take(id), bars[i].Title, "", [.. bars[i].Bars, .. label]);
        }
    }

    private static LabelShape Small(string words) => new([new(Lettering.Shorten(words, Face.Regular, 11.5, 340), Face.Regular, 11.5, Palette.Words)], 0);

    private static ArmId? ArmOf(Activity activity) => activity switch
    {
        MountArm mount => mount.Arm,
        DismountArm dismount => dismount.Arm,
        ArmMove move => move.Arm,
        _ => null,
    };
}
