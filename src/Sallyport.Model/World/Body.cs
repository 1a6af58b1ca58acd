using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>How hard a stretch of a walk is on the body. To the classes of steps comes the way between them.</summary>
public enum Exertion
{
    /// <summary>Waiting, watching.</summary>
    Rest,
    /// <summary>Hand over hand.</summary>
    Translate,
    /// <summary>Small tools, photographs.</summary>
    Light,
    /// <summary>Bolts, connectors.</summary>
    Moderate,
    /// <summary>Large masses, forcing.</summary>
    Heavy,
}

/// <summary>The metabolic rate of each class of work for a person of factor one, W: data with a source, never hidden in code.</summary>
/// <param name="Rest">Waiting.</param>
/// <param name="Translate">Hand over hand.</param>
/// <param name="Light">Light work.</param>
/// <param name="Moderate">Moderate work.</param>
/// <param name="Heavy">Heavy work.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record WorkRates(Estimate Rest, Estimate Translate, Estimate Light, Estimate Moderate, Estimate Heavy, string Source)
{
    /// <summary>The rate of a class, W.</summary>
    /// <param name="exertion">Which class.</param>
    /// <param name="personFactor">What this person's rate is over that of factor one.</param>
    public Estimate Watts(Exertion exertion, Estimate personFactor) => (exertion switch
    {
        Exertion.Rest => Rest,
        Exertion.Translate => Translate,
        Exertion.Light => Light,
        Exertion.Moderate => Moderate,
        Exertion.Heavy => Heavy,
        _ => throw new ArgumentOutOfRangeException(nameof(exertion), exertion, "no such class of work"),
    }).Times(personFactor);

    /// <summary>The exertion that a step's class of work stands for.</summary>
    public static Exertion Of(WorkClass work) => work switch
    {
        WorkClass.Rest => Exertion.Rest,
        WorkClass.Light => Exertion.Light,
        WorkClass.Moderate => Exertion.Moderate,
        WorkClass.Heavy => Exertion.Heavy,
        _ => throw new ArgumentOutOfRangeException(nameof(work), work, "no such class of work"),
    };
}

/// <summary>What bodies burn in this sortie.</summary>
/// <param name="Rates">By class of work, for a person of factor one.</param>
/// <param name="RespiratoryQuotient">Carbon dioxide given over oxygen taken, by moles.</param>
/// <param name="Factors">What the rate of each person outside is over that of factor one.</param>
public sealed record Body(WorkRates Rates, Estimate RespiratoryQuotient, ImmutableArray<BodyFactor> Factors);

/// <summary>What a person's metabolic rate is over that of factor one.</summary>
/// <param name="Person">Who.</param>
/// <param name="Factor">The factor.</param>
public sealed record BodyFactor(PersonId Person, Estimate Factor);

/// <summary>The day of some people: from waking to the suit being off.</summary>
/// <param name="People">Whose.</param>
/// <param name="Waking">When they wake; before the walk, so below zero as a rule.</param>
/// <param name="SuitOff">From the start of repress until their suits are off.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record WorkDay(ImmutableArray<PersonId> People, Pet Waking, Duration SuitOff, string Source);
