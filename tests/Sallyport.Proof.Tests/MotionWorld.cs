using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>The small station with brakes and guided rides, and every limit that the rules about motion ask for.</summary>
internal static class MotionWorld
{
    public static Scenario Moving { get; } = Skerry with
    {
        Arms = [Skerry.Arms[0] with { Brakes = new(Seconds(20), Seconds(10)), Rides = [.. Skerry.Arms[0].Rides.Select(ride => ride with { Through = [], Guided = Seconds(120) })] }],
        Tether = Skerry.Tether with { Hooked = Seconds(50) },
        Limits = [.. Skerry.Limits, LengthLimit("arm.swept", 1), LengthLimit("tether.swept", 1), LengthLimit("jets.armed", 2), LengthLimit("beam.live", 2), HookLimit(2)],
    };

    public static Limit LengthLimit(string rule, double metres, double near = 0) =>
        new(new(rule), new(Dimension.Length, metres, $"{metres} m"), new(Dimension.Length, near, $"{near} m"), "invented for the test", true);

    public static Limit HookLimit(int hooks) => new(new("tether.swap"), new(Dimension.Count, hooks, $"{hooks} pieces"), null, "common practice, no source", false);

    public static Scenario With(this Scenario scenario, Limit limit) => scenario with { Limits = [.. scenario.Limits.Where(one => one.Rule != limit.Rule), limit] };

    public static Scenario WithRides(this Scenario scenario, Func<RideTime, RideTime> change) =>
        scenario with { Arms = [.. scenario.Arms.Select(arm => arm with { Rides = [.. arm.Rides.Select(change)] })] };

    public static Scenario WithFeature(this Scenario scenario, string feature, string start) => scenario.WithStation(station => station with
    {
        Features = [.. station.Features.Select(one => one.Id.Value == feature ? one with { Start = start } : one)],
    });

    // EV1 at quay-2 at 0:19:30, on the arm at 0:29:30, at the top from 0:35 to 0:45, back at 0:50:30, off at 0:55:30.
    public static Plan Ride() => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high", 330)
        .Step("EV1", "head/fit", "fit", 600).Ride("EV1", "high", "low", 330).Dismount("EV1").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));

    /// <summary>Everything told that the rules ask for: brakes set after each move, hooks on after 50 s and off at the end.</summary>
    public static Timeline Told(this Timeline timeline) => timeline with { Activities = [.. timeline.Activities.Select(Told)] };

    private static Activity Told(Activity activity) => activity switch
    {
        ArmMove move => move with { BrakesSet = true },
        SwapReel swap => swap with { Hooks = Hooks(swap) },
        MountArm mount => mount with { Hooks = Hooks(mount) },
        DismountArm off => off with { Hooks = Hooks(off) },
        _ => activity,
    };

    private static HookMoves Hooks(Activity activity) => new(activity.Start.Plus(Seconds(50)), activity.End);
}
