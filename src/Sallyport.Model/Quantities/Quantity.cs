using System.Globalization;

namespace Sallyport.Model;

/// <summary>What a figure measures. A figure of one dimension is never taken for another.</summary>
public enum Dimension
{
    /// <summary>Time; canonical unit second.</summary>
    Time,
    /// <summary>Length; canonical unit metre.</summary>
    Length,
    /// <summary>Speed; canonical unit metre a second.</summary>
    Speed,
    /// <summary>Mass; canonical unit kilogram.</summary>
    Mass,
    /// <summary>Volume; canonical unit cubic metre.</summary>
    Volume,
    /// <summary>Force; canonical unit newton.</summary>
    Force,
    /// <summary>Torque; canonical unit newton metre.</summary>
    Torque,
    /// <summary>Pressure; canonical unit pascal.</summary>
    Pressure,
    /// <summary>Power, metabolic rate too; canonical unit watt.</summary>
    Power,
    /// <summary>Energy; canonical unit joule.</summary>
    Energy,
    /// <summary>Temperature; canonical unit kelvin.</summary>
    Temperature,
    /// <summary>Angle; canonical unit radian.</summary>
    Angle,
    /// <summary>Gas that flows, by volume; canonical unit cubic metre a second.</summary>
    Flow,
    /// <summary>What is lost, by mass; canonical unit kilogram a second.</summary>
    Leak,
    /// <summary>Rotation counted in turns, or a plain count; canonical unit one.</summary>
    Count,
}

/// <summary>A figure with its dimension in canonical (SI) units, and the text it was read from.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Value">The figure in the canonical unit of the dimension.</param>
/// <param name="Text">As written, with its unit: what is shown beside the SI value.</param>
public readonly record struct Quantity(Dimension Dimension, double Value, string Text)
{
    /// <summary>The text as written.</summary>
    public override string ToString() => Text;

    /// <summary>Reads a figure with a unit, such as <c>14 ft-lbf</c>.</summary>
    /// <param name="text">One number, blanks, one unit.</param>
    /// <param name="dimension">The dimension wanted; null takes any.</param>
    /// <param name="quantity">The figure, canonical.</param>
    /// <param name="problem">What is wrong with the text, or null.</param>
    public static bool TryParse(string text, Dimension? dimension, out Quantity quantity, out string? problem)
    {
        quantity = default;
        string trimmed = text.Trim();
        int split = 0;
        while (split < trimmed.Length && (char.IsAsciiDigit(trimmed[split]) || trimmed[split] is '.' or '-' or '+'
               || (trimmed[split] is 'e' or 'E' && split > 0 && split + 1 < trimmed.Length
                   && (char.IsAsciiDigit(trimmed[split + 1]) || (trimmed[split + 1] is '-' or '+' && split + 2 < trimmed.Length && char.IsAsciiDigit(trimmed[split + 2]))))))
            split++;
        if (!double.TryParse(trimmed.AsSpan(0, split), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
        {
            problem = "no number at its start";
            return false;
        }
        string name = trimmed[split..].Trim();
        if (name.Length == 0)
        {
            problem = "the unit is missing";
            return false;
        }
        if (!Units.TryFind(name, out Unit unit))
        {
            problem = $"unknown unit '{name}'";
            return false;
        }
        if (dimension is { } wanted && unit.Dimension != wanted)
        {
            problem = $"'{name}' measures {unit.Dimension.ToString().ToLowerInvariant()}, not {wanted.ToString().ToLowerInvariant()}";
            return false;
        }
        quantity = new(unit.Dimension, number * unit.Factor + unit.Offset, trimmed);
        problem = null;
        return true;
    }
}

/// <summary>A unit that files may use: canonical value = figure × <paramref name="Factor"/> + <paramref name="Offset"/>.</summary>
/// <param name="Name">As written in files.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">Exact by definition wherever a definition exists.</param>
/// <param name="Offset">Zero but for temperatures.</param>
public readonly record struct Unit(string Name, Dimension Dimension, double Factor, double Offset = 0);

/// <summary>Every unit that a file may use, in one place.</summary>
/// <remarks>
/// Factors follow the international definitions (inch 0.0254 m, avoirdupois pound 0.45359237 kg, standard gravity
/// 9.80665 m/s²): 1 ft·lbf = 0.3048 × 4.4482216152605 N·m, 1 psi = 6894.757293168 Pa (reference "units").
/// The Btu is the International Table one, 1055.05585262 J; mmHg is the conventional 133.322387415 Pa.
/// </remarks>
public static class Units
{
    private const double PoundForce = 4.4482216152605;
    private const double Foot = 0.3048;

    /// <summary>The table itself, in the order that help texts list it.</summary>
    public static IReadOnlyList<Unit> All { get; } =
    [
        new("s", Dimension.Time, 1), new("min", Dimension.Time, 60), new("h", Dimension.Time, 3600), new("d", Dimension.Time, 86400),
        new("mm", Dimension.Length, 0.001), new("cm", Dimension.Length, 0.01), new("m", Dimension.Length, 1), new("km", Dimension.Length, 1000),
        new("in", Dimension.Length, 0.0254), new("ft", Dimension.Length, Foot),
        new("m/min", Dimension.Speed, 1.0 / 60), new("m/s", Dimension.Speed, 1), new("ft/min", Dimension.Speed, Foot / 60),
        new("g", Dimension.Mass, 0.001), new("kg", Dimension.Mass, 1), new("lb", Dimension.Mass, 0.45359237),
        new("L", Dimension.Volume, 0.001), new("m3", Dimension.Volume, 1), new("ft3", Dimension.Volume, Foot * Foot * Foot),
        new("N", Dimension.Force, 1), new("lbf", Dimension.Force, PoundForce),
        new("N-m", Dimension.Torque, 1), new("ft-lbf", Dimension.Torque, Foot * PoundForce), new("in-lbf", Dimension.Torque, 0.0254 * PoundForce),
        new("Pa", Dimension.Pressure, 1), new("kPa", Dimension.Pressure, 1000), new("psi", Dimension.Pressure, 6894.757293168),
        new("mmHg", Dimension.Pressure, 133.322387415),
        new("W", Dimension.Power, 1), new("kW", Dimension.Power, 1000), new("Btu/h", Dimension.Power, 1055.05585262 / 3600),
        new("J", Dimension.Energy, 1), new("kJ", Dimension.Energy, 1000), new("Wh", Dimension.Energy, 3600), new("Btu", Dimension.Energy, 1055.05585262),
        new("K", Dimension.Temperature, 1), new("degC", Dimension.Temperature, 1, 273.15), new("degF", Dimension.Temperature, 5.0 / 9, 459.67 * 5 / 9),
        new("rad", Dimension.Angle, 1), new("deg", Dimension.Angle, Math.PI / 180),
        new("L/min", Dimension.Flow, 0.001 / 60), new("m3/s", Dimension.Flow, 1), new("ft3/min", Dimension.Flow, Foot * Foot * Foot / 60),
        new("g/h", Dimension.Leak, 0.001 / 3600), new("kg/s", Dimension.Leak, 1), new("kg/h", Dimension.Leak, 1.0 / 3600), new("lb/h", Dimension.Leak, 0.45359237 / 3600),
        new("turns", Dimension.Count, 1), new("pieces", Dimension.Count, 1), new("inhibits", Dimension.Count, 1), new("ratio", Dimension.Count, 1),
    ];

    private static readonly Dictionary<string, Unit> ByName = All.ToDictionary(unit => unit.Name, StringComparer.Ordinal);

    /// <summary>What one of a unit of this table is in the canonical unit.</summary>
    /// <exception cref="KeyNotFoundException">No unit has this name.</exception>
    public static double FactorOf(string name) => ByName[name].Factor;

    /// <summary>Finds a unit by the name it is written with; case matters, as it does in SI.</summary>
    public static bool TryFind(string name, out Unit unit) => ByName.TryGetValue(name, out unit);
}
