using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What a body burns: metabolic rate, the oxygen it takes and the carbon dioxide it gives.</summary>
/// <remarks>
/// The energy equivalent of oxygen is that of ISO 8996, EE = 5.88 (0.23 RQ + 0.77) W·h a litre of oxygen at 0 °C, 101.325 kPa, dry
/// (reference "energetics"). Litres are turned into mass as of an ideal gas, so that the respiratory quotient is a ratio of moles;
/// a litre of the real gas weighs 0.1 % (oxygen) and 0.7 % (carbon dioxide) more. External work is taken as none: all of it becomes heat.
/// </remarks>
public static class Energetics
{
    /// <summary>The molar gas constant, J/(mol·K): exact since the SI of 2019.</summary>
    public const double GasConstant = 8.31446261815324;

    /// <summary>Molar mass of oxygen, kg/mol.</summary>
    public const double OxygenMolarMass = 0.031998;

    /// <summary>Molar mass of carbon dioxide, kg/mol.</summary>
    public const double CarbonDioxideMolarMass = 0.044009;

    /// <summary>Litres a mole of an ideal gas at 0 °C and 101.325 kPa.</summary>
    public const double LitresPerMole = GasConstant * 273.15 / 101325 * 1000;

    private const double SecondsPerHour = 3600;

    /// <summary>Watt hours a litre of oxygen.</summary>
    /// <param name="respiratoryQuotient">Carbon dioxide given over oxygen taken, by moles: 0.7 (fat) to 1.0 (sugar), a little above in hard work.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0.7 to 1.2.</exception>
    public static double WattHoursPerLitre(double respiratoryQuotient)
    {
        if (!(respiratoryQuotient is >= 0.7 and <= 1.2))
            throw new ArgumentOutOfRangeException(nameof(respiratoryQuotient), respiratoryQuotient, "expected a respiratory quotient of 0.7 to 1.2");
        return 5.88 * (0.23 * respiratoryQuotient + 0.77);
    }

    /// <summary>Litres of oxygen an hour that a metabolic rate takes.</summary>
    /// <param name="watts">Metabolic rate, W.</param>
    /// <param name="respiratoryQuotient">See <see cref="WattHoursPerLitre"/>.</param>
    public static double OxygenLitresPerHour(double watts, double respiratoryQuotient) => watts / WattHoursPerLitre(respiratoryQuotient);

    /// <summary>The metabolic rate that a measured use of oxygen stands for, W.</summary>
    /// <param name="litresPerHour">Oxygen taken, litres an hour at 0 °C, 101.325 kPa, dry.</param>
    /// <param name="respiratoryQuotient">See <see cref="WattHoursPerLitre"/>.</param>
    public static double WattsFromOxygen(double litresPerHour, double respiratoryQuotient) => litresPerHour * WattHoursPerLitre(respiratoryQuotient);

    /// <summary>Oxygen a metabolic rate takes, kg/s. The high figure goes with the low quotient, which takes more oxygen.</summary>
    /// <param name="watts">Metabolic rate, W.</param>
    /// <param name="respiratoryQuotient">See <see cref="WattHoursPerLitre"/>.</param>
    public static Estimate OxygenKilogramsPerSecond(Estimate watts, Estimate respiratoryQuotient) => new(
        Oxygen(watts.Low, respiratoryQuotient.High), Oxygen(watts.Likely, respiratoryQuotient.Likely), Oxygen(watts.High, respiratoryQuotient.Low));

    /// <summary>Carbon dioxide a metabolic rate gives, kg/s. The high figure goes with the high quotient.</summary>
    /// <param name="watts">Metabolic rate, W.</param>
    /// <param name="respiratoryQuotient">See <see cref="WattHoursPerLitre"/>.</param>
    public static Estimate CarbonDioxideKilogramsPerSecond(Estimate watts, Estimate respiratoryQuotient) => new(
        CarbonDioxide(watts.Low, respiratoryQuotient.Low), CarbonDioxide(watts.Likely, respiratoryQuotient.Likely),
        CarbonDioxide(watts.High, respiratoryQuotient.High));

    /// <summary>The surface of a body, m², after Du Bois and Du Bois (reference "body-surface").</summary>
    /// <param name="kilograms">Body mass.</param>
    /// <param name="metres">Height.</param>
    /// <exception cref="ArgumentOutOfRangeException">Either is not above zero.</exception>
    public static double BodySurfaceSquareMetres(double kilograms, double metres)
    {
        if (!(kilograms > 0)) throw new ArgumentOutOfRangeException(nameof(kilograms), kilograms, "expected a mass above zero");
        if (!(metres > 0)) throw new ArgumentOutOfRangeException(nameof(metres), metres, "expected a height above zero");
        return 0.202 * Math.Pow(kilograms, 0.425) * Math.Pow(metres, 0.725);
    }

    private static double Oxygen(double watts, double respiratoryQuotient) =>
        OxygenLitresPerHour(watts, respiratoryQuotient) / LitresPerMole * OxygenMolarMass / SecondsPerHour;

    private static double CarbonDioxide(double watts, double respiratoryQuotient) =>
        respiratoryQuotient * OxygenLitresPerHour(watts, respiratoryQuotient) / LitresPerMole * CarbonDioxideMolarMass / SecondsPerHour;
}
