using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Bench;

/// <summary>A walk repeated one time after another, with the sky over it, until it has as many activities as asked for.</summary>
internal static class LongWalk
{
    public static (Scenario Scenario, Timeline Timeline) Of(Scenario scenario, Timeline walk, int activities)
    {
        int length = walk.Activities.Max(activity => activity.End.Seconds);
        int times = (activities + walk.Activities.Length - 1) / walk.Activities.Length;
        ImmutableArray<Activity> all = [.. Enumerable.Range(0, times).SelectMany(time => walk.Activities.Select(one => Shifted(one, time, length))).Take(activities)];
        ImmutableArray<PetInterval> Repeated(ImmutableArray<PetInterval> sky) =>
        [
            .. Enumerable.Range(0, times).SelectMany(time => sky.Where(one => one.From.Seconds < length).Select(one =>
                new PetInterval(Later(one.From, time * length), Later(Pet.FromSeconds(Math.Min(length, one.To.Seconds)), time * length)))),
        ];
        Scenario under = scenario with
        {
            Sky = scenario.Sky with { Night = Repeated(scenario.Sky.Night), NoLink = Repeated(scenario.Sky.NoLink), NoVoice = Repeated(scenario.Sky.NoVoice) },
            Station = scenario.Station with { Zones = [.. scenario.Station.Zones.Select(zone => zone with { Times = Repeated(zone.Times) })] },
        };
        return (under, walk with { Activities = all });
    }

    private static Activity Shifted(Activity activity, int time, int length)
    {
        int by = time * length;
        string mark = time == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"~{time}");
        Activity later = activity with
        {
            Id = new(activity.Id.Value + mark),
            Start = Later(activity.Start, by),
            End = Later(activity.End, by),
            After = [.. activity.After.Select(one => one with { Activity = one.Activity is { } id ? new ActivityId(id.Value + mark) : null })],
        };
        return later switch
        {
            SwapReel { Hooks: { } hooks } swap => swap with { Hooks = Moved(hooks, by) },
            MountArm { Hooks: { } hooks } mount => mount with { Hooks = Moved(hooks, by) },
            DismountArm { Hooks: { } hooks } dismount => dismount with { Hooks = Moved(hooks, by) },
            _ => later,
        };
    }

    private static HookMoves Moved(HookMoves hooks, int by) => new(Later(hooks.On, by), Later(hooks.Off, by));

    private static Pet Later(Pet moment, int by) => moment.Plus(Duration.FromSeconds(by));
}
