using System.Collections.Immutable;
using System.Numerics;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A share of something used up, exact: seconds over seconds, added without rounding.</summary>
internal readonly record struct Share(BigInteger Part, BigInteger Whole)
{
    public static Share None { get; } = new(BigInteger.Zero, BigInteger.One);

    public bool IsMoreThanAll => Part > Whole;

    public Share Plus(int seconds, int lasts) => new(Part * lasts + seconds * Whole, Whole * lasts);

    /// <summary>What is left in whole seconds, when all of it lasts so long; rounded down, negative when more than all is used.</summary>
    public int Left(int lasts)
    {
        BigInteger left = BigInteger.DivRem((Whole - Part) * lasts, Whole, out BigInteger rest);
        return (int)(rest.Sign < 0 ? left - 1 : left);
    }
}

/// <summary>A thermal clock that ran from one moment to another.</summary>
/// <param name="Clock">Which.</param>
/// <param name="From">When it began to run.</param>
/// <param name="To">When it stopped, or the end of the plan.</param>
/// <param name="IsStill">Whether it runs still at the end of the plan.</param>
/// <param name="Left">What is left at the rate of its last state, s; negative when it has run out.</param>
/// <param name="RanOut">When it ran out; null when it did not.</param>
/// <param name="Rates">How long it would last from fresh in each of the states it was in, in their order.</param>
public sealed record ClockRun(HeatClock Clock, Pet From, Pet To, bool IsStill, int Left, Pet? RanOut, ImmutableArray<Duration> Rates)
{
    public Duration Length => To.Since(From);

    /// <summary>How long it would have lasted: what it ran, and what is left.</summary>
    public Duration Lasts => Duration.FromSeconds(Length.Seconds + Left);

    /// <summary>Every run of a clock, in order.</summary>
    public static IEnumerable<ClockRun> All(Case given, HeatClock clock)
    {
        History history = given.History;
        WorldCondition[] watched = [.. clock.While, .. clock.Lasts.SelectMany(rate => rate.When)];
        IEnumerable<Pet> changes = watched.Select(condition => VariableOf(history, condition)).Distinct()
            .SelectMany(variable => history.Changes(variable)).Select(change => change.At).Where(at => given.Trace.From < at && at < given.Trace.To);
        Pet[] moments = [.. changes.Prepend(given.Trace.From).Append(given.Trace.To).Distinct().Order()];

        Pet? since = null;
        Share used = Share.None;
        Pet? ranOut = null;
        List<Duration> rates = [];
        ClockRun Run(Pet from, Pet to, bool isStill) => new(clock, from, to, isStill, used.Left(rates[^1].Seconds), ranOut, [.. rates]);
        foreach ((Pet from, Pet to) in moments.Zip(moments.Skip(1)))
        {
            if (LastsAt(history, clock, from) is not { } lasts)
            {
                if (since is { } began) yield return Run(began, from, isStill: false);
                (since, used, ranOut) = (null, Share.None, null);
                rates.Clear();
                continue;
            }
            since ??= from;
            if (rates.Count == 0 || rates[^1] != lasts) rates.Add(lasts);
            Share before = used;
            used = used.Plus(to.Since(from).Seconds, lasts.Seconds);
            if (used.IsMoreThanAll) ranOut ??= from.Plus(Duration.FromSeconds(before.Left(lasts.Seconds)));
        }
        if (since is { } still) yield return Run(still, given.Trace.To, LastsAt(history, clock, given.Trace.To) is not null);
    }

    /// <summary>How long the clock lasts from fresh in the state of a moment; null when it does not run. In twilight it is taken as by day or as by night, whichever is worse.</summary>
    private static Duration? LastsAt(History history, HeatClock clock, Pet moment)
    {
        string light = history.StateAt(history["sky light"], moment);
        Duration? worst = null;
        foreach (string taken in light == "twilight" ? (ReadOnlySpan<string>)["day", "night"] : [light])
        {
            if (!clock.While.All(condition => Holds(history, condition, moment, taken))) continue;
            Duration lasts = clock.Lasts.First(rate => rate.When.All(condition => Holds(history, condition, moment, taken))).Time;
            if (worst is null || lasts < worst) worst = lasts;
        }
        return worst;
    }

    private static int VariableOf(History history, WorldCondition condition) => history[condition switch
    {
        FeatureIs one => $"feature {one.Condition.Feature} state",
        GearIsIn one => $"gear {one.Gear} place",
        LightIs => "sky light",
        IsShutDown one => $"shutdown {one.Shutdown} known",
        _ => throw new ArgumentException($"a clock has a condition that the judge does not know: {condition.GetType().Name}"),
    }];

    private static bool Holds(History history, WorldCondition condition, Pet moment, string light)
    {
        string state = history.StateAt(VariableOf(history, condition), moment);
        return condition switch
        {
            FeatureIs one => one.Condition.States.Contains(state),
            LightIs one => light == (one.Light == LightCondition.Day ? "day" : "night"),
            IsShutDown => state == "off",
            // On a person: on any carry point, or in the hands.
            GearIsIn { Place: { Kind: LocationKind.Person } place } => state.StartsWith($"person {place.Name} ", StringComparison.Ordinal) || state == $"hands {place.Name}",
            GearIsIn one => state == one.Place.ToString(),
            _ => false,
        };
    }
}
