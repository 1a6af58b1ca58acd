using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>Points, joints, jets, antennas, brakes, guided rides and hooks for a random scenario; from its own stream, so that nothing else shifts.</summary>
internal static class RandomMotion
{
    private const string Source = "invented for the test";

    /// <summary>The same scenario with some of it.</summary>
    public static Scenario With(Scenario made, int seed)
    {
        Random random = new(seed ^ 0x4D07);
        bool Chance(int percent) => random.Next(100) < percent;
        if (Chance(40)) return made;
        GripId[] grips = [.. made.Station.Grips.Select(grip => grip.Id)];
        GripId AGrip() => grips[random.Next(grips.Length)];

        Dictionary<GripId, Point> points = grips.Select((grip, i) => (grip, new Point(5 * i, random.Next(-12, 13), random.Next(0, 6)))).ToDictionary(one => one.grip, one => one.Item2);
        List<Feature> features = [];
        ImmutableArray<Joint> joints = [];
        ImmutableArray<Emitter> jets = [], beams = [];
        if (Chance(50))
        {
            features.Add(new(new("fold"), ["turning", "locked"], "locked", "locked", null));
            joints = [new(new("fold-joint"), new("fold"), ["locked"], [.. new[] { AGrip(), AGrip() }.Distinct()])];
        }
        if (Chance(50))
        {
            features.Add(new(new("thrusters"), ["armed", "held"], "held", "held", null));
            Point at = points[AGrip()];
            jets = [new(new("stern-jets"), new("thrusters"), ["held"], at with { Z = at.Z - 1 }, 0.5, Chance(60) ? new(new(random.Next(-3, 4), 1, 0), 0.4, 8) : null)];
        }
        if (Chance(50))
        {
            features.Add(new(new("dish"), ["on", "off"], "off", null, null));
            Point at = made.Arms.IsEmpty || Chance(50) ? points[AGrip()] : Above(points, made, made.Arms[0], made.Arms[0].Poses[^1]);
            beams = [new(new("dish-beam"), new("dish"), ["off"], at with { Y = at.Y + 1 }, 1, null)];
        }

        ImmutableArray<Arm> arms = [.. made.Arms.Select(arm => arm with
        {
            Poses = [.. arm.Poses.Select(pose => pose with { At = Above(points, made, arm, pose) })],
            Rides = [.. arm.Rides.Select(ride => ride with
            {
                Through = Chance(15) ? [AGrip()] : Chance(90) ? [] : null,
                Guided = Duration.FromSeconds(30 * random.Next(0, 5)),
            })],
            Brakes = new(Duration.FromSeconds(10 + random.Next(20)), Duration.FromSeconds(5 + random.Next(10))),
        })];
        return made with
        {
            Arms = arms,
            Tether = made.Tether with { Hooked = Duration.FromSeconds(30 + random.Next(60)) },
            Sky = made.Sky with { NoVoice = Voiceless(random) },
            Station = made.Station with
            {
                Grips = [.. made.Station.Grips.Select(grip => grip with { At = points[grip.Id] })],
                Features = [.. made.Station.Features, .. features],
                Joints = joints,
                Jets = jets,
                Beams = beams,
            },
            Limits =
            [
                .. made.Limits, Length("arm.swept", 1), Length("tether.swept", 0.5), Length("jets.armed", 1), Length("beam.live", 0.5),
                new(new("tether.swap"), new(Dimension.Count, 2, "2 pieces"), null, "common practice, no source", false),
            ],
        };
    }

    /// <summary>Three metres over where one gets on, or high over where one climbs down.</summary>
    private static Point Above(Dictionary<GripId, Point> points, Scenario made, Arm arm, Pose pose)
    {
        GripId grip = arm.Mounts.FirstOrDefault(mount => mount.Pose == pose.Id)?.Grip ?? pose.ClimbTo ?? made.Station.Grips[0].Id;
        return points[grip] with { Z = points[grip].Z - (arm.Mounts.Any(mount => mount.Pose == pose.Id) ? 3 : 15) };
    }

    private static ImmutableArray<PetInterval> Voiceless(Random random)
    {
        int first = random.Next(60);
        return [.. Enumerable.Range(0, 6).Select(i => new PetInterval(Pet.FromSeconds((first + 70 * i) * 60), Pet.FromSeconds((first + 70 * i + 4) * 60)))];
    }

    private static Limit Length(string rule, double metres) => new(new(rule), new(Dimension.Length, metres, $"{metres} m"), null, Source, false);
}
