using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

public sealed partial class Expander
{
    /// <summary>An entry as a person would name it.</summary>
    internal static string Describe(Entry entry) => entry switch
    {
        LegEntry leg => $"leg {leg.Leg}",
        TakeEntry take => $"take {take.Gear} from {take.From}",
        PutEntry put => $"put {put.Gear} at {put.At}",
        PlugEntry plug => $"plug {plug.Restraint} into {plug.Socket}",
        UnplugEntry unplug => $"unplug {unplug.Restraint} from {unplug.Socket}",
        MeetEntry meet => $"meet {meet.Id} at {meet.At}",
        MountEntry mount => $"mount {mount.Arm} at {mount.At}",
        DismountEntry dismount => $"dismount {dismount.Arm} at {dismount.At}",
        EgressEntry egress => $"egress {egress.Airlock}",
        IngressEntry ingress => $"ingress {ingress.Airlock}",
        CheckEntry => "check gloves",
        RestEntry rest => $"rest for {rest.Time}",
        _ => "wait",
    };

    /// <summary>The part that walks each person's list and makes its events.</summary>
    private sealed partial class Builder
    {
        private readonly List<EventNode> tailStarts = [];

        private void Walk(Walker walker, Entry entry)
        {
            walker.Begin = null;
            WalkEntry(walker, entry);
            if (walker.Begin is { Held: null } begin) walker.Begins.Add((walker.Entries, begin));
            walker.Entries++;
        }

        private void WalkEntry(Walker walker, Entry entry)
        {
            if (problem is not null || entry is EgressEntry) return;
            PersonId who = walker.Person.Id;
            if (walker.Lines is null)
            {
                Fail("outline.inside", $"{who}'s list does not begin with an egress", $"begin it with {{egress: …}}");
                return;
            }
            if (walker.CameIn)
            {
                Fail("outline.inside", $"{who}'s list goes on after the ingress", "end it with the ingress");
                return;
            }
            LegEntry? legEntry = entry as LegEntry;
            Leg? leg = legEntry is null ? null : LegOf(legEntry.Leg);
            bool wanted = Wanted(walker, entry);
            if (wanted && Pauses.Count > 0) Pause(walker, entry, leg);
            // Where the walk is ended early from an arm, the get-off planned later is not waited for.
            bool comesOff = entry is IngressEntry || (detour is { Ends: true } && wanted && leg is not null && leg.Footing != Footing.Arm);
            if (detour is not null && comesOff && walker.Riding is { } stillOn) Dismount(walker, new(stillOn.Arm.Id, stillOn.Mount.Grip, null, false));
            if (walker.Socket is { } socket && entry is not (WaitEntry or CheckEntry or RestEntry) && leg?.Socket != socket)
            {
                string leaves = $"{who}: leave the restraint in {socket}";
                if (!Comes(wanted, leaves)) return;
                EventNode left = Then(walker, leaves, entry.For, scenario.Handling.Leave.Time.Seconds, "leave",
                    times => new LeaveRestraint { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Socket = socket, For = entry.For });
                walker.Socket = null;
                if (walker.Plugged.TryGetValue(socket, out CarryStretch? plugged)) plugged.To = left;
            }
            if (!wanted && !IsAnyPast(walker, entry, leg)) return;
            if (!ArmAgrees(walker, entry, leg)) return;
            if (EntryPlaces.Of(scenario, entry, leg) is { } place && !GoTo(walker, place, entry)) return;
            if (!wanted && entry is not (LegEntry or DismountEntry) && !IsPast(walker, entry)) return;

            HandlingTime Time(Func<Handling, HandlingTime> which) => which(scenario.Handling);
            switch (entry)
            {
                case TakeEntry take:
                    Begin(walker, take.Gear, Then(walker, NameOf(walker, entry), entry.For, Time(h => h.Take).Time.Seconds, "take", times => new Take
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Gear = take.Gear, At = take.From, Carry = take.Carry, For = entry.For }));
                    break;
                case PutEntry put:
                    EndStretch(walker, put.Gear, Then(walker, NameOf(walker, entry), entry.For, Time(h => h.Put).Time.Seconds, "put", times => new Put
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Gear = put.Gear, At = put.At, For = entry.For }));
                    break;
                case PlugEntry plug:
                    CarryStretch? carriedThere = EndStretch(walker, plug.Restraint, Then(walker, NameOf(walker, entry), entry.For, Time(h => h.Plug).Time.Seconds, "plug", times => new Plug
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Gear = plug.Restraint, Socket = plug.Socket, Setting = plug.Setting, For = entry.For }));
                    if (carriedThere is not null) walker.Plugged[plug.Socket] = carriedThere;
                    break;
                case UnplugEntry unplug:
                    Begin(walker, unplug.Restraint, Then(walker, NameOf(walker, entry), entry.For, Time(h => h.Unplug).Time.Seconds, "unplug", times => new Unplug
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Gear = unplug.Restraint, Socket = unplug.Socket, Carry = unplug.Carry, For = entry.For }));
                    break;
                case MeetEntry meet:
                    Meet(walker, meet);
                    break;
                case MountEntry mount:
                    Mount(walker, mount);
                    break;
                case DismountEntry dismount:
                    Dismount(walker, dismount);
                    break;
                case WaitEntry wait:
                    WaitUntil(walker, wait);
                    break;
                case CheckEntry when scenario.Checks?.Gloves is { } gloves:
                    Then(walker, NameOf(walker, entry), entry.For, gloves.Time.Time.Seconds, "check", times => new CheckGloves
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, For = entry.For });
                    break;
                case CheckEntry:
                    Fail("outline.check", "the scenario does not say how long a check of gloves takes", "add 'checks: {gloves: …}' to it, or leave the check out");
                    break;
                case RestEntry rest:
                    Then(walker, NameOf(walker, entry), entry.For, rest.Time.Seconds, "rest", times => new Rest
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, For = entry.For });
                    break;
                case LegEntry when leg is not null:
                    DoLeg(walker, legEntry!, leg);
                    break;
                case IngressEntry ingress:
                    foreach (Gear gear in scenario.Gear.Where(one => walker.Carried.Contains(one.Id) && HangsAtHatch(AirlockOf(ingress.Airlock), one.Id)))
                        EndStretch(walker, gear.Id, Then(walker, $"{who}: hang {gear.Id} at the hatch", null, Time(h => h.Put).Time.Seconds, "put", times => new Put
                        { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Gear = gear.Id, At = AirlockOf(ingress.Airlock).Grip }));
                    walker.CameIn = true;
                    break;
            }
        }

        /// <summary>Puts in the check or the rest that comes due before an entry of a way on.</summary>
        private void Pause(Walker walker, Entry entry, Leg? leg)
        {
            if (IsAnyPast(walker, entry, leg)) return;
            PersonId who = walker.Person.Id;
            if (scenario.Checks?.Gloves is { } gloves && Pauses.Contains(new(who, walker.Entries, IsRest: false)))
                Then(walker, $"{who}: check that comes due", entry.For, gloves.Time.Time.Seconds, "check", times => new CheckGloves
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, For = entry.For });
            if (scenario.Checks?.Rest is { } least && Pauses.Contains(new(who, walker.Entries, IsRest: true)))
                Then(walker, $"{who}: rest that comes due", entry.For, least.Least.Seconds, "rest", times => new Rest
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, For = entry.For });
        }

        /// <summary>The name of the event that an entry stands for.</summary>
        private static string NameOf(Walker walker, Entry entry) => entry switch
        {
            LegEntry leg => LegName(walker, leg.Leg),
            MeetEntry meet => $"meeting {meet.Id}",
            MountEntry mount => $"{walker.Person.Id}: get onto {mount.Arm} at {mount.At}",
            DismountEntry dismount => $"{walker.Person.Id}: get off {dismount.Arm}",
            WaitEntry wait => $"{walker.Person.Id}: wait until {UntilOf(wait)}",
            _ => $"{walker.Person.Id}: {Describe(entry)}",
        };

        private static string LegName(Walker walker, LegId leg) => $"{walker.Person.Id}: {leg}";

        private static string UntilOf(WaitEntry wait) => wait.At is { } moment ? moment.ToString() : wait.Until.ToString().ToLowerInvariant();

        private static string GoName(Walker walker, GripId place) => $"{walker.Person.Id}: go to {place}";

        private static string RideName(Walker walker, PoseId pose) => $"{walker.Person.Id}: ride {walker.Riding!.Arm.Id} to {pose}";

        private static string EnterName(Walker walker, SocketId socket) => $"{walker.Person.Id}: get into the restraint in {socket}";

        /// <summary>Whether the event that an entry stands for has begun. A meeting is made when the first of those who meet comes to it.</summary>
        private bool IsPast(Walker walker, Entry entry) => entry is MeetEntry meet && meetings.TryGetValue(meet.Id, out Meeting? met)
            ? met.Node!.Held is not null
            : events.PastStart(NameOf(walker, entry)) is not null;

        /// <summary>Whether anything of an entry has begun: the way to it, the ride, getting into the restraint, or itself.</summary>
        private bool IsAnyPast(Walker walker, Entry entry, Leg? leg)
        {
            List<string> names = [];
            if (EntryPlaces.Of(scenario, entry, leg) is { } place) names.Add(GoName(walker, place));
            if (leg is { Footing: Footing.Restraint, Socket: { } socket }) names.Add(EnterName(walker, socket));
            if (walker.Riding is { } riding)
            {
                if (leg is { Footing: Footing.Arm } && SiteOf(leg).Pose is { } pose) names.Add(RideName(walker, pose));
                if (entry is DismountEntry) names.Add(RideName(walker, riding.Mount.Pose));
            }
            return IsPast(walker, entry) || names.Any(name => events.PastStart(name) is not null);
        }

        private bool ArmAgrees(Walker walker, Entry entry, Leg? leg)
        {
            bool fromArm = leg?.Footing == Footing.Arm;
            if (walker.Riding is { } riding)
            {
                if (entry is DismountEntry or WaitEntry or CheckEntry or RestEntry || (fromArm && SiteOf(leg!).Arm == riding.Arm.Id)) return true;
                Fail("outline.arm", $"{walker.Person.Id} is still on {riding.Arm.Id} at \"{Describe(entry)}\"", "put a dismount before it");
                return false;
            }
            if (!fromArm && entry is not DismountEntry) return true;
            Fail("outline.arm", $"{walker.Person.Id} is not on an arm at \"{Describe(entry)}\"", "put a mount before it");
            return false;
        }

        /// <summary>Adds the next event of one person.</summary>
        private EventNode Then(Walker walker, string name, LegId? forLeg, int seconds, string verb, Func<ActivityTimes, Activity> make) =>
            Chain(walker, events.Add(new() { Name = name, Parts = [new(NewId(walker.Person.Id.Value, verb), seconds, make)] }));

        private EventNode Chain(Walker walker, EventNode node)
        {
            events.Follow(walker.Last, node, $"{walker.Person.Id} is ready");
            walker.Begin ??= node;
            if (walker is { Tail: true, TailBegun: false })
            {
                walker.TailBegun = true;
                tailStarts.Add(node);
            }
            walker.Last = node;
            return node;
        }

        private double Slower(Walker walker) =>
            Walking.SlowedBy(walker.Carried.Select(gear => scenario.Sizes.First(size => size.Id == GearOf(gear).Size)));

        private bool GoTo(Walker walker, GripId place, Entry entry)
        {
            int target = expander.graph.IndexOf(place);
            ImmutableArray<WayPiece> pieces = [];
            double slower = Slower(walker);
            TetherLine? arrives = null;
            if (!entry.Way.Grips.IsEmpty)
            {
                (arrives, string found, string mend) = WalkAsTold(walker, target, entry, slower, out pieces);
                // Whoever sets out from elsewhere than planned, on a way on, does not come by the grips that were told.
                if (arrives is null && detour is null)
                {
                    Fail("outline.way", found, mend);
                    return false;
                }
            }
            if (arrives is null)
            {
                int? anchor = entry.Way.Anchor is { } named ? expander.graph.IndexOf(named) : null;
                TetherLine here = walker.Line!;
                bool stays = here.Grip == target && (anchor is null || anchor == here.Anchor);
                if ((stays ? here : walker.Lines!.To(target, anchor)) is not { } line)
                {
                    Fail("outline.way", $"no way leads {walker.Person.Id} to {place}" + (entry.Way.Anchor is { } at ? $" with the reel hooked at {at}" : "")
                        + $" for \"{Describe(entry)}\"", entry.Way.Anchor is null ? "add spans to the station, or longer reels" : "name another anchor");
                    return false;
                }
                arrives = line;
                pieces = walker.Lines!.Book.Between(here, line, slower);
            }

            walker.Line = arrives;
            if (pieces.IsEmpty) return true;
            bool meetsZone = pieces.Any(piece => !walker.Lines!.Zones.ClosedAt(piece.From).IsEmpty || !walker.Lines.Zones.ClosedAt(piece.To).IsEmpty);
            ZoneTimes zones = walker.Lines!.Zones;
            walker.Arrival = Chain(walker, events.Add(new()
            {
                Name = GoName(walker, place),
                Parts = [.. WayParts(walker.Person.Id, pieces, entry.For)],
                NextDeparture = meetsZone ? from => zones.EarliestDeparture(pieces, from) : null,
                WaitsFor = "the zones on the way are open",
            }));
            return true;
        }

        /// <summary>Follows a way that a person wrote grip by grip, hooking on at the anchor named where the way comes by it. Where it leads, or what is wrong with it.</summary>
        private (TetherLine? Arrives, string Found, string Mend) WalkAsTold(Walker walker, int target, Entry entry, double slower, out ImmutableArray<WayPiece> pieces)
        {
            LineBook book = walker.Lines!.Book;
            ImmutableArray<WayPiece>.Builder walked = ImmutableArray.CreateBuilder<WayPiece>();
            int[] grips = [.. entry.Way.Grips.Select(expander.graph.IndexOf)];
            TetherLine line = walker.Line!;
            int anchor = entry.Way.Anchor is { } named ? expander.graph.IndexOf(named) : line.Anchor;
            pieces = [];
            if (grips[0] != line.Grip || grips[^1] != target)
                return (null, $"the way of \"{Describe(entry)}\" leads from {entry.Way.Grips[0]} to {entry.Way.Grips[^1]}; {walker.Person.Id} is at "
                    + $"{expander.graph.GripAt(line.Grip).Id} and goes to {expander.graph.GripAt(target).Id}", "name every grip, both ends too, or write way: auto");
            for (int i = 0; ; i++)
            {
                TetherLine? swapped = anchor == line.Anchor ? null : anchor == line.Grip ? book.SwapOn(line) : LineBook.SwapBack(line);
                if (swapped is not null)
                {
                    walked.Add(new(line.Grip, line.Grip, scenario.Tether.Swap.Seconds, swapped.Anchor));
                    line = swapped;
                }
                if (i + 1 == grips.Length) break;
                if (expander.graph.Between(grips[i], grips[i + 1]) is not { } span)
                    return (null, $"no span joins {entry.Way.Grips[i]} and {entry.Way.Grips[i + 1]} on the way of \"{Describe(entry)}\"", "name grips that spans join");
                if (book.Step(line, grips[i + 1], span) is not { } next)
                    return (null, $"{walker.Person.Id}'s reel is too short for the way of \"{Describe(entry)}\" at {entry.Way.Grips[i + 1]}", "hook on at an anchor before it");
                walked.Add(new(grips[i], grips[i + 1], book.SpanSeconds(span, slower), -1));
                line = next;
            }
            pieces = walked.ToImmutable();
            return (line, "", "");
        }

        private IEnumerable<Part> WayParts(PersonId who, ImmutableArray<WayPiece> pieces, LegId? forLeg)
        {
            GripId Grip(int index) => expander.graph.GripAt(index).Id;
            for (int i = 0; i < pieces.Length;)
            {
                WayPiece piece = pieces[i];
                if (piece.IsSwap)
                {
                    i++;
                    yield return new(NewId(who.Value, "swap"), piece.Seconds, times => new SwapReel
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, At = Grip(piece.From), Onto = Grip(piece.Onto), Hooks = HooksIn(times), For = forLeg });
                    continue;
                }
                int first = i;
                while (i < pieces.Length && !pieces[i].IsSwap) i++;
                ImmutableArray<SpanWalk> spans = [.. pieces[first..i].Select(step => new SpanWalk(Grip(step.From), Grip(step.To), Duration.FromSeconds(step.Seconds)))];
                yield return new(NewId(who.Value, "go"), spans.Sum(span => span.Time.Seconds), times => new Translate
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Spans = spans, For = forLeg });
            }
        }

        /// <summary>The further hook on as soon as can be, the other one off at the end.</summary>
        private HookMoves? HooksIn(ActivityTimes times) => scenario.Tether is { Protocol: TetherProtocol.Reel, Hooked: { } hooked } ? new(times.Start.Plus(hooked), times.End) : null;

        private void Begin(Walker walker, GearId gear, EventNode node)
        {
            walker.Carried.Add(gear);
            if (!carried.TryGetValue(gear, out List<CarryStretch>? stretches)) carried[gear] = stretches = [];
            stretches.Add(new(walker.Person.Id, node));
        }

        private CarryStretch? EndStretch(Walker walker, GearId gear, EventNode node)
        {
            walker.Carried.Remove(gear);
            CarryStretch? open = carried.GetValueOrDefault(gear)?.LastOrDefault(stretch => stretch.Holder == walker.Person.Id && stretch.To is null);
            open?.To = node;
            return open;
        }

        private void WaitUntil(Walker walker, WaitEntry wait)
        {
            Closings closed = wait.Until switch
            {
                WaitFor.Day => Closings.Join(scenario.Sky.Night),
                WaitFor.Night => Closings.Join(Daylight.Between(scenario.Sky.FullNight)),
                WaitFor.Link => Closings.Join(scenario.Sky.NoLink),
                _ => Closings.None,
            };
            string until = UntilOf(wait);
            PersonId who = walker.Person.Id;
            // The wait itself is what fills the gap; this second marks its end.
            Chain(walker, events.Add(new()
            {
                Name = NameOf(walker, wait),
                Parts = [new(NewId(who.Value, "wait"), 1, times => new Await { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Until = until })],
                Closed = closed,
                WaitsFor = until,
                NotBefore = wait.At?.Seconds ?? int.MinValue,
            }));
        }
    }
}
