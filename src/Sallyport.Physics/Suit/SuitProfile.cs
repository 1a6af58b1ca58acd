using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Amounts of the four primary consumables: what is aboard, or what was used. Secondary oxygen is never counted.</summary>
/// <param name="Oxygen">Primary oxygen that can be drawn, kg.</param>
/// <param name="CarbonDioxide">Carbon dioxide that the cartridge takes, kg.</param>
/// <param name="Feedwater">Feedwater, kg.</param>
/// <param name="Battery">Energy, J.</param>
public sealed record SuitAmounts(double Oxygen, double CarbonDioxide, double Feedwater, double Battery)
{
    /// <summary>None of anything.</summary>
    public static SuitAmounts None { get; } = new(0, 0, 0, 0);

    /// <summary>What a full suit of the scenario holds.</summary>
    public static SuitAmounts In(Suit suit) => new(suit.PrimaryOxygen, suit.CarbonDioxide, suit.Feedwater, suit.Battery);

    /// <summary>One of the four.</summary>
    public double Of(Consumable kind) => kind switch
    {
        Consumable.Oxygen => Oxygen,
        Consumable.CarbonDioxide => CarbonDioxide,
        Consumable.Feedwater => Feedwater,
        _ => Battery,
    };
}

/// <summary>What is switched on in a suit.</summary>
/// <param name="Name">Such as <c>lights on</c>.</param>
/// <param name="Watts">What it draws.</param>
public sealed record PowerMode(string Name, Estimate Watts);

/// <summary>What must be left when repress starts: the primary supplies last this long at the high rate.</summary>
/// <param name="Length">How long.</param>
/// <param name="Exertion">At the high rate of this class.</param>
/// <param name="PowerMode">With this switched on.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record SuitReserve(Duration Length, Exertion Exertion, string PowerMode, string Source);

/// <summary>A person in a suit: what the body burns, what is aboard, how it is used.</summary>
/// <param name="Person">Who.</param>
/// <param name="Rates">Metabolic rates of a person of factor one.</param>
/// <param name="PersonFactor">This person's rate over that of factor one.</param>
/// <param name="RespiratoryQuotient">See <see cref="Energetics.WattHoursPerLitre"/>.</param>
/// <param name="OxygenLeakKilogramsPerSecond">Oxygen lost from the suit while it is on its own oxygen.</param>
/// <param name="HeatLeakWatts">Heat that comes in from outside in vacuum; below zero where the suit loses heat.</param>
/// <param name="FeedwaterKelvin">Temperature of the water that evaporates.</param>
/// <param name="Aboard">What the full suit holds.</param>
/// <param name="PowerModes">What can be switched on.</param>
/// <param name="Reserve">What must be left.</param>
public sealed record SuitProfile(
    PersonId Person, WorkRates Rates, Estimate PersonFactor, Estimate RespiratoryQuotient, Estimate OxygenLeakKilogramsPerSecond,
    Estimate HeatLeakWatts, double FeedwaterKelvin, SuitAmounts Aboard, ImmutableArray<PowerMode> PowerModes, SuitReserve Reserve)
{
    /// <summary>The mode by day.</summary>
    public const string LightsOff = "lights off";

    /// <summary>The mode in the station's night, and the one that the reserve is reckoned with.</summary>
    public const string LightsOn = "lights on";

    /// <summary>The person in the suit as a scenario describes both; null when it leaves one of them out.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="person">Who.</param>
    public static SuitProfile? Of(Scenario scenario, PersonId person)
    {
        SuitInUse? use = scenario.Suits.FirstOrDefault(one => one.People.Contains(person));
        Suit? suit = scenario.People.FirstOrDefault(one => one.Id == person)?.Suit;
        BodyFactor? factor = scenario.Body?.Factors.FirstOrDefault(one => one.Person == person);
        if (use is null || suit is null || factor is null) return null;
        Limit? limit = scenario.LimitOf("suit.reserve");
        Duration kept = limit is { Value.Dimension: Dimension.Time } ? Duration.CeilingFromSeconds(limit.Value.Value) : default;
        return new(
            person, scenario.Body!.Rates, factor.Factor, scenario.Body.RespiratoryQuotient, use.OxygenLeak, use.HeatLeak, use.FeedwaterKelvin, SuitAmounts.In(suit),
            [new(LightsOff, use.LightsOff), new(LightsOn, use.LightsOn)], new(kept, use.ReserveWork, LightsOn, limit?.Source ?? "the scenario gives no limit of suit.reserve"));
    }

    /// <summary>Everything that is wrong with it, each in words that name the figure; empty when it can be reckoned with.</summary>
    public ImmutableArray<string> Faults()
    {
        ImmutableArray<string>.Builder faults = ImmutableArray.CreateBuilder<string>();
        void Want(bool good, string fault)
        {
            if (!good) faults.Add(fault);
        }
        foreach (Exertion exertion in Enum.GetValues<Exertion>())
            Want(Rates.Watts(exertion, Estimate.Exactly(1)).Low > 0, $"the metabolic rate of {exertion} work is not above 0 W");
        Want(PersonFactor.Low > 0, $"the person factor {PersonFactor.Low} is not above 0");
        Want(RespiratoryQuotient is { Low: >= 0.7, High: <= 1.2 }, $"the respiratory quotient {RespiratoryQuotient.Low} to {RespiratoryQuotient.High} is not within 0.7 to 1.2");
        Want(OxygenLeakKilogramsPerSecond.Low >= 0, "the oxygen leak is below zero");
        Want(Math.Round(FeedwaterKelvin, 9) is >= 273.16 and <= 293.15, $"the feedwater evaporates at {FeedwaterKelvin} K, not at 273.16 to 293.15 K");
        Want(Aboard.Oxygen > 0, "the suit has no primary oxygen");
        Want(Aboard.CarbonDioxide > 0, "the suit has no cartridge");
        Want(Aboard.Feedwater > 0, "the suit has no feedwater");
        Want(Aboard.Battery > 0, "the suit has no battery");
        foreach (Consumable kind in Enum.GetValues<Consumable>())
            Want(double.IsFinite(Aboard.Of(kind)), $"the amount of {kind.InWords()} aboard is not a finite number");
        Want(!PowerModes.IsEmpty, "nothing in the suit draws power");
        foreach (PowerMode mode in PowerModes) Want(mode.Watts.Low > 0, $"'{mode.Name}' draws no power");
        foreach (IGrouping<string, PowerMode> same in PowerModes.GroupBy(mode => mode.Name).Where(group => group.Count() > 1))
            faults.Add($"'{same.Key}' is given {same.Count()} times");
        Want(Reserve.Length.Seconds >= 0, "the reserve is below zero");
        Want(PowerModes.Any(mode => mode.Name == Reserve.PowerMode), $"the reserve is reckoned with '{Reserve.PowerMode}', which the suit does not have");
        if (faults.Count == 0)
            foreach (Consumable kind in Enum.GetValues<Consumable>())
            {
                double reserve = SuitRates.OnReserve(this).Of(kind).High * Reserve.Length.Seconds;
                Want(reserve <= Aboard.Of(kind), $"the reserve of {kind.InWords()}, {reserve} {kind.Unit()}, is above what is aboard, {Aboard.Of(kind)} {kind.Unit()}");
            }
        return faults.ToImmutable();
    }

    /// <summary>What a mode draws, W.</summary>
    internal Estimate Watts(string powerMode) =>
        powerMode.Length == 0 ? default
        : PowerModes.FirstOrDefault(mode => mode.Name == powerMode)?.Watts ?? throw new ArgumentException($"{Person}: the suit has no '{powerMode}'");
}
