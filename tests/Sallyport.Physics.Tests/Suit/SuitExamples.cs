using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Tests.Physics;

/// <summary>People in suits for the tests, invented throughout.</summary>
internal static class SuitExamples
{
    public const string Lights = "lights on";
    public const string Dark = "lights off";

    /// <summary>Every class burns the same 300 W exactly, nothing leaks, 50 W of power: what can be reckoned by hand.</summary>
    public static SuitProfile Plain { get; } = new(
        new("EV1"),
        new(Exactly(300), Exactly(300), Exactly(300), Exactly(300), Exactly(300), "invented"),
        Exactly(1), Exactly(0.85), default, default, 273.16,
        new(Oxygen: 0.6, CarbonDioxide: 0.8, Feedwater: 4, Battery: 500 * 3600),
        [new(Lights, Exactly(50)), new(Dark, Exactly(20))],
        new(Duration.FromMinutes(30), Exertion.Light, Lights, "invented"));

    public static SuitProfile Spread { get; } = Plain with
    {
        Rates = new(new(90, 120, 150), new(180, 250, 350), new(150, 200, 280), new(230, 300, 400), new(350, 450, 580), "invented"),
        PersonFactor = new(0.85, 1, 1.2),
        RespiratoryQuotient = new(0.78, 0.85, 0.95),
        OxygenLeakKilogramsPerSecond = new(0, 1e-6, 3e-6),
        HeatLeakWatts = new(-60, 0, 60),
    };

    /// <summary>Purge, depress, then alone in vacuum, everything starting at its own moment, and back.</summary>
    public static ImmutableArray<SuitStretch> Walk(Exertion exertion) =>
    [
        new(At("-2:00"), At("-1:00"), Exertion.Rest, SuitState.OutOfSuit),
        new(At("-1:00"), At("-0:10"), Exertion.Rest, SuitState.OnUmbilical(Dark, vacuum: false)),
        new(At("-0:10"), At("0:00"), Exertion.Rest, new(true, true, false, Dark, false, true)),
        new(At("0:00"), At("0:05"), Exertion.Rest, new(true, true, true, Lights, false, true)),
        new(At("0:05"), At("6:00"), exertion, SuitState.OnItsOwn(Lights)),
        new(At("6:00"), At("6:30"), Exertion.Rest, SuitState.OnUmbilical(Dark, vacuum: false)),
    ];

    public static readonly Gen<SuitState> AnyState =
        Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool, Gen.Bool, Gen.Bool).Select((own, cartridge, power, water, lit) =>
            new SuitState(own, own || cartridge, power, lit ? Lights : Dark, water, own || water));

    public static readonly Gen<ImmutableArray<SuitStretch>> AnyPlan = Gen.Select(
        Gen.Int[-7200, 0], Gen.Select(Gen.Int[1, 4000], Gen.Enum<Exertion>(), AnyState).Array[1, 12]).Select((start, parts) =>
    {
        ImmutableArray<SuitStretch>.Builder stretches = ImmutableArray.CreateBuilder<SuitStretch>();
        foreach ((int seconds, Exertion exertion, SuitState state) in parts)
        {
            stretches.Add(new(Pet.FromSeconds(start), Pet.FromSeconds(start + seconds), exertion, state));
            start += seconds;
        }
        return stretches.ToImmutable();
    });

    public static Estimate Exactly(double value) => Estimate.Exactly(value);

    public static Pet At(string text) => Pet.TryParse(text, out Pet pet) ? pet : throw new ArgumentException(text);
}
