using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>What bodies burn and suits hold, made ready for the decoder: for each person and supply, use as a straight line in the work done and in the length of the walk, at the high rates.</summary>
/// <remarks>What it says is near, not exact: checks of gloves and waits count as rest, water as on until the end. The proof reckons exactly.</remarks>
internal sealed class SuitCase
{
    private readonly double rest;
    private readonly double[] above;
    private readonly Supply[][] supplies;
    private readonly ImmutableArray<PetInterval> nights;

    private SuitCase(SearchCase all, WorkRates rates)
    {
        Estimate one = Estimate.Exactly(1);
        rest = rates.Watts(Exertion.Rest, one).High;
        above = [.. Enum.GetValues<Exertion>().Select(exertion => rates.Watts(exertion, one).High - rest)];
        nights = all.Scenario.Sky.Night;
        supplies = [.. all.People.Select(person => Supplies(all.Scenario, person, above[(int)Exertion.Light] + rest))];
        AtHatch = [.. all.People.Select((_, p) => HatchJoules(all.Scenario.Station.Airlocks[all.Airlocks[p]]))];
    }

    /// <summary>By person, what going out, coming in and what is done at the hatch take above rest, J of factor one.</summary>
    public double[] AtHatch { get; }

    /// <summary>Null where no supply is held against a limit.</summary>
    public static SuitCase? Of(SearchCase all) =>
        all.Scenario.Body is { } body && !all.Scenario.Suits.IsEmpty && all.Scenario.LimitOf("suit.reserve") is { Value.Dimension: Dimension.Time } ? new(all, body.Rates) : null;

    /// <summary>What so many seconds of a class of work take above rest, J of factor one.</summary>
    public double Joules(Exertion exertion, int seconds) => above[(int)exertion] * seconds;

    /// <summary>What the steps of a leg take above rest, J of factor one.</summary>
    public double Joules(Leg leg) => leg.Steps.Sum(step => Joules(WorkRates.Of(step.Work), step.Time.Likely.Seconds));

    /// <summary>How long, at the rate of the reserve, a person's supplies are short of the reserve when repress starts; 0 when they are not. s.</summary>
    /// <param name="p">Which person.</param>
    /// <param name="joules">What the work took above rest, J of factor one.</param>
    /// <param name="repress">When repress starts, s of PET.</param>
    public int Short(int p, double joules, int repress)
    {
        double most = 0;
        foreach (Supply supply in supplies[p])
        {
            double burnt = supply.Factor * (rest * (repress - Math.Max(0, supply.Starts)) + joules) + supply.JoulesBefore;
            double used = supply.PerJoule * burnt + supply.PerSecond * (repress - supply.Starts) + supply.PerDarkSecond * Dark(supply.Starts, repress);
            most = Math.Max(most, (used - supply.Most) / supply.ReserveRate);
        }
        return (int)Math.Ceiling(Math.Min(most, 1e6));
    }

    /// <summary>Whether the steps of a leg alone are harder than the load on a body may be, for this person.</summary>
    public static bool IsTooHard(Scenario scenario, Person person, Leg leg)
    {
        if (scenario.LimitOf("work.rate") is not { Value.Dimension: Dimension.Power } limit || SuitProfile.Of(scenario, person.Id) is not { } profile) return false;
        List<RateStretch> stretches = [];
        foreach (Step step in leg.Steps)
        {
            Pet from = stretches.Count == 0 ? default : stretches[^1].To;
            stretches.Add(new(from, from.Plus(step.Time.Likely), profile.Rates.Watts(WorkRates.Of(step.Work), profile.PersonFactor).High));
        }
        bool Over(int minutes, Quantity? most) => most is { } limited && leg.Length.Seconds >= minutes * 60
            && RollingMean.Greatest([.. stretches], Duration.FromMinutes(minutes)).Mean > limited.Value * (1 + 1e-9);
        return !leg.MayWait && (Over(15, limit.Value) || Over(60, limit.Hour));
    }

    private double HatchJoules(Airlock airlock) => Joules(Exertion.Translate, airlock.OutEach.Seconds + airlock.InEach.Seconds)
        + Joules(Exertion.Light, airlock.OutBags.Seconds + airlock.OutCheck.Seconds + airlock.Inventory.Seconds + airlock.InBags.Seconds + airlock.Close.Seconds);

    private static Supply[] Supplies(Scenario scenario, Person person, double lightWatts)
    {
        if (SuitProfile.Of(scenario, person.Id) is not { } profile) return [];
        SuitInUse use = scenario.Suits.First(one => one.People.Contains(person.Id));
        SuitRates reserve = SuitRates.OnReserve(profile);
        Estimate watt = Estimate.Exactly(1);
        double vapour = Evaporation.KilogramsPerSecond(watt, profile.FeedwaterKelvin).High, off = use.LightsOff.High, on = use.LightsOn.High;
        Supply Of(Consumable kind, Pet starts, double perJoule, double perSecond, double perDarkSecond) => new(
            profile.PersonFactor.High, starts.Seconds, perJoule, perSecond, perDarkSecond, profile.PersonFactor.High * lightWatts * Math.Max(0, -starts.Seconds),
            profile.Aboard.Of(kind) - reserve.Of(kind).High * profile.Reserve.Length.Seconds, Math.Max(1e-12, reserve.Of(kind).High));
        return
        [
            Of(Consumable.Oxygen, use.OwnOxygen, Energetics.OxygenKilogramsPerSecond(watt, profile.RespiratoryQuotient).High, use.OxygenLeak.High, 0),
            Of(Consumable.CarbonDioxide, use.Purge, Energetics.CarbonDioxideKilogramsPerSecond(watt, profile.RespiratoryQuotient).High, 0, 0),
            Of(Consumable.Feedwater, use.WaterOn, vapour, vapour * (use.HeatLeak.High + off), vapour * (on - off)),
            Of(Consumable.Battery, use.OwnPower, 0, off, on - off),
        ];
    }

    private int Dark(int from, int to)
    {
        int dark = 0;
        foreach (PetInterval night in nights) dark += Math.Max(0, Math.Min(to, night.To.Seconds) - Math.Max(from, night.From.Seconds));
        return dark;
    }

    /// <summary>One supply of one person.</summary>
    /// <param name="Factor">What the person burns over what one of factor one burns.</param>
    /// <param name="Starts">From when on it is used, s of PET.</param>
    /// <param name="PerJoule">Used for each joule that the body burns.</param>
    /// <param name="PerSecond">Used in each second besides.</param>
    /// <param name="PerDarkSecond">Used in each second of the night on top of that.</param>
    /// <param name="JoulesBefore">Burnt before PET 0 while it is used.</param>
    /// <param name="Most">What may be used.</param>
    /// <param name="ReserveRate">Used in each second of the reserve.</param>
    private sealed record Supply(double Factor, int Starts, double PerJoule, double PerSecond, double PerDarkSecond, double JoulesBefore, double Most, double ReserveRate);
}
