using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The density of oxygen under pressure, where an ideal gas would be wrong by up to ten percent.</summary>
/// <remarks>
/// Density = P M / (Z R T), with Z by straight lines in pressure and temperature between the rows of a table computed from the
/// equation of state of Stewart, Jacobsen and Wagner (reference "oxygen-density"). The lines differ from that equation in Z by
/// −0.04 % to +0.12 %; the equation itself is good to about 0.1 % (from memory, unverified). Low and high therefore lie 0.25 % off.
/// </remarks>
public static class OxygenGas
{
    /// <summary>The share by which low and high lie off the likely density.</summary>
    public const double Margin = 0.0025;

    // As the equation of state states them.
    private const double MolarMass = 0.0319988;
    private const double GasConstant = 8.31434;
    private const double PascalsPerPsi = 6894.757293168;

    private static readonly double[] Kelvins = [273.15, 283.15, 293.15, 300];
    private static readonly double[] Psi = [0, 450, 900, 1200, 1500, 2000, 2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000];

    // A row a pressure, a column a temperature.
    private static readonly double[][] Z =
    [
        [1.00000, 1.00000, 1.00000, 1.00000], [0.97155, 0.97590, 0.97967, 0.98197], [0.94644, 0.95500, 0.96237, 0.96684],
        [0.93218, 0.94334, 0.95292, 0.95871], [0.92035, 0.93382, 0.94538, 0.95237], [0.90679, 0.92333, 0.93752, 0.94609],
        [0.90166, 0.92003, 0.93588, 0.94549], [0.90503, 0.92398, 0.94049, 0.95056], [0.91623, 0.93466, 0.95094, 0.96096],
        [0.93409, 0.95122, 0.96656, 0.97611], [0.95732, 0.97264, 0.98657, 0.99534], [0.98471, 0.99794, 1.01018, 1.01796],
        [1.01527, 1.02629, 1.03666, 1.04333], [1.04820, 1.05698, 1.06540, 1.07091],
    ];

    /// <summary>The density, kg/m³.</summary>
    /// <param name="pascals">Absolute pressure: 0 to 6000 psi.</param>
    /// <param name="kelvin">Temperature: 273.15 to 300 K, above which the equation of state makes no claim.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, where no figure is known here.</exception>
    public static Estimate KilogramsPerCubicMetre(double pascals, double kelvin)
    {
        double likely = pascals * MolarMass / (Compressibility(pascals, kelvin) * GasConstant * kelvin);
        return new(likely * (1 - Margin), likely, likely * (1 + Margin));
    }

    /// <summary>Z, which is one for an ideal gas; range and errors as for the density.</summary>
    public static double Compressibility(double pascals, double kelvin)
    {
        double psi = pascals / PascalsPerPsi;
        // 6000 psi told in pascals may come back a last bit above.
        if (!(psi >= 0 && psi <= Psi[^1] * (1 + 1e-12)))
            throw new ArgumentOutOfRangeException(nameof(pascals), pascals, "expected oxygen at 0 to 41.3685 MPa (6000 psi)");
        if (!(kelvin >= Kelvins[0] && kelvin <= Kelvins[^1]))
            throw new ArgumentOutOfRangeException(nameof(kelvin), kelvin, "expected oxygen at 273.15 to 300 K");
        (int row, double across) = Place(Psi, psi);
        (int column, double along) = Place(Kelvins, kelvin);
        double Line(int at) => Z[at][column] + (Z[at][column + 1] - Z[at][column]) * along;
        return Line(row) + (Line(row + 1) - Line(row)) * across;
    }

    /// <summary>The last row at or below a figure that has one above it, and how far the figure lies towards that.</summary>
    private static (int Row, double Share) Place(double[] rows, double figure)
    {
        int row = rows.Length - 2;
        while (rows[row] > figure) row--;
        return (row, (figure - rows[row]) / (rows[row + 1] - rows[row]));
    }
}

/// <summary>A bottle of oxygen.</summary>
/// <param name="CubicMetres">Volume of the gas in it.</param>
/// <param name="LeastPascals">The pressure below which its regulator gives nothing: what is left then is not usable.</param>
public sealed record OxygenBottle(double CubicMetres, double LeastPascals)
{
    /// <summary>Oxygen that can be drawn, kg. The low figure takes the low pressure, the high temperature and all errors at once.</summary>
    /// <param name="pascals">Pressure now.</param>
    /// <param name="kelvin">Temperature of the gas now.</param>
    /// <exception cref="ArgumentOutOfRangeException">A volume not above zero, or a state outside <see cref="OxygenGas"/>.</exception>
    public Estimate UsableKilograms(Estimate pascals, Estimate kelvin)
    {
        if (!(CubicMetres > 0)) throw new ArgumentOutOfRangeException(nameof(CubicMetres), CubicMetres, "expected a volume above zero");
        // What stays behind is reckoned at the other ends: cold and dense when little is to be left to draw.
        Estimate Density(double pressure, double temperature) => OxygenGas.KilogramsPerCubicMetre(pressure, temperature);
        double low = Density(pascals.Low, kelvin.High).Low - Density(LeastPascals, kelvin.Low).High;
        double likely = Density(pascals.Likely, kelvin.Likely).Likely - Density(LeastPascals, kelvin.Likely).Likely;
        double high = Density(pascals.High, kelvin.Low).High - Density(LeastPascals, kelvin.High).Low;
        return new(CubicMetres * Math.Max(0, low), CubicMetres * Math.Max(0, likely), CubicMetres * Math.Max(0, high));
    }

    /// <summary>How long the bottle lasts at a stated flow, rounded down; reckoned with the low content.</summary>
    /// <param name="pascals">Pressure now.</param>
    /// <param name="kelvin">Temperature of the gas now.</param>
    /// <param name="kilogramsPerSecond">The flow, above zero.</param>
    public Duration LastsAt(Estimate pascals, Estimate kelvin, double kilogramsPerSecond)
    {
        if (!(kilogramsPerSecond > 0))
            throw new ArgumentOutOfRangeException(nameof(kilogramsPerSecond), kilogramsPerSecond, "expected a flow above zero");
        return Duration.FromSeconds((int)Math.Floor(Math.Min(1e7, UsableKilograms(pascals, kelvin).Low / kilogramsPerSecond)));
    }
}
