using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>What a person does in the sortie.</summary>
public enum Role
{
    /// <summary>In a suit, outside.</summary>
    Outside,
    /// <summary>Inside, talking the others through it (IV).</summary>
    Inside,
    /// <summary>Moving an arm.</summary>
    ArmOperator,
}

/// <summary>A person of the sortie.</summary>
/// <param name="Id">Short name, such as EV1.</param>
/// <param name="Name">Full name.</param>
/// <param name="Role">What this person does.</param>
/// <param name="TrainedFor">Trainings held; steps may ask for them.</param>
/// <param name="Pace">How fast this person translates; null unless outside.</param>
/// <param name="CarryPoints">Where gear hangs on this suit.</param>
/// <param name="Reels">Lengths of the tether reels carried, in order of use, m. The first is hooked at the airlock.</param>
/// <param name="Suit">The suit; null unless outside.</param>
public sealed record Person(
    PersonId Id, string Name, Role Role, ImmutableArray<string> TrainedFor,
    Pace? Pace, ImmutableArray<CarryPoint> CarryPoints, ImmutableArray<double> Reels, Suit? Suit);

/// <summary>How fast a person translates, unladen.</summary>
/// <param name="Easy">On easy spans, m/s.</param>
/// <param name="Careful">On careful spans, m/s.</param>
/// <param name="Gap">Time for one gap.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record Pace(double Easy, double Careful, Duration Gap, string Source);

/// <summary>A place on a suit where one thing hangs.</summary>
/// <param name="Id">Such as waist or chest.</param>
/// <param name="Sizes">The size classes it takes.</param>
/// <param name="MaxMass">The most it takes, kg.</param>
public sealed record CarryPoint(CarryPointId Id, ImmutableArray<SizeId> Sizes, double MaxMass);

/// <summary>A size class of gear.</summary>
/// <param name="Id">Such as bag or bulky.</param>
/// <param name="Slower">What one such thing multiplies span times by; at least 1.</param>
public sealed record SizeClass(SizeId Id, double Slower);

/// <summary>A suit. Oxygen, water, power and cartridge are written now and judged by later rules.</summary>
/// <param name="CutOff">The PET by which this person must be inside on the plan's own reserve, as the suit's owner states it.</param>
/// <param name="CutOffSource">Where that figure comes from.</param>
/// <param name="Pressure">Lowest regulated pressure, Pa.</param>
/// <param name="PrimaryOxygen">Usable primary oxygen, kg.</param>
/// <param name="SecondaryOxygen">How long secondary oxygen lasts at its stated flow.</param>
/// <param name="Feedwater">Usable feedwater, kg.</param>
/// <param name="Battery">Usable battery energy, J.</param>
/// <param name="CarbonDioxide">Carbon dioxide the cartridge takes, kg.</param>
public sealed record Suit(
    Pet CutOff, string CutOffSource, double Pressure, double PrimaryOxygen, Duration SecondaryOxygen,
    double Feedwater, double Battery, double CarbonDioxide);

/// <summary>How people are kept tied to the structure.</summary>
public enum TetherProtocol
{
    /// <summary>A reel from a fixed anchor; what is paid out is the length of the way from it. Further reels are hooked on at
    /// anchors, and the earlier one stays there for the way back.</summary>
    Reel,
    /// <summary>Two short tethers moved in turn: any way is open, each span costs a hooking time, nothing pays out.</summary>
    Leapfrog,
}

/// <summary>The tether rules of the sortie.</summary>
/// <param name="Protocol">Which protocol.</param>
/// <param name="Swap">Reel: the time to change from one reel to the next at an anchor, either way.</param>
/// <param name="Hook">Leapfrog: the time each span takes for hooking.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record TetherRules(TetherProtocol Protocol, Duration Swap, Duration Hook, string Source)
{
    /// <summary>Reel: from the start of changing over, between two reels or between a reel and an arm, until the further hook is on and
    /// looked at; the other one is released at the end. Null when the scenario does not say.</summary>
    public Duration? Hooked { get; init; }
}
