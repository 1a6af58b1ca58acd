using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

public sealed partial class Expander
{
    /// <summary>Legs, arms, meetings, airlocks and commands.</summary>
    private sealed partial class Builder
    {
        private void DoLeg(Walker walker, LegEntry entry, Leg leg)
        {
            PersonId who = walker.Person.Id;
            Site site = SiteOf(leg);
            bool wanted = Wanted(walker, entry);
            if (leg.Footing == Footing.Arm)
            {
                if (walker.Riding!.Pose != site.Pose && !Comes(wanted, RideName(walker, site.Pose!.Value))) return;
                if (RideTo(walker, site.Pose!.Value, leg.Id) is { } ride) ridesTo[leg.Id] = ride;
                walker.Riding?.Since.Add(leg.Id);
            }
            if (leg is { Footing: Footing.Restraint, Socket: { } socket } && walker.Socket != socket)
            {
                if (!Comes(wanted, EnterName(walker, socket))) return;
                Then(walker, EnterName(walker, socket), leg.Id, scenario.Handling.Enter.Time.Seconds, "enter", times => new EnterRestraint
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Socket = socket, For = leg.Id });
                walker.Socket = socket;
            }
            IEnumerable<PetInterval> atSite = site.Grip is { } grip ? walker.Lines!.Zones.ClosedAt(expander.graph.IndexOf(grip)) : [];
            Closings closed = Closings.Of(scenario, leg, atSite);
            string waitsFor = leg.Light switch { LightCondition.Day => "day", LightCondition.Night => "night", _ => leg.NeedsLink ? "a link" : "the zone is open" };
            // Whoever goes in early does not stay out for a wish.
            int notBefore = detour is { Ends: true } ? int.MinValue : Math.Max(entry.Pins.At?.Seconds ?? int.MinValue, entry.Pins.NotBefore?.Seconds ?? int.MinValue);

            Part PartOf((Step Step, int Seconds, Leaving? LeftBy) done) => new(new($"{leg.Id}.{done.Step.Id}"), done.Seconds, times => new DoStep
            { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Leg = leg.Id, Step = done.Step.Id, LeftBy = done.LeftBy, For = leg.Id });
            IEnumerable<IEnumerable<Step>> pieces = leg.MayWait ? leg.Steps.Select(step => new[] { step }) : [leg.Steps];
            List<EventNode> nodes = [];
            List<Step> whole = [];
            foreach (IEnumerable<Step> piece in pieces)
            {
                // A leg not wanted any more is begun no further; one under way is left where it is.
                if (!Comes(wanted, LegName(walker, leg.Id))) break;
                ImmutableArray<(Step Step, int Seconds, Leaving? LeftBy)> done = [.. StepsOf(leg, piece, events.PastStart(LegName(walker, leg.Id)))];
                nodes.Add(Chain(walker, events.Add(new()
                {
                    Name = LegName(walker, leg.Id),
                    Parts = [.. done.Select(PartOf)],
                    Closed = closed,
                    WaitsFor = waitsFor,
                    NotBefore = nodes.Count == 0 ? notBefore : int.MinValue,
                })));
                whole.AddRange(done.Where(one => one.LeftBy is null).Select(one => one.Step));
            }
            if (nodes.Count == 0) return;
            legNodes[leg.Id] = nodes;
            if (walker.Arrival is { } arrival) arrivals[leg.Id] = arrival;
            bool Done(GearId gear) => whole.Count == leg.Steps.Length || whole.Any(step => step.Makes.OfType<MoveGear>().Any(move => move.Gear == gear));
            foreach (GearId gear in leg.PicksUp.Where(Done)) Begin(walker, gear, nodes[^1]);
            foreach (GearId gear in leg.LeavesBehind.Where(Done)) EndStretch(walker, gear, nodes[^1]);
        }

        private void Mount(Walker walker, MountEntry entry)
        {
            Arm arm = scenario.Arms.First(candidate => candidate.Id == entry.Arm);
            PersonId who = walker.Person.Id;
            if (arm.Mounts.FirstOrDefault(candidate => candidate.Grip == entry.At) is not { } mount)
            {
                Fail("outline.arm", $"nobody can get onto {arm.Id} at {entry.At}", $"use one of {string.Join(", ", arm.Mounts.Select(candidate => candidate.Grip))}");
                return;
            }
            EventNode node = Then(walker, NameOf(walker, entry), entry.For, arm.Mount.Time.Seconds, "mount", times => new MountArm
            { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Arm = arm.Id, At = entry.At, Hooks = HooksIn(times), For = entry.For });
            walker.Riding = new(who, arm, mount, node);
            walker.Arrival = node;
            if (!armStretches.TryGetValue(arm.Id, out List<ArmStretch>? stretches)) armStretches[arm.Id] = stretches = [];
            stretches.Add(walker.Riding);
        }

        /// <summary>The ride to a pose; null when the arm is there.</summary>
        private EventNode? RideTo(Walker walker, PoseId pose, LegId? forLeg)
        {
            ArmStretch riding = walker.Riding!;
            if (riding.Pose == pose) return null;
            if (RideSeconds(riding.Arm, riding.Pose, pose) is not { } seconds)
            {
                Fail("outline.arm", $"{riding.Arm.Id} has no ride from {riding.Pose} to {pose}", "add it to the arm's rides, or change the order");
                return null;
            }
            PoseId from = riding.Pose;
            PersonId who = walker.Person.Id;
            RideStarts starts = RideStarts.Of(scenario, walker.Lines!.Zones, expander.graph, riding.Arm, riding.Arm.RideBetween(from, pose)!);
            riding.Last = Chain(walker, events.Add(new()
            {
                Name = RideName(walker, pose),
                Parts = [new(NewId(who.Value, "ride"), seconds, Ride)],
                NextDeparture = starts.Any ? starts.Next : null,
                WaitsFor = "voice, and all that the ride passes open",
            }));
            foreach (LegId left in riding.Since) ridesFrom[left] = riding.Last;
            riding.Since.Clear();
            riding.Pose = pose;
            walker.Arrival = riding.Last;
            return riding.Last;

            ArmMove Ride(ActivityTimes times) => new()
            { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Arm = riding.Arm.Id, From = from, To = pose, Rider = who, BrakesSet = riding.Arm.Brakes is not null, For = forLeg };
        }

        private static int? RideSeconds(Arm arm, PoseId from, PoseId to) => arm.RideBetween(from, to) is { } ride ? arm.TimeOf(ride).Seconds : null;

        private void Dismount(Walker walker, DismountEntry entry)
        {
            PersonId who = walker.Person.Id;
            if (walker.Riding is not { } riding || riding.Arm.Id != entry.Arm || riding.Mount.Grip != entry.At)
            {
                Fail("outline.arm", walker.Riding is { } on
                    ? $"{who} got onto {on.Arm.Id} at {on.Mount.Grip}, where the tether reel waits, and gets off {entry.Arm} at {entry.At}"
                    : $"{who} gets off {entry.Arm} without being on it", "get off where the reel waits");
                return;
            }
            // From an ingress the arm is left in any case.
            bool wanted = entry.For is null || Wanted(walker, entry);
            if (riding.Pose != riding.Mount.Pose && !Comes(wanted, RideName(walker, riding.Mount.Pose))) return;
            RideTo(walker, riding.Mount.Pose, entry.For);
            if (!Comes(wanted, NameOf(walker, entry))) return;
            riding.Last = Then(walker, NameOf(walker, entry), entry.For, riding.Arm.Dismount.Time.Seconds, "dismount", times => new DismountArm
            { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Person = who, Arm = riding.Arm.Id, At = entry.At, Hooks = HooksIn(times), For = entry.For });
            walker.Arrival = riding.Last;
            walker.Riding = null;
        }

        private void Meet(Walker walker, MeetEntry entry)
        {
            PersonId who = walker.Person.Id;
            if (!meetings.TryGetValue(entry.Id, out Meeting? meeting))
            {
                meetings[entry.Id] = meeting = new(entry.At);
                foreach (PersonOutline list in outline.People)
                    foreach (MeetEntry part in EntriesOf(list.Person).OfType<MeetEntry>().Where(part => part.Id == entry.Id))
                        meeting.Gifts.AddRange(part.Gives.Select(gift => (list.Person, gift)));
                meeting.Node = events.Add(new()
                {
                    Name = $"meeting {entry.Id}",
                    Parts = [.. meeting.Gifts.Select(gift => new Part(NewId(gift.From.Value, "give"), scenario.Handling.Give.Time.Seconds, times => new Give
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, From = gift.From, To = gift.Gift.To, Gear = gift.Gift.Gear, Carry = gift.Gift.Carry, At = entry.At, For = entry.For }))],
                });
            }
            if (meeting.Gifts.Count == 0) Fail("outline.meeting", $"nothing is handed over in meeting {entry.Id}", "name what is given, or leave the meeting out");
            if (meeting.At != entry.At) Fail("outline.meeting", $"meeting {entry.Id} is at {meeting.At} in one list and at {entry.At} in {who}'s", "write one place");
            meeting.People.Add(who);
            Chain(walker, meeting.Node!);
            foreach ((PersonId from, Gift gift) in meeting.Gifts)
            {
                if (from == who) EndStretch(walker, gift.Gear, meeting.Node!);
                if (gift.To == who) Begin(walker, gift.Gear, meeting.Node!);
            }
        }

        private IEnumerable<Entry> EntriesOf(PersonId who)
        {
            IEnumerable<Entry> Of(IEnumerable<PersonOutline>? lists) => lists?.Where(list => list.Person == who).SelectMany(list => list.Entries) ?? [];
            return Of(outline.People).Concat(Of(takesThen ? outline.Decision?.Then : outline.Decision?.Else));
        }

        private void AddAirlocksOut()
        {
            foreach (Airlock airlock in scenario.Station.Airlocks)
            {
                List<Walker> out_ = [.. airlock.Order.Where(id => walkers.ContainsKey(id) && EntriesOf(id).OfType<EgressEntry>().Any(entry => entry.Airlock == airlock.Id)).Select(id => walkers[id])];
                if (out_.Count == 0) continue;
                EventNode? last = null;
                foreach (Walker walker in out_)
                {
                    walker.Airlock = airlock;
                    walker.Lines = expander.LinesOf(walker.Person, airlock);
                    walker.Line = walker.Lines.Book.Root;
                    last = walker.Arrival = Phase(airlock, AirlockPhaseKind.Out, [walker], airlock.OutEach, last);
                    if (walker == out_[0]) last = Phase(airlock, AirlockPhaseKind.BagsOut, [walker], airlock.OutBags, last);
                }
                Phase(airlock, AirlockPhaseKind.Check, out_, airlock.OutCheck, last);
            }
        }

        /// <summary>Nobody goes in while somebody is still on the way to a hatch, and no hatch is closed before everybody is in.</summary>
        private void AddAirlocksIn()
        {
            List<(Airlock Airlock, List<Walker> Back)> used = [];
            foreach (Airlock airlock in scenario.Station.Airlocks)
            {
                List<Walker> back = [.. airlock.Order.Where(id => walkers.TryGetValue(id, out Walker? walker) && walker.CameIn
                    && EntriesOf(id).OfType<IngressEntry>().Any(entry => entry.Airlock == airlock.Id)).Select(id => walkers[id]).Reverse()];
                if (back.Count > 0) used.Add((airlock, back));
            }
            List<EventNode> arrivals = [.. used.SelectMany(one => one.Back).Select(walker => walker.Last!)], lastIn = [];
            foreach ((Airlock airlock, List<Walker> back) in used)
            {
                EventNode last = Phase(airlock, AirlockPhaseKind.Inventory, back, airlock.Inventory, null);
                if (used.Count > 1)
                    foreach (EventNode arrival in arrivals) events.Follow(arrival, last, "everybody is at a hatch");
                last = Phase(airlock, AirlockPhaseKind.BagsIn, back, airlock.InBags, last);
                foreach (Walker walker in back) last = Phase(airlock, AirlockPhaseKind.In, [walker], airlock.InEach, last);
                lastIn.Add(last);
            }
            for (int i = 0; i < used.Count; i++)
            {
                EventNode close = Phase(used[i].Airlock, AirlockPhaseKind.Close, used[i].Back, used[i].Airlock.Close, lastIn[i]);
                foreach (EventNode other in lastIn)
                    if (other != lastIn[i]) events.Follow(other, close, "everybody is in");
            }
        }

        private EventNode Phase(Airlock airlock, AirlockPhaseKind kind, IReadOnlyList<Walker> who, Duration time, EventNode? before)
        {
            ImmutableArray<PersonId> people = [.. who.Select(walker => walker.Person.Id)];
            string verb = kind.ToString().ToLowerInvariant();
            EventNode node = events.Add(new()
            {
                Name = $"{airlock.Id}: {verb} ({string.Join(", ", people)})",
                Parts = [new(NewId(people[0].Value, verb), time.Seconds, times => new AirlockPhase
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Airlock = airlock.Id, Phase = kind, Who = people })],
            });
            foreach (Walker walker in who)
            {
                Chain(walker, node);
                if (kind == AirlockPhaseKind.Close) walker.Close = node;
            }
            events.Follow(before, node, "the hatch is free");
            return node;
        }

        private CommandId OnOf(ShutdownId id) => scenario.Consoles.SelectMany(console => console.Shutdowns).First(shutdown => shutdown.Id == id).On;

        private void AddGround()
        {
            Dictionary<ConsoleId, EventNode> lastOf = [];
            List<EventNode> needLink = [], restoreLink = [];
            HashSet<ShutdownId> off = [];
            HashSet<CommandId> cutting = [.. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.CutsLink).Select(shutdown => shutdown.Off)];
            HashSet<CommandId> restoring = [.. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.CutsLink).Select(shutdown => shutdown.On)];
            foreach (GroundEntry entry in outline.Ground)
            {
                GroundConsole console = scenario.Consoles.First(candidate => candidate.Commands.Any(command => command.Id == entry.Do));
                Command command = console.Commands.First(candidate => candidate.Id == entry.Do);
                string name = $"{console.Id}: {command.Id}";
                bool sent = events.PastStart(name) is not null, restores = RestoresNow(entry, off);
                bool lacksLeg = (entry.After is { } earlier && !legNodes.ContainsKey(earlier)) || (entry.Before is { } later && !legNodes.ContainsKey(later));
                // A command for a leg that the branch taken leaves out falls away with it, save what was sent already and what ends that.
                if (!sent && !restores && (lacksLeg || detour is { Ends: true })) continue;
                NoteOff(entry, off);
                EventNode node = events.Add(new()
                {
                    Name = name,
                    Parts = [new(NewId(console.Id.Value, "command"), command.Time.Seconds, times => new SendCommand
                    { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Console = console.Id, Command = command.Id, For = entry.Before ?? entry.After })],
                    Closed = command.NeedsLink ? Closings.Join(scenario.Sky.NoLink) : Closings.None,
                    WaitsFor = "a link",
                    Late = entry.Late,
                });
                events.Follow(lastOf.GetValueOrDefault(console.Id), node, "the console is free");
                if (entry.After is { } after && legNodes.TryGetValue(after, out List<EventNode>? done)) events.Follow(done[^1], node, $"{after} is done");
                if (entry.Before is { } before && legNodes.TryGetValue(before, out List<EventNode>? waits))
                {
                    int wait = expander.waits.GetValueOrDefault(command.Id);
                    events.Follow(node, waits[0], wait > 0 ? $"{command.Id} has bled down" : $"the GO for {command.Id}", wait);
                    ReadGo(node, command, before);
                }
                if (HazardCommands.Guards(scenario, command))
                {
                    // What makes a ride safe comes before it, and what ends that comes after the ride away.
                    if (entry.Before is { } to && ridesTo.TryGetValue(to, out EventNode? there)) events.Follow(node, there, $"the GO for {command.Id}");
                    if (entry.After is { } left && ridesFrom.TryGetValue(left, out EventNode? away)) events.Follow(away, node, $"the ride away from {left} is over");
                }
                if (restores && detour is { Ends: true })
                    foreach (LegId leg in legNodes.Keys.Where(id => LegOf(id).Shutdowns.Any(shutdown => OnOf(shutdown) == command.Id)))
                        events.Follow(legNodes[leg][^1], node, $"{leg} is ended");
                if (restores && detour is { Ends: true } && HazardCommands.Guards(scenario, command))
                    foreach ((LegId leg, EventNode away) in ridesFrom.Where(ride => LegOf(ride.Key).Shutdowns.Any(shutdown => OnOf(shutdown) == command.Id)))
                        events.Follow(away, node, $"the ride away from {leg} is over");
                lastOf[console.Id] = node;
                // Of commands that need the link, those listed before one that cuts it are seen before it is lost, the others after it is back.
                if (cutting.Contains(command.Id))
                    foreach (EventNode seen in needLink) events.Connect(seen, node, seen.Seconds - node.Seconds, "the link is no longer needed");
                if (command.NeedsLink)
                {
                    foreach (EventNode back in restoreLink) events.Follow(back, node, "the link is back");
                    needLink.Add(node);
                }
                if (restoring.Contains(command.Id)) restoreLink.Add(node);
            }
        }

        /// <summary>A GO is read once everybody who needs it has come to where the leg is done, and once the legs before it have changed what it covers.</summary>
        private void ReadGo(EventNode node, Command command, LegId before)
        {
            int beforeReading = node.Seconds - (command.Go?.Seconds ?? 0);
            Leg leg = LegOf(before);
            IEnumerable<Leg> beginning = leg.Together.Length == 0 ? [leg] : scenario.Legs.Where(other => other.Job == leg.Job && other.Together == leg.Together);
            foreach (Leg needs in beginning.Where(one => legNodes.ContainsKey(one.Id) && one.Steps.Any(step => step.Needs.OfType<NeedGo>().Any(need => need.Command == command.Id))))
            {
                if (arrivals.TryGetValue(needs.Id, out EventNode? arrival)) events.Connect(arrival, node, arrival.Seconds - beforeReading, "the person is there");
                foreach (LegId earlier in GoCase.Before(scenario, needs))
                    if (legNodes.TryGetValue(earlier, out List<EventNode>? done) && LegOf(earlier).Steps.SelectMany(step => step.Makes).OfType<MakeFeature>().Any(make => command.Covers.Contains(make.State.Feature)))
                        events.Connect(done[^1], node, done[^1].Seconds - beforeReading, $"{earlier} is done");
            }
        }
    }
}
