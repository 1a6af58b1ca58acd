using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The consumables that a walk is reckoned by: primary supplies only.</summary>
public enum Consumable
{
    /// <summary>Primary oxygen; kg.</summary>
    Oxygen,
    /// <summary>The cartridge's room for carbon dioxide; kg of carbon dioxide.</summary>
    CarbonDioxide,
    /// <summary>Feedwater; kg.</summary>
    Feedwater,
    /// <summary>Energy; J.</summary>
    Battery,
}

/// <summary>How consumables are written.</summary>
public static class Consumables
{
    /// <summary>Its name in a sentence.</summary>
    public static string InWords(this Consumable kind) => kind switch
    {
        Consumable.Oxygen => "primary oxygen",
        Consumable.CarbonDioxide => "carbon dioxide cartridge",
        Consumable.Feedwater => "feedwater",
        _ => "battery",
    };

    /// <summary>The unit of its amounts.</summary>
    public static string Unit(this Consumable kind) => kind == Consumable.Battery ? "J" : "kg";
}

/// <summary>How fast a suit uses what is aboard, for one exertion and one state of the suit.</summary>
/// <param name="MetabolicWatts">What the body burns.</param>
/// <param name="CarbonDioxideGiven">Carbon dioxide the body gives, whoever takes it up, kg/s.</param>
/// <param name="Oxygen">From the primary oxygen, kg/s.</param>
/// <param name="CarbonDioxide">Into the cartridge, kg/s.</param>
/// <param name="Feedwater">Evaporated, kg/s.</param>
/// <param name="Battery">From the battery, W.</param>
public sealed record SuitRates(
    Estimate MetabolicWatts, Estimate CarbonDioxideGiven, Estimate Oxygen, Estimate CarbonDioxide, Estimate Feedwater, Estimate Battery)
{
    /// <summary>The rate of one consumable, its unit a second.</summary>
    public Estimate Of(Consumable kind) => kind switch
    {
        Consumable.Oxygen => Oxygen,
        Consumable.CarbonDioxide => CarbonDioxide,
        Consumable.Feedwater => Feedwater,
        _ => Battery,
    };

    /// <summary>The rates of a person in a suit.</summary>
    /// <exception cref="ArgumentException">The suit has no such power mode; the water is on outside vacuum; the suit is closed on its own
    /// oxygen without its cartridge.</exception>
    public static SuitRates Of(SuitProfile profile, Exertion exertion, SuitState state)
    {
        if (state is { WaterOn: true, Vacuum: false }) throw new ArgumentException($"{profile.Person}: the cooling water is on outside vacuum");
        if (state is { OwnOxygen: true, Cartridge: false }) throw new ArgumentException($"{profile.Person}: on its own oxygen, and nothing takes up carbon dioxide");
        if (state is { OwnPower: true, PowerMode: "" }) throw new ArgumentException($"{profile.Person}: on the battery, and no power mode is told");
        Estimate watts = profile.Rates.Watts(exertion, profile.PersonFactor);
        Estimate power = profile.Watts(state.PowerMode);
        Estimate given = Energetics.CarbonDioxideKilogramsPerSecond(watts, profile.RespiratoryQuotient);
        Estimate oxygen = Energetics.OxygenKilogramsPerSecond(watts, profile.RespiratoryQuotient).Plus(profile.OxygenLeakKilogramsPerSecond);
        Estimate heat = watts.Plus(power).Plus(profile.HeatLeakWatts);
        return new(
            watts, given,
            state.OwnOxygen ? oxygen : default,
            state.Cartridge ? given : default,
            state.WaterOn ? Evaporation.KilogramsPerSecond(heat, profile.FeedwaterKelvin) : default,
            state.OwnPower ? power : default);
    }

    /// <summary>The rates that the reserve is reckoned with: on its own, at the exertion and in the mode that the reserve states.</summary>
    public static SuitRates OnReserve(SuitProfile profile) => Of(profile, profile.Reserve.Exertion, SuitState.OnItsOwn(profile.Reserve.PowerMode));
}
