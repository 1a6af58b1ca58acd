using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What is so at the start, and what the clock alone changes later.</summary>
internal static class ImageStart
{
    /// <summary>An outside change at t is written at t − this: after what ends at t, before what starts at t.</summary>
    private const decimal Half = PddlImage.Epsilon / 2;

    public static List<string> Facts(ImageWorld world) => [.. People(world), .. Gear(world), .. Station(world), .. Jobs(world), .. ImageClocks.Facts(world), .. Clock(world)];

    private static IEnumerable<string> People(ImageWorld world)
    {
        foreach (Person person in world.People)
        {
            string name = world.Person(person.Id);
            yield return world.Stands(person.Id, world.Indoors);
            yield return $"(idle {name})";
            yield return $"(loose {name})";
            foreach (string training in person.TrainedFor) yield return $"(trained {name} {world.Training(training)})";
            foreach (CarryPoint point in person.CarryPoints)
                foreach (SizeId size in point.Sizes) yield return $"(fits {world.Size(size)} {world.Spots.Carry(person.Id, point.Id)})";
        }
    }

    private static IEnumerable<string> Gear(ImageWorld world)
    {
        Dictionary<string, Gear> worn = [];
        foreach (Gear gear in world.Scenario.Gear)
        {
            string spot = gear.Start.Kind == LocationKind.Person ? FirstCarry(world, gear, worn) : world.Spots.At(gear.Start);
            worn.TryAdd(spot, gear);
            yield return world.Spots.Lies(gear.Id, spot);
            if (gear.Kind == GearKind.Stock) yield return ImageSteps.Left(world, gear.Id, gear.Count);
            if (gear.Kind == GearKind.Restraint) yield return $"(restraint {world.Gear(gear.Id)})";
        }
        IEnumerable<string> single = [.. world.People.SelectMany(person => world.Spots.CarriesOf(person.Id)), .. world.Scenario.Station.Sockets.Select(socket => world.Spots.Socket(socket.Id))];
        foreach (string spot in single)
            if (!worn.ContainsKey(spot)) yield return $"(clear {spot})";
    }

    /// <summary>What starts on a person hangs on the first carry point that takes its size and is clear, or else is in the hands.</summary>
    private static string FirstCarry(ImageWorld world, Gear gear, Dictionary<string, Gear> worn)
    {
        PersonId person = new(gear.Start.Name);
        return world.Spots.PersonOf(person).CarryPoints.Where(point => point.Sizes.Contains(gear.Size)).Select(point => world.Spots.Carry(person, point.Id))
            .FirstOrDefault(carry => !worn.ContainsKey(carry)) ?? world.Spots.Hands(person);
    }

    private static IEnumerable<string> Station(ImageWorld world)
    {
        Station station = world.Scenario.Station;
        foreach (Span span in station.Spans)
        {
            yield return $"(span {world.Grip(span.A)} {world.Grip(span.B)})";
            yield return $"(span {world.Grip(span.B)} {world.Grip(span.A)})";
        }
        foreach (Grip grip in station.Grips)
        {
            if (grip.Anchor) yield return $"(anchor {world.Grip(grip.Id)})";
            if (grip.Stow) yield return $"(stow {world.Grip(grip.Id)})";
        }
        foreach (Socket socket in station.Sockets) yield return $"(vacant {world.Spots.Socket(socket.Id)})";
        foreach (Feature feature in station.Features)
        {
            yield return world.Is(feature.Id, feature.Start);
            // What is as it must be before the hatch opens was looked at and read then.
            if (world.IsSwitch(feature.Id) && feature.Ready == feature.Start) yield return world.IsKnown(feature.Id);
        }
        foreach (NodeId node in station.PowerLines.SelectMany(line => new[] { line.From, line.To }).Distinct())
            if (ImagePower.IsWired(station, node)) yield return $"(wired {world.Node(node)})";
        foreach (GroundConsole console in world.Scenario.Consoles)
        {
            yield return $"(idle {world.Console(console.Id)})";
            foreach (Shutdown shutdown in console.Shutdowns) yield return $"(on {world.Shutdown(shutdown.Id)})";
        }
        foreach (Arm arm in world.Scenario.Arms)
        {
            string name = world.Arm(arm.Id);
            yield return $"(idle {name})";
            yield return $"(riderless {name})";
            yield return $"(posed {name} {world.Pose(arm.Id, arm.Start)})";
            foreach (ArmMount mount in arm.Mounts) yield return $"(mount {name} {world.Grip(mount.Grip)})";
            foreach (RideTime ride in arm.Rides)
            {
                yield return $"(joins {name} {world.Pose(arm.Id, ride.A)} {world.Pose(arm.Id, ride.B)})";
                yield return $"(joins {name} {world.Pose(arm.Id, ride.B)} {world.Pose(arm.Id, ride.A)})";
            }
        }
    }

    private static IEnumerable<string> Jobs(ImageWorld world)
    {
        foreach (Leg leg in world.Scenario.Legs)
        {
            yield return ImageSteps.Due(world, leg, 0);
            foreach (Person person in world.People.Where(person => leg.Who.IsEmpty || leg.Who.Contains(person.Id)))
                yield return $"(may {world.Person(person.Id)} {world.Leg(leg.Id)})";
        }
    }

    private static IEnumerable<string> Clock(ImageWorld world) =>
    [
        .. Changes(world, "(night)", world.Scenario.Sky.Night),
        .. Changes(world, "(dark)", world.Scenario.Sky.FullNight),
        .. Changes(world, "(silence)", world.Scenario.Sky.NoLink),
        .. world.Scenario.Sky.NoLink.Select(none => none.From).Where(moment => world.From < moment && moment <= world.To)
            .SelectMany(moment => ImageCommands.Watched(world).Select(command => At(world, moment, Say.Not(ImageCommands.IsWatched(world, command.Id))))),
        .. world.Scenario.Station.Zones.SelectMany(zone => Changes(world, $"(shut {world.Zone(zone.Id)})", zone.Times)),
    ];

    private static string At(ImageWorld world, Pet moment, string literal) => string.Create(CultureInfo.InvariantCulture, $"(at {world.TimeOf(moment) - Half:0.0000} {literal})");

    /// <summary>Whether a sentence holds at the start, and each moment at which that changes.</summary>
    private static IEnumerable<string> Changes(ImageWorld world, string sentence, ImmutableArray<PetInterval> times)
    {
        bool holds = HoldsAt(world.From);
        if (holds) yield return sentence;
        foreach (Pet moment in times.SelectMany(time => new[] { time.From, time.To }).Distinct().Order())
        {
            if (moment <= world.From || moment > world.To || HoldsAt(moment) == holds) continue;
            holds = !holds;
            yield return At(world, moment, holds ? sentence : Say.Not(sentence));
        }

        bool HoldsAt(Pet moment) => times.Any(time => time.From <= moment && moment < time.To);
    }
}
