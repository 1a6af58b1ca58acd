namespace Sallyport.Physics;

/// <summary>What takes up carbon dioxide in a cartridge, by its chemistry alone: no cartridge can take more.</summary>
/// <remarks>Ratios of molar masses after the reactions named (reference "absorbents").</remarks>
/// <param name="Name">As shown.</param>
/// <param name="CarbonDioxidePerMass">Kilograms of carbon dioxide that one kilogram takes, at most.</param>
/// <param name="WaterPerCarbonDioxide">Kilograms of water set free for each kilogram of carbon dioxide.</param>
public sealed record Absorbent(string Name, double CarbonDioxidePerMass, double WaterPerCarbonDioxide)
{
    private const double LithiumHydroxideMolarMass = 0.023947;
    private const double SilverOxideMolarMass = 0.2317354;
    private const double WaterMolarMass = 0.018015;

    /// <summary>2 LiOH + CO₂ → Li₂CO₃ + H₂O.</summary>
    public static Absorbent LithiumHydroxide { get; } = new(
        "lithium hydroxide", Energetics.CarbonDioxideMolarMass / (2 * LithiumHydroxideMolarMass), WaterMolarMass / Energetics.CarbonDioxideMolarMass);

    /// <summary>Ag₂O + CO₂ → Ag₂CO₃.</summary>
    public static Absorbent SilverOxide { get; } = new("silver oxide", Energetics.CarbonDioxideMolarMass / SilverOxideMolarMass, 0);

    /// <summary>Carbon dioxide that a cartridge takes, kg.</summary>
    /// <param name="kilograms">Absorbent in it, kg.</param>
    /// <param name="used">The share of it that is used before carbon dioxide breaks through, above 0 and at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A mass not above zero, or a share above one or not above zero.</exception>
    public double CartridgeKilograms(double kilograms, double used)
    {
        if (!(kilograms > 0)) throw new ArgumentOutOfRangeException(nameof(kilograms), kilograms, "expected a mass above zero");
        if (!(used is > 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(used), used, "expected a share above 0 and at most 1");
        return kilograms * used * CarbonDioxidePerMass;
    }
}
