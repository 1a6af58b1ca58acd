using System.Numerics;
using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>
/// Thermal clocks. The time of the plan is cut at every moment at which something that a clock follows may change, and each piece is an action
/// of its own: it looks at how fast the clock runs, holds that this stays so, and takes from what is left. What is left is a whole number, in
/// which a second costs the same share that it costs of the clock's time; so nothing is rounded.
/// </summary>
internal static partial class ImageClocks
{
    /// <summary>A piece lies this far inside its moments, s: after everything that happens at the first, before everything at the last.</summary>
    private const decimal Inside = PddlImage.Epsilon / 4;

    /// <summary>The clocks of a scenario, and the longest times of its shutdowns as clocks with one rate.</summary>
    public static IEnumerable<HeatClock> All(ImageWorld world) => world.Scenario.Clocks.Concat(world.Scenario.Consoles.SelectMany(console => console.Shutdowns)
        .Where(shutdown => shutdown.Longest is not null)
        .Select(shutdown => new HeatClock(new(shutdown.Id.Value), ClockKind.Cold, [new IsShutDown(shutdown.Id)], [new([], shutdown.Longest!.Value)], MayRunOn: true, shutdown.Source)));

    /// <summary>The pieces of every clock, in order.</summary>
    /// <param name="world">The world.</param>
    /// <param name="actions">Everything else that happens in the plan.</param>
    public static List<ImageAction> Pieces(ImageWorld world, IReadOnlyList<ImageAction> actions) =>
        [.. All(world).SelectMany((clock, number) => Pieces(world, clock, number, actions))];

    /// <summary>What is left of each clock at the start, and that its first piece comes next.</summary>
    public static IEnumerable<string> Facts(ImageWorld world) => All(world).SelectMany((clock, number) =>
        new[] { $"(= {Left(world, number)} {Whole(clock)})", Next(world, number, 0) });

    /// <summary>That no piece of a clock is missing, and that none runs at the end which may not.</summary>
    public static IEnumerable<string> Goals(ImageWorld world, IReadOnlyList<ImageAction> actions) => All(world).SelectMany((clock, number) => (string[])
    [
        Next(world, number, Moments(world, clock, actions).Count - 1),
        .. clock.MayRunOn ? Array.Empty<string>() : [Say.Not(Say.Or(Rates(clock).Select(rate => Runs(world, clock, rate))))],
    ]);

    private static IEnumerable<ImageAction> Pieces(ImageWorld world, HeatClock clock, int number, IReadOnlyList<ImageAction> actions)
    {
        List<Pet> moments = Moments(world, clock, actions);
        for (int i = 0; i + 1 < moments.Count; i++)
        {
            int seconds = moments[i + 1].Since(moments[i]).Seconds;
            ImageAction piece = ImageAction.Between(world.Names.ForAction($"clock-{clock.Id}-{i + 1}"), moments[i], seconds, Inside)
                .NeedsAtStart(Next(world, number, i)).Begins(Say.Not(Next(world, number, i))).Ends(Next(world, number, i + 1));
            List<string> running = [];
            foreach (Duration rate in Rates(clock))
            {
                string runs = Runs(world, clock, rate), so = $"(runs {Name(world, number)} {world.Names.Of("rate", "rate", $"{rate.Seconds}")})";
                running.Add(so);
                piece.BeginsWhen(runs, so).BeginsWhen(Say.Not(runs), Say.Not(so)).NeedsBetween(Say.Or([Say.Not(so), runs])).NeedsBetween(Say.Or([so, Say.Not(runs)]));
                BigInteger takes = Whole(clock) / rate.Seconds * seconds;
                piece.NeedsAtEnd(Say.Or([Say.Not(so), $"(>= {Left(world, number)} {takes})"])).EndsWhen(so, $"(decrease {Left(world, number)} {takes})");
            }
            // Where it does not run it is fresh again.
            piece.EndsWhen(Say.And(running.Select(Say.Not)), $"(assign {Left(world, number)} {Whole(clock)})");
            yield return piece;
        }
    }

    /// <summary>Every moment at which something that it follows may change, the first and the last of the plan among them.</summary>
    private static List<Pet> Moments(ImageWorld world, HeatClock clock, IReadOnlyList<ImageAction> actions)
    {
        HashSet<string> followed = [.. Rates(clock).SelectMany(rate => Atom().Matches(Runs(world, clock, rate))).Select(match => match.Value)];
        IEnumerable<Pet> light = followed.Overlaps(["(night)", "(dark)"])
            ? world.Scenario.Sky.Night.Concat(world.Scenario.Sky.FullNight).SelectMany(night => new[] { night.From, night.To }) : [];
        return [.. actions.SelectMany(action => action.Changes(followed)).Concat(light).Where(moment => world.From < moment && moment < world.To)
            .Append(world.From).Append(world.To).Distinct().Order()];
    }

    /// <summary>The different times that it lasts, the shortest first.</summary>
    private static IEnumerable<Duration> Rates(HeatClock clock) => clock.Lasts.Select(rate => rate.Time).Distinct().Order();

    /// <summary>That it runs so fast that it lasts just this long from fresh. In twilight it runs as by day or as by night, whichever is worse.</summary>
    private static string Runs(ImageWorld world, HeatClock clock, Duration lasts)
    {
        string AtLeast(Func<Duration, bool> counts) => Say.Or(new[] { LightCondition.Day, LightCondition.Night }.SelectMany(light => clock.Lasts.Select((rate, i) => (rate, i))
            .Where(one => counts(one.rate.Time))
            .Select(one => Say.And([
                light == LightCondition.Day ? "(not (dark))" : "(night)",
                .. clock.While.Concat(one.rate.When).Select(condition => Holds(world, condition, light)),
                .. clock.Lasts.Take(one.i).Select(before => Say.Not(Say.And(before.When.Select(condition => Holds(world, condition, light)))))]))));
        return Say.And([AtLeast(time => time == lasts), Say.Not(AtLeast(time => time < lasts))]);
    }

    private static string Holds(ImageWorld world, WorldCondition condition, LightCondition light) => condition switch
    {
        FeatureIs one => world.Holds(one.Condition),
        LightIs one => one.Light == light ? Say.And([]) : Say.Or([]),
        IsShutDown one => world.IsCold(one.Shutdown),
        GearIsIn { Place.Kind: LocationKind.Person } one => world.Spots.IsWith(new(one.Place.Name), one.Gear),
        GearIsIn one => world.Spots.Lies(one.Gear, world.Spots.At(one.Place)),
        _ => throw new ArgumentException($"a clock has a condition that has no image: {condition.GetType().Name}"),
    };

    /// <summary>What a fresh clock has: the least number that every one of its times divides.</summary>
    private static BigInteger Whole(HeatClock clock) =>
        Rates(clock).Aggregate(BigInteger.One, (whole, rate) => whole / BigInteger.GreatestCommonDivisor(whole, rate.Seconds) * rate.Seconds);

    private static string Left(ImageWorld world, int number) => $"(heat-left {Name(world, number)})";

    private static string Next(ImageWorld world, int number, int piece) => $"(next-piece {Name(world, number)} {world.Count(piece)})";

    /// <summary>By its number, since a clock and a shutdown may have one name.</summary>
    private static string Name(ImageWorld world, int number) => world.Names.Of("clock", "clock", $"{number + 1}");

    [GeneratedRegex(@"\((?!(and|or|not)[ )])[^()]+\)")]
    private static partial Regex Atom();
}
