using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>Writes a decoded plan down as an outline: complete, with every bag move, meeting and session in it.</summary>
/// <param name="all">The scenario by index.</param>
/// <param name="graph">The station.</param>
/// <param name="byHand">Legs that a person pinned: their pins stay on them.</param>
internal sealed class OutlineBuilder(SearchCase all, StationGraph graph, IReadOnlyDictionary<LegId, LegEntry> byHand)
{
    private readonly Scenario scenario = all.Scenario;

    public Outline Build(IReadOnlyList<Deed> deeds, IReadOnlyList<(int Start, GroundEntry Entry)> commands, ImmutableArray<VoiceOutline> voices, MadeBy made, ImmutableArray<LeftOut> leftOut)
    {
        List<Entry>[] entries = [.. all.People.Select(_ => new List<Entry>())];
        Dictionary<int, List<int>> hands = [];
        List<ArmSessionUnderWay>[] sessions = [.. all.ArmData.Select(_ => new List<ArmSessionUnderWay>())];
        int[] at = [.. all.Root];
        int meetings = 0;
        HashSet<string> past = [.. all.SoFar?.Entries.SelectMany(own => own).OfType<MeetEntry>().Select(meet => meet.Id) ?? []];
        for (int p = 0; p < all.People.Length; p++) entries[p].Add(new EgressEntry(AirlockOf(p)));

        for (int i = 0; i < deeds.Count; i++)
        {
            Deed deed = deeds[i];
            int p = deed.Person;
            Way way = deed.Mooring >= 0 ? WayOf(p, at[p], deed.Mooring) : Way.Auto;
            if (deed.Mooring >= 0) at[p] = deed.Mooring;
            LegId? serves = deed.For >= 0 ? all.Legs[deed.For].Id : null;
            GripId here = deed.Mooring >= 0 ? all.Places[all.PlaceOfMooring[p][deed.Mooring]] : default;
            switch (deed.What)
            {
                case Did.Take:
                    entries[p].Add(new TakeEntry(GearOf(deed), here, PointOf(p, deed), way, serves, false));
                    Carries(deed.Parcel, p);
                    break;
                case Did.Unplug:
                    entries[p].Add(new UnplugEntry(GearOf(deed), scenario.Station.Sockets[deed.Other].Id, PointOf(p, deed), way, serves, false));
                    Carries(deed.Parcel, p);
                    break;
                case Did.Put:
                    entries[p].Add(new PutEntry(GearOf(deed), here, way, serves, false));
                    break;
                case Did.Plug:
                    entries[p].Add(new PlugEntry(GearOf(deed), all.Legs[deed.For].Socket!.Value, all.Legs[deed.For].Setting ?? "", way, serves, false));
                    break;
                case Did.Give when deed.Other >= 0:
                    while (past.Contains($"m{++meetings}")) { }
                    string id = $"m{meetings}";
                    entries[p].Add(new MeetEntry(id, here, [all.People[deed.Other].Id], [new(GearOf(deed), all.People[deed.Other].Id, PointOf(deed.Other, deed))], way, serves, false));
                    Carries(deed.Parcel, deed.Other);
                    Deed receives = deeds[++i];
                    entries[receives.Person].Add(new MeetEntry(id, here, [all.People[p].Id], [], WayOf(receives.Person, at[receives.Person], receives.Mooring), serves, false));
                    at[receives.Person] = receives.Mooring;
                    break;
                case Did.Mount:
                    entries[p].Add(new MountEntry(all.ArmData[deed.Parcel].Arm.Id, here, way, serves, false));
                    sessions[deed.Parcel].Add(new(p, here));
                    break;
                case Did.Ride:
                    sessions[deed.Parcel][^1].Poses.Add(all.ArmData[deed.Parcel].Arm.Poses[deed.Other].Id);
                    break;
                case Did.Dismount:
                    entries[p].Add(new DismountEntry(all.ArmData[deed.Parcel].Arm.Id, here, serves, false));
                    break;
                case Did.Check:
                    entries[p].Add(new CheckEntry(serves, false));
                    break;
                case Did.Rest:
                    entries[p].Add(new RestEntry(scenario.Checks!.Rest!.Least, serves, false));
                    break;
                case Did.Leg:
                    Leg leg = all.Legs[deed.For];
                    LegEntry? pinned = byHand.GetValueOrDefault(leg.Id);
                    entries[p].Add(new LegEntry(leg.Id, pinned?.Pins ?? Pins.None, way, pinned?.ByHand ?? false));
                    foreach (GearId gear in leg.PicksUp) Carries(all.GearIndex[gear], p);
                    break;
            }
        }
        if (all.SoFar is { } soFar)
            for (int p = 0; p < all.People.Length; p++)
            {
                // A ride stands in no entry of its own.
                entries[p].RemoveRange(0, 1 + soFar.Deeds.Count(deed => deed.Person == p && deed.What != Did.Ride));
                entries[p].InsertRange(0, soFar.Entries[p]);
            }
        for (int p = 0; p < all.People.Length; p++) entries[p].Add(new IngressEntry(AirlockOf(p), WayOf(p, at[p], all.Root[p])));

        return new(
            scenario.Id, scenario.Digest, made,
            [.. all.People.Select((person, p) => new PersonOutline(person.Id, [.. entries[p]]))],
            [.. hands.Where(pair => pair.Value.Distinct().Count() > 1).OrderBy(pair => pair.Key)
                .Select(pair => new HandsOutline(all.Parcels[pair.Key].Gear.Id, [.. pair.Value.Select(p => all.People[p].Id)]))],
            [.. all.ArmData.Select((arm, a) => new ArmOutline(arm.Arm.Id, [.. sessions[a].Select(session =>
                new ArmSession(all.People[session.Rider].Id, session.Mount, [.. session.Poses], session.Mount))])).Where(arm => !arm.Sessions.IsEmpty)],
            [.. commands.OrderBy(command => command.Start).Select(command => command.Entry)],
            null, leftOut)
        { Voice = voices };

        void Carries(int parcel, int p)
        {
            if (!hands.TryGetValue(parcel, out List<int>? holders)) hands[parcel] = holders = [];
            holders.Add(p);
        }
    }

    private sealed record ArmSessionUnderWay(int Rider, GripId Mount)
    {
        public List<PoseId> Poses { get; } = [];
    }

    private AirlockId AirlockOf(int p) => scenario.Station.Airlocks[all.Airlocks[p]].Id;

    private GearId GearOf(Deed deed) => all.Parcels[deed.Parcel].Gear.Id;

    private CarryPointId PointOf(int p, Deed deed) => all.People[p].CarryPoints[deed.Point].Id;

    private Way WayOf(int p, int from, int to)
    {
        IReadOnlyList<Mooring> moorings = all.Tables[p].Moorings;
        TetherLine line = moorings[to].Line;
        GripId anchor = graph.GripAt(line.Anchor).Id;
        if (from == to || moorings[to].Standard) return new([], anchor);
        LineBook book = all.Lines[p].Book;
        ImmutableArray<WayPiece> pieces = book.Between(moorings[from].Line, line, 1);
        return new([.. pieces.Where(piece => !piece.IsSwap).Select(piece => graph.GripAt(piece.To).Id).Prepend(graph.GripAt(moorings[from].Line.Grip).Id)], anchor);
    }
}
