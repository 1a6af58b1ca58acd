using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>Reads an outline and its timeline back into what is done and when, as a decode would tell it.</summary>
internal sealed class OutlineDeeds(SearchCase all, StationGraph graph, Timeline timeline)
{
    /// <summary>What is done, in order of time, each with how many entries of its list stand up to it; or what of it search cannot take up, in words.</summary>
    public (List<(Deed Deed, int Entries)> Deeds, string? Why) Read(ImmutableArray<PersonOutline> lists)
    {
        List<(int Start, (Deed, int)[] Deeds)> found = [];
        Dictionary<string, (Deed Deed, int Entries)> receiving = [];
        List<(int Start, Deed Gives, int Entries, string Meeting)> giving = [];
        for (int p = 0; p < all.People.Length; p++)
        {
            ImmutableArray<Entry> entries = Branches.EntriesOf(lists, all.People[p].Id);
            Queue<Activity> own = new(timeline.Activities.Where(activity => activity.People.Contains(all.People[p].Id)).OrderBy(activity => activity.Start));
            int here = all.Root[p], arm = -1, pose = -1;
            for (int i = 0; i < entries.Length; i++)
            {
                Entry entry = entries[i];
                if (entry is EgressEntry or IngressEntry or WaitEntry) continue;
                Leg? leg = entry is LegEntry known ? all.Legs[all.LegIndex[known.Leg]] : null;
                if (EntryPlaces.Of(all.Scenario, entry, leg) is { } grip)
                {
                    if (MooringAt(p, here, grip, entry.Way) is not { } mooring) return ([], $"{all.People[p].Id} comes to {grip} along a line that search does not know");
                    here = mooring;
                }
                int parcel = entry switch
                {
                    TakeEntry take => Parcel(take.Gear),
                    PutEntry put => Parcel(put.Gear),
                    PlugEntry plug => Parcel(plug.Restraint),
                    UnplugEntry unplug => Parcel(unplug.Restraint),
                    _ => -1,
                };
                int serves = entry.For is { } of && all.LegIndex.TryGetValue(of, out int index) ? index : -1;
                switch (entry)
                {
                    case TakeEntry take when Next<Take>() is { } at:
                        Add(new(Did.Take, p, parcel, here, Point(p, take.Carry), -1, serves, at));
                        break;
                    case PutEntry when Next<Put>() is { } at:
                        Add(new(Did.Put, p, parcel, here, -1, -1, serves, at));
                        break;
                    case PlugEntry when Next<Plug>() is { } at && serves >= 0:
                        Add(new(Did.Plug, p, parcel, here, -1, -1, serves, at));
                        break;
                    case UnplugEntry unplug when Next<Unplug>() is { } at:
                        Add(new(Did.Unplug, p, parcel, here, Point(p, unplug.Carry), SocketIndex(unplug.Socket), serves, at));
                        break;
                    case MeetEntry { Gives: [] } meet when Next<Give>() is { } at:
                        receiving[meet.Id] = (new(Did.Give, p, -1, here, -1, -1, serves, at), i + 1);
                        break;
                    case MeetEntry { Gives: [var gift] } meet when Next<Give>() is { } at:
                        int to = all.People.IndexOf(all.People.First(person => person.Id == gift.To));
                        giving.Add((at, new(Did.Give, p, Parcel(gift.Gear), here, Point(to, gift.Carry), to, serves, at), i + 1, meet.Id));
                        break;
                    case MountEntry mount when Next<MountArm>() is { } at:
                        arm = all.Scenario.Arms.IndexOf(all.Scenario.Arms.First(one => one.Id == mount.Arm));
                        int which = Array.FindIndex(all.ArmData[arm].MountPlaces, one => all.Places[one] == mount.At);
                        pose = all.ArmData[arm].MountPoses[which];
                        Add(new(Did.Mount, p, arm, here, -1, which, serves, at));
                        break;
                    case DismountEntry when arm >= 0 && Next<DismountArm>() is { } at:
                        Add(new(Did.Dismount, p, arm, here, -1, -1, serves, at));
                        arm = -1;
                        break;
                    case CheckEntry when Next<CheckGloves>() is { } at:
                        Add(new(Did.Check, p, -1, -1, -1, -1, serves, at));
                        break;
                    case RestEntry when Next<Rest>() is { } at:
                        Add(new(Did.Rest, p, -1, -1, -1, -1, serves, at));
                        break;
                    case LegEntry:
                        LegData data = all.Data[all.LegIndex[leg!.Id]];
                        if (data.Arm >= 0 && data.Pose != pose)
                        {
                            PoseId wanted = all.ArmData[data.Arm].Arm.Poses[data.Pose].Id;
                            while (own.Count > 0 && !(own.Peek() is ArmMove move && move.To == wanted)) own.Dequeue();
                            if (own.Count == 0) return ([], $"{all.People[p].Id} rides to {wanted} in no single ride");
                            pose = data.Pose;
                            Add(new(Did.Ride, p, data.Arm, -1, -1, pose, all.LegIndex[leg.Id], own.Dequeue().Start.Seconds));
                        }
                        while (own.Count > 0 && !(own.Peek() is DoStep step && step.Leg == leg.Id)) own.Dequeue();
                        if (own.Count == 0) return ([], $"{leg.Id} is begun by nobody");
                        StepId? led = data is { Leg.MayWait: true, Voice: { } voice } ? leg.Steps[voice.First].Id : null;
                        int ledFrom = own.OfType<DoStep>().FirstOrDefault(step => step.Leg == leg.Id && step.Step == led)?.Start.Seconds ?? 0;
                        Add(new(Did.Leg, p, -1, data.Arm >= 0 ? -1 : here, -1, -1, all.LegIndex[leg.Id], own.Dequeue().Start.Seconds) { LedFrom = ledFrom });
                        break;
                    default:
                        return ([], $"entry {i + 1} of {all.People[p].Id} is none that search makes");
                }

                void Add(Deed deed) => found.Add((deed.Start, [(deed, i + 1)]));
            }

            // The start of the next activity of a kind; what stands before it serves entries before.
            int? Next<T>() where T : Activity
            {
                while (own.Count > 0 && own.Peek() is not T) own.Dequeue();
                return own.Count > 0 ? own.Dequeue().Start.Seconds : null;
            }
        }
        foreach ((int start, Deed gives, int count, string meeting) in giving)
        {
            if (!receiving.TryGetValue(meeting, out (Deed Deed, int Entries) receives)) return ([], $"nobody receives at {meeting}");
            found.Add((start, [(gives, count), (receives.Deed with { Parcel = gives.Parcel, Point = gives.Point }, receives.Entries)]));
        }
        return ([.. found.OrderBy(one => one.Start).SelectMany(one => one.Deeds)], null);
    }

    /// <summary>The mooring that a way leads to: the same place, the standard line of the anchor, or the one that the grips walked tell.</summary>
    private int? MooringAt(int p, int from, GripId grip, Way way)
    {
        IReadOnlyList<Mooring> moorings = all.Tables[p].Moorings;
        int[] there = all.At[p][all.PlaceIndex[grip]];
        bool Anchored(int m) => way.Anchor is not { } named || graph.GripAt(moorings[m].Line.Anchor).Id == named;
        if (way.Grips.IsEmpty)
        {
            if (there.Contains(from) && Anchored(from)) return from;
            int standard = Array.FindIndex(there, m => moorings[m].Standard && Anchored(m));
            return standard < 0 ? null : there[standard];
        }
        LineBook book = all.Lines[p].Book;
        foreach (int m in there)
            if (Anchored(m) && way.Grips.SequenceEqual(book.Between(moorings[from].Line, moorings[m].Line, 1).Where(piece => !piece.IsSwap)
                .Select(piece => graph.GripAt(piece.To).Id).Prepend(graph.GripAt(moorings[from].Line.Grip).Id))) return m;
        return null;
    }

    private int Parcel(GearId gear) => all.GearIndex.GetValueOrDefault(gear, -1);

    private int SocketIndex(SocketId socket) => all.Scenario.Station.Sockets.IndexOf(all.Scenario.Station.Sockets.First(one => one.Id == socket));

    private int Point(int p, CarryPointId carry) => all.People[p].CarryPoints.IndexOf(all.People[p].CarryPoints.First(point => point.Id == carry));
}
