using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

public sealed partial class Expander
{
    /// <summary>The order on what people share, and the activities that come out of it.</summary>
    private sealed partial class Builder
    {
        private void ConnectMeetings()
        {
            foreach ((string id, Meeting meeting) in meetings)
                foreach ((PersonId from, Gift gift) in meeting.Gifts)
                    foreach (PersonId missing in new[] { from, gift.To }.Where(person => !meeting.People.Contains(person)))
                        Fail("outline.meeting", $"meeting {id} is not in the list of {missing}", $"write it there too, with the same name");
        }

        private void ConnectArms()
        {
            foreach (ArmId id in armStretches.Keys.Union(outline.Arms.Select(arm => arm.Arm)).ToList())
            {
                Arm arm = scenario.Arms.First(candidate => candidate.Id == id);
                ImmutableArray<ArmSession> sessions = outline.Arms.FirstOrDefault(one => one.Arm == id)?.Sessions ?? [];
                List<ArmStretch> left = [.. armStretches.GetValueOrDefault(id) ?? []];
                List<(ArmStretch? Stretch, PoseId Mount)> ordered = [];
                foreach (ArmSession session in sessions)
                    if (left.Find(stretch => stretch.Rider == session.Rider && stretch.Mount.Grip == session.Mount) is { } next)
                    {
                        ordered.Add((next, next.Mount.Pose));
                        left.Remove(next);
                    }
                    else if (arm.Mounts.FirstOrDefault(mount => mount.Grip == session.Mount) is { } mount) ordered.Add((null, mount.Pose));
                if (left.Count > 0 && left.Concat(ordered.Select(one => one.Stretch).OfType<ArmStretch>()).Select(stretch => stretch.Rider).Distinct().Count() > 1)
                    Fail("outline.arm", $"the order of the sessions on {id} is not stated for {string.Join(", ", left.Select(stretch => stretch.Rider).Distinct())}", $"list them under arms: {id}:");
                ordered.AddRange(left.Select(stretch => ((ArmStretch?)stretch, stretch.Mount.Pose)));

                PoseId pose = arm.Start;
                EventNode? last = null;
                foreach ((ArmStretch? stretch, PoseId mount) in ordered)
                {
                    // For a session that never comes the arm stays, unless it is on its way there already.
                    if (stretch is null && events.PastStart(EmptyName(arm, mount)) is null) continue;
                    if (pose != mount) last = MoveEmpty(arm, pose, mount, last);
                    pose = stretch?.Pose ?? mount;
                    if (stretch is null) continue;
                    events.Follow(last, stretch.First, $"{id} is free");
                    last = stretch.Last;
                }
            }
        }

        private static string EmptyName(Arm arm, PoseId to) => $"{arm.Id}: empty to {to}";

        private EventNode? MoveEmpty(Arm arm, PoseId from, PoseId to, EventNode? last)
        {
            if (RideSeconds(arm, from, to) is not { } seconds)
            {
                Fail("outline.arm", $"{arm.Id} has no ride from {from} to {to}", "add it to the arm's rides");
                return last;
            }
            EventNode node = events.Add(new()
            {
                Name = EmptyName(arm, to),
                Parts = [new(NewId(arm.Id.Value, "empty"), seconds, times => new ArmMove
                { Id = times.Id, Start = times.Start, End = times.End, After = times.After, Arm = arm.Id, From = from, To = to, BrakesSet = arm.Brakes is not null })],
            });
            events.Follow(last, node, $"{arm.Id} is free");
            return node;
        }

        private void ConnectHands()
        {
            foreach ((GearId gear, List<CarryStretch> stretches) in carried)
            {
                if (stretches.Select(stretch => stretch.Holder).Distinct().Count() < 2) continue;
                ImmutableArray<PersonId> holders = outline.Hands.FirstOrDefault(hands => hands.Gear == gear)?.Holders ?? [];
                List<CarryStretch> left = [.. stretches];
                CarryStretch? before = null;
                foreach (PersonId holder in holders)
                {
                    if (left.Find(stretch => stretch.Holder == holder) is not { } next) continue;
                    left.Remove(next);
                    if (before?.To is { } ended && ended != next.From) events.Follow(ended, next.From, $"{before.Holder} has let go of {gear}");
                    else if (before is { To: null }) Fail("outline.hands", $"{before.Holder} never lets go of {gear}, which {next.Holder} carries next", "add a put or a meeting, or change hands:");
                    before = next;
                }
                if (left.Count > 0)
                    Fail("outline.hands", $"several people carry {gear}, and hands: does not say who after whom ({string.Join(", ", left.Select(stretch => stretch.Holder))} left over)",
                        $"list every stretch: hands: {{{gear}: [{string.Join(", ", stretches.Select(stretch => stretch.Holder))}]}}");
            }
        }

        private void ConnectLegs()
        {
            foreach ((LegId id, List<EventNode> nodes) in legNodes)
            {
                Leg leg = LegOf(id);
                foreach (Precedence precedence in leg.After)
                {
                    if (!legNodes.TryGetValue(precedence.Leg, out List<EventNode>? earlier)) continue;
                    events.Follow(earlier[^1], nodes[0], $"{precedence.Leg} is done", precedence.Least.Seconds);
                    if (precedence.Most is { } most) events.Connect(nodes[0], earlier[^1], -most.Seconds - earlier[^1].Seconds, $"{id} at most {most} later");
                }
                if (leg.Together.Length == 0) continue;
                foreach (Leg other in scenario.Legs.Where(other => other.Id != id && other.Job == leg.Job && other.Together == leg.Together))
                    if (legNodes.TryGetValue(other.Id, out List<EventNode>? partner)) events.Connect(partner[0], nodes[0], 0, $"{other.Id} can start too");
            }
            if (outline.Decision is { } decision && legNodes.TryGetValue(decision.After, out List<EventNode>? decided))
                foreach (EventNode tail in tailStarts)
                    if (tail != decided[0]) events.Follow(decided[^1], tail, "the decision");
        }

        private ImmutableArray<MissedPin> MissedPins()
        {
            ImmutableArray<MissedPin>.Builder missed = ImmutableArray.CreateBuilder<MissedPin>();
            foreach (LegEntry entry in outline.People.SelectMany(list => EntriesOf(list.Person)).OfType<LegEntry>())
            {
                if (!legNodes.TryGetValue(entry.Leg, out List<EventNode>? nodes)) continue;
                Pet got = Pet.FromSeconds(nodes[0].Start);
                if (entry.Pins.At is { } at && got != at) missed.Add(new(entry.Leg, $"starts at {at}", at, got));
                if (entry.Pins.NotAfter is { } latest && got > latest) missed.Add(new(entry.Leg, $"starts no later than {latest}", latest, got));
            }
            return missed.ToImmutable();
        }

        private ImmutableArray<Activity> Emit()
        {
            List<Activity> activities = [];
            Dictionary<PersonId, List<(EventNode Node, int From, int To)>> busy = walkers.Keys.ToDictionary(id => id, _ => new List<(EventNode, int, int)>());
            foreach (EventNode node in events.Nodes)
            {
                int at = node.Start;
                ImmutableArray<Dependency> after = WaitedFor(node);
                foreach (Part part in node.Parts)
                {
                    Activity activity = part.Make(new(part.Id, Pet.FromSeconds(at), Pet.FromSeconds(at + part.Seconds), after));
                    activities.Add(activity);
                    foreach (PersonId person in activity.People) busy[person].Add((node, at, at + part.Seconds));
                    at += part.Seconds;
                    after = [new(part.Id, Duration.FromSeconds(0), "next step of one piece")];
                }
            }
            foreach ((PersonId person, List<(EventNode Node, int From, int To)> spans) in busy) FillGaps(person, spans, activities);
            return [.. activities.OrderBy(activity => activity.Start).ThenBy(activity => activity.Id.Value, StringComparer.Ordinal)];
        }

        private ImmutableArray<Dependency> WaitedFor(EventNode node)
        {
            ImmutableArray<Dependency>.Builder after = ImmutableArray.CreateBuilder<Dependency>();
            int earliest = int.MinValue;
            List<EventNode> together = [node];
            foreach (EventEdge edge in node.In)
                if (!edge.Follows && edge.Lag == 0) together.Add(edge.From);
                else earliest = Math.Max(earliest, edge.From.Start + edge.Lag);
            // What starts at the same moment waits for all that its partner waits for.
            foreach (EventNode partner in together)
                foreach (EventEdge edge in partner.In.Where(edge => edge.Follows))
                {
                    earliest = Math.Max(earliest, edge.From.Start + edge.Lag);
                    string why = partner == node ? edge.Why : node.In.First(own => own.From == partner).Why;
                    (ActivityId ended, int lag) = edge.Within ?? (edge.From.Parts[^1].Id, edge.Lag - edge.From.Seconds);
                    after.Add(new(ended, Duration.FromSeconds(lag), why));
                }
            if (node.Start > earliest && node.Start > 0 && !node.Late)
            {
                EventNode waits = together.Find(one => one.NotBefore == node.Start || one.NextAllowed(Math.Max(earliest, 0)) == node.Start) ?? node;
                after.Add(new(null, Duration.FromSeconds(0), WhyLater(waits)));
            }
            return after.ToImmutable();
        }

        private string WhyLater(EventNode node) =>
            node.NotBefore == node.Start ? node.Start == detour?.Known ? "what happened is known" : "the pinned moment" : node.WaitsFor.Length > 0 ? node.WaitsFor : "as late as possible";

        private void FillGaps(PersonId person, List<(EventNode Node, int From, int To)> spans, List<Activity> activities)
        {
            Walker walker = walkers[person];
            if (walker.Airlock is not { } airlock) return;
            int at = 0, number = 0;
            bool outside = false;
            foreach ((EventNode node, int from, int to) in spans.OrderBy(span => span.From))
            {
                if (from > at)
                {
                    ActivityId id = new($"{person}.w{++number:00}");
                    (Pet start, Pet end) = (Pet.FromSeconds(at), Pet.FromSeconds(from));
                    bool closing = node == walker.Close;
                    activities.Add(!outside || closing
                        ? new AirlockPhase { Id = id, Start = start, End = end, Airlock = airlock.Id, Phase = closing ? AirlockPhaseKind.SafeInside : AirlockPhaseKind.WaitInside, Who = [person] }
                        : new Await { Id = id, Start = start, End = end, Person = person, Until = Reason(node, person) });
                }
                outside = true;
                at = Math.Max(at, to);
            }
        }

        private string Reason(EventNode node, PersonId person)
        {
            string own = $"{person} is ready";
            EventEdge? binding = node.In.FirstOrDefault(edge => edge.Why != own && edge.From.Start + edge.Lag == node.Start);
            return binding?.Why ?? WhyLater(node);
        }
    }
}
