using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Outlines of every shape that the test scenario allows, sensible or not: what a file can say, a file must keep.</summary>
internal static class Outlines
{
    private static Scenario Scenario => Folders.EveryKeyScenario;

    /// <summary>Texts with everything that could upset a file.</summary>
    public static Gen<string> Text { get; } = Gen.OneOf(
        Gen.String[1, 30].Select(text => "x" + string.Concat(text.EnumerateRunes().Where(rune => rune.Value != 0xFFFD).Select(rune => rune.ToString()))),
        Gen.Int[0, 14].Select(i => new[] { "no", "null", "~", "a: b", "a #b", "- a", "{a}", "'a'", "\"a\"", "a\\b", " a ", "a\nb", "é·…", "3:10", "*a" }[i]));

    public static Gen<Outline> All { get; } = Make();

    private static Gen<T> Of<T>(IEnumerable<T> values)
    {
        T[] all = [.. values];
        return Gen.Int[0, all.Length - 1].Select(i => all[i]);
    }

    private static Gen<T?> Maybe<T>(Gen<T> gen) where T : struct => Gen.Bool.SelectMany(some => some ? gen.Select(value => (T?)value) : Gen.Const((T?)null));

    private static Gen<ImmutableArray<T>> Some<T>(Gen<T> gen, int least, int most) => gen.Array[least, most].Select(items => items.ToImmutableArray());

    private static Gen<Outline> Make()
    {
        Gen<PersonId> people = Of(Scenario.Outside.Select(person => person.Id));
        Gen<LegId> legs = Of(Scenario.Legs.Select(leg => leg.Id));
        Gen<GripId> grips = Of(Scenario.Station.Grips.Select(grip => grip.Id));
        Gen<GearId> gear = Of(Scenario.Gear.Select(thing => thing.Id));
        Gen<PoseId> poses = Of(Scenario.Arms[0].Poses.Select(pose => pose.Id));
        Gen<Pet> moments = Gen.Int[-7200, 30000].Select(Pet.FromSeconds);
        Gen<MadeBy?> made = Gen.Bool.SelectMany(some => some ? Gen.Select(Gen.Int[0, 500], Gen.Int, (effort, seed) => (MadeBy?)new MadeBy(effort, seed)) : Gen.Const((MadeBy?)null));
        Gen<ImmutableArray<HandsOutline>> hands = Gen.Select(gear, Some(people, 0, 4), (thing, holders) => new HandsOutline(thing, holders)).Array[0, 3]
            .Select(all => all.DistinctBy(one => one.Gear).ToImmutableArray());
        Gen<ImmutableArray<ArmOutline>> arms = Some(Gen.Select(people, grips, Some(poses, 0, 3), grips, (rider, mount, worked, dismount) => new ArmSession(rider, mount, worked, dismount)), 0, 2)
            .Array[0, 1].Select(sessions => sessions.Select(all => new ArmOutline(Scenario.Arms[0].Id, all)).ToImmutableArray());
        Gen<ImmutableArray<GroundEntry>> ground = Some(Gen.Select(Of(Scenario.Consoles[0].Commands.Select(command => command.Id)), Maybe(legs), Maybe(legs), Gen.Bool, (command, after, before, late) => new GroundEntry(command, after, before, late)), 0, 4);
        // A leg stands once in the main lists and each branch: one shuffled order, cut in four.
        Gen<LegId[]> order = Gen.Shuffle(Scenario.Legs.Select(leg => leg.Id).ToArray());
        Gen<(Outline, Decision?)> walk = Gen.Select(order, Gen.Int[0, 4], Gen.Int[0, 4], Entries(people, legs, grips, gear, moments).Array[4], Gen.Bool).SelectMany((legOrder, cut, second, others, decide) =>
            Gen.Select(LegEntries(moments, grips).Array[legOrder.Length], moments, (makers, moment) =>
            {
                Entry[] all = [.. legOrder.Select((leg, i) => makers[i](leg))];
                int end = decide ? Math.Min(cut, all.Length) : all.Length, first = Math.Min(second, end);
                ImmutableArray<PersonOutline> main = [new(new("EV1"), [.. others[0], .. all[..first]]), new(new("EV2"), [.. others[1], .. all[first..end]])];
                Decision? decision = decide ? new(legOrder[0], moment, [new(new("EV1"), [.. all[end..], .. others[2]])], [new(new("EV2"), [.. others[3], .. all[end..]])]) : null;
                return (new Outline(Scenario.Id, null, null, main, [], [], [], null, []), decision);
            }));
        Gen<ImmutableArray<VoiceOutline>> voice = Gen.Select(Gen.Shuffle(Scenario.Legs.Select(leg => leg.Id).ToArray()), Gen.Int[0, 2]).Select((all, lines) =>
            Enumerable.Range(0, lines).Select(line => new VoiceOutline([.. all.Where((_, i) => i % lines == line)])).ToImmutableArray());
        return Gen.Select(walk, made, hands, arms, Gen.Select(ground, voice), Gen.Bool, Text).Select((main, by, carried, sessions, commands, digest, why) => main.Item1 with
        {
            Voice = commands.Item2,
            Digest = digest ? Scenario.Digest : null,
            Made = by,
            Hands = carried,
            Arms = sessions,
            Ground = commands.Item1,
            Decision = main.Item2,
            LeftOut = main.Item1.People.Any(list => list.Entries.OfType<LegEntry>().Any(entry => entry.Leg.Value == "look/look")) ? [] : [new(new("look"), why)],
        });
    }

    private static Gen<Way> Ways(Gen<GripId> grips) => Gen.Select(Some(grips, 0, 3), Maybe(grips), (walked, anchor) => new Way(walked, anchor));

    private static Gen<Func<LegId, Entry>> LegEntries(Gen<Pet> moments, Gen<GripId> grips) =>
        Gen.Select(Gen.Select(Maybe(moments), Maybe(moments), Maybe(moments)), Gen.Bool, Gen.Bool, Ways(grips), Gen.Bool,
            (pins, who, keep, way, byHand) => (Func<LegId, Entry>)(leg => new LegEntry(leg, new(pins.Item1, pins.Item2, pins.Item3, who, keep), way, byHand)));

    private static Gen<ImmutableArray<Entry>> Entries(Gen<PersonId> people, Gen<LegId> legs, Gen<GripId> grips, Gen<GearId> gear, Gen<Pet> moments)
    {
        Gen<Way> ways = Ways(grips);
        Gen<LegId?> purpose = Maybe(legs);
        Gen<GearId> restraints = Of(new GearId[] { new("restraint-2"), new("spare") });
        CarryPointId waist = new("waist");
        SocketId socket = new("socket-2");
        ArmId arm = new("boom");
        return Some(
            Gen.OneOf<Entry>(
                Gen.Const<Entry>(new EgressEntry(new("door"))),
                ways.Select(way => (Entry)new IngressEntry(new("door"), way)),
                Gen.Select(gear, grips, ways, purpose, Gen.Bool, (thing, from, way, leg, byHand) => (Entry)new TakeEntry(thing, from, waist, way, leg, byHand)),
                Gen.Select(gear, grips, ways, purpose, Gen.Bool, (thing, at, way, leg, byHand) => (Entry)new PutEntry(thing, at, way, leg, byHand)),
                Gen.Select(restraints, Text, ways, purpose, Gen.Bool, (thing, setting, way, leg, byHand) => (Entry)new PlugEntry(thing, socket, setting, way, leg, byHand)),
                Gen.Select(restraints, ways, purpose, Gen.Bool, (thing, way, leg, byHand) => (Entry)new UnplugEntry(thing, socket, waist, way, leg, byHand)),
                Gen.Select(grips, ways, purpose, Gen.Bool, (at, way, leg, byHand) => (Entry)new MountEntry(arm, at, way, leg, byHand)),
                Gen.Select(grips, purpose, Gen.Bool, (at, leg, byHand) => (Entry)new DismountEntry(arm, at, leg, byHand)),
                Gen.Select(purpose, Gen.Bool, (leg, byHand) => (Entry)new CheckEntry(leg, byHand)),
                Gen.Select(Gen.Int[1, 5000], purpose, Gen.Bool, (seconds, leg, byHand) => (Entry)new RestEntry(Duration.FromSeconds(seconds), leg, byHand)),
                Gen.Select(moments, Gen.Bool, (moment, byHand) => (Entry)new WaitEntry(WaitFor.Moment, moment, byHand)),
                Gen.Select(Gen.Int[0, 2], Gen.Bool, (until, byHand) => (Entry)new WaitEntry((WaitFor)until, null, byHand))),
            0, 6);
    }
}
