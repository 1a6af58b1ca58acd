using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Cooling by water that evaporates into vacuum.</summary>
/// <remarks>
/// Heat of evaporation after IAPWS-IF97 (reference "water"), by straight lines between the rows. The true curve is hollow, so a line
/// lies above it, by less than 0.01 kJ/kg; that much is taken off between rows, so that no less water is told than is used.
/// </remarks>
public static class Evaporation
{
    private const double LineError = 10;

    // °C and J/kg.
    private static readonly (double Celsius, double JoulesPerKilogram)[] Rows =
        [(0.01, 2500910), (2, 2496175), (4, 2491425), (5, 2489052), (10, 2477209), (20, 2453550)];

    /// <summary>Heat that a kilogram of water carries off, J/kg; never above the true figure.</summary>
    /// <param name="kelvin">Temperature of the water that evaporates.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0.01 to 20 °C, where no figure is known here.</exception>
    public static double JoulesPerKilogram(double kelvin)
    {
        // Kelvins made of the rows' own degrees may lie a last bit beside them.
        double celsius = Math.Round(kelvin - 273.15, 9);
        if (!(celsius >= Rows[0].Celsius && celsius <= Rows[^1].Celsius))
            throw new ArgumentOutOfRangeException(nameof(kelvin), kelvin, "expected water at 273.16 to 293.15 K");
        for (int i = 1; ; i++)
        {
            ((double low, double atLow), (double high, double atHigh)) = (Rows[i - 1], Rows[i]);
            if (celsius > high) continue;
            if (celsius == low) return atLow;
            if (celsius == high) return atHigh;
            return atLow + (atHigh - atLow) * (celsius - low) / (high - low) - LineError;
        }
    }

    /// <summary>Water that carries off a flow of heat, kg/s; none when the flow is not above zero.</summary>
    /// <param name="watts">Heat to be carried off.</param>
    /// <param name="kelvin">Temperature of the water that evaporates.</param>
    public static Estimate KilogramsPerSecond(Estimate watts, double kelvin)
    {
        double heat = JoulesPerKilogram(kelvin);
        return new(Math.Max(0, watts.Low) / heat, Math.Max(0, watts.Likely) / heat, Math.Max(0, watts.High) / heat);
    }
}
