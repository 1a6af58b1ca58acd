using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The gas that washes carbon dioxide out of a helmet.</summary>
/// <remarks>
/// A plain balance: the carbon dioxide given, carried by the ventilation, adds R T ṅ / V̇ to what comes back from the cartridge. The share of it
/// that is breathed in again depends on the helmet: 1 is full mixing, on the safe side. No published figure was found to hold this against; the
/// figures are the suit owner's.
/// </remarks>
/// <param name="CubicMetresPerSecond">Gas that flows through the helmet, at the suit's own pressure and temperature.</param>
/// <param name="Kelvin">Its temperature.</param>
/// <param name="Mixing">The share breathed in again, above 0 and at most 1.</param>
/// <param name="CartridgeOutletPascals">Carbon dioxide in what the cartridge gives back while it has room.</param>
public sealed record Ventilation(double CubicMetresPerSecond, double Kelvin, double Mixing, double CartridgeOutletPascals)
{
    /// <summary>The gas of a helmet as a scenario describes it.</summary>
    public static Ventilation Of(HelmetFlow helmet) => new(helmet.CubicMetresPerSecond, helmet.Kelvin, helmet.Mixing, helmet.OutletPascals);

    /// <summary>The mean partial pressure breathed in while a body gives carbon dioxide at a rate, Pa.</summary>
    /// <param name="kilogramsPerSecond">Carbon dioxide given.</param>
    public double InspiredPascals(double kilogramsPerSecond)
    {
        if (!(CubicMetresPerSecond > 0)) throw new ArgumentException($"expected a ventilation above zero, found {CubicMetresPerSecond} m3/s");
        if (!(Kelvin > 0)) throw new ArgumentException($"expected a temperature above zero, found {Kelvin} K");
        if (!(Mixing is > 0 and <= 1)) throw new ArgumentException($"expected a mixing share above 0 and at most 1, found {Mixing}");
        if (!(CartridgeOutletPascals >= 0)) throw new ArgumentException($"expected a cartridge outlet not below zero, found {CartridgeOutletPascals} Pa");
        if (!(kilogramsPerSecond >= 0)) throw new ArgumentOutOfRangeException(nameof(kilogramsPerSecond), kilogramsPerSecond, "expected a rate not below zero");
        double molesPerSecond = kilogramsPerSecond / Energetics.CarbonDioxideMolarMass;
        return CartridgeOutletPascals + Mixing * molesPerSecond * Energetics.GasConstant * Kelvin / CubicMetresPerSecond;
    }

    /// <summary>Rolling means of what is breathed in over a plan, Pa, while the cartridge is in use.</summary>
    /// <param name="use">The plan.</param>
    /// <param name="window">The hour that the limit is stated for, or another.</param>
    /// <param name="level">For safety, the high level.</param>
    /// <exception cref="ArgumentException">The cartridge is in use at no time in the plan: nothing is known.</exception>
    public InspiredMeans MeansOver(SuitUse use, Duration window, Level level)
    {
        ConsumableCurve cartridge = use.Of(Consumable.CarbonDioxide);
        if (cartridge.Starts is null) throw new ArgumentException($"{use.Person}: the cartridge is in use at no time, so what is breathed in is not known");
        ImmutableArray<MeanPoint>.Builder means = ImmutableArray.CreateBuilder<MeanPoint>();
        List<RateStretch> closed = [];
        void Close()
        {
            if (closed.Count > 0) means.AddRange(RollingMean.Over([.. closed], window));
            closed.Clear();
        }
        ImmutableArray<RateStretch> given = use.CarbonDioxideGiven(level);
        for (int i = 0; i < given.Length; i++)
        {
            // With the suit open the air of the cabin is breathed, which is no part of this.
            if (use.Stretches[i].State.Cartridge) closed.Add(given[i] with { Rate = InspiredPascals(given[i].Rate) });
            else Close();
        }
        Close();
        Pet end = cartridge.Points[^1].At;
        Pet? full = cartridge.LeftAt(end, level) < 0 ? (cartridge with { Reserve = 0, RepressStart = end }).ReserveReached(level) : null;
        return new(means.ToImmutable(), full);
    }
}

/// <summary>Rolling means of the carbon dioxide breathed in, Pa.</summary>
/// <param name="Means">At every moment at which their slope changes.</param>
/// <param name="HoldsUntil">From here on the cartridge may be full and the means say nothing; null when they hold throughout.</param>
public sealed record InspiredMeans(ImmutableArray<MeanPoint> Means, Pet? HoldsUntil);
