using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>An attitude as a scenario gives it.</summary>
/// <param name="Flown">How the station flies, all the time.</param>
/// <param name="Glare">Nearer than this to where somebody looks the Sun is in the eyes, degrees.</param>
public sealed record AttitudeRead(Attitude Flown, double Glare);

/// <summary>The section <c>orbit</c> of a scenario, and the elements that it names once they are read.</summary>
internal sealed record OrbitGiven(
    TextNode? File, double NoteAfter, double RefuseAfter, ImmutableArray<GroundStation> Stations, ImmutableArray<Relay> Relays,
    ImmutableArray<RadiationRegion> Regions, AttitudeRead? Attitude, string Source);

/// <summary>The orbit of a scenario: all that its sky is computed from.</summary>
/// <param name="Elements">The elements.</param>
/// <param name="File">Their file, for messages.</param>
/// <param name="NoteAfter">Days of age after which a note is due.</param>
/// <param name="RefuseAfter">Days of age after which they are refused.</param>
/// <param name="Stations">Ground stations.</param>
/// <param name="Relays">Relays.</param>
/// <param name="Regions">Regions of high radiation.</param>
/// <param name="Attitude">How the station flies; null when it is not said.</param>
/// <param name="ByHand">What the scenario gives by hand beside it.</param>
public sealed record ScenarioOrbit(
    OrbitElements Elements, string File, double NoteAfter, double RefuseAfter, ImmutableArray<GroundStation> Stations, ImmutableArray<Relay> Relays,
    ImmutableArray<RadiationRegion> Regions, AttitudeRead? Attitude, Sky ByHand)
{
    /// <summary>The PET that a sky is computed for: from before anybody is outside until well after the limit of the sortie.</summary>
    public static PetInterval SpanOf(Scenario scenario)
    {
        int end = Math.Clamp((LimitOf(scenario) + 3599) / 3600 + 3, 10, 48);
        return new(Pet.FromSeconds(-2 * 3600), Pet.FromSeconds(end * 3600));
    }

    /// <summary>The limit of the sortie, s of PET; zero when none is given.</summary>
    public static int LimitOf(Scenario scenario) =>
        scenario.LimitOf("pet.limit") is { Value: { Dimension: Dimension.Time, Value: var seconds } } ? (int)Math.Clamp(seconds, 0, 48 * 3600) : 0;

    /// <summary>Computes the sky of a scenario from this orbit.</summary>
    /// <returns>The times, and the scenario with them; or the problem that there are none.</returns>
    public (SkyTimes? Times, Scenario? Scenario, Problem? Problem) Over(Scenario scenario)
    {
        SkyOutcome outcome = SkyOutlook.SkyOf(Elements, Stations, Relays, Regions, scenario.Sortie.PetZero, SpanOf(scenario));
        if (outcome.Times is not { } times) return (null, null, OrbitProblems.Lost(File, outcome.FaultAt!.Value, outcome.Fault));
        ImmutableArray<SiteLight> sites = Attitude is { } attitude ? SiteSun.Of(Elements, attitude.Flown, attitude.Glare, times, scenario.Station) : [];
        return (times, scenario with { Sky = times.With(ByHand, sites) }, null);
    }

    /// <summary>The scenario with its PET zero later by so much, and the sky of then.</summary>
    /// <returns>Both, or the problem: elements too old by then, or an orbit that does not last.</returns>
    public (Scenario? Scenario, SkyTimes? Times, Problem? Problem) At(Scenario scenario, Duration later)
    {
        Scenario moved = scenario with { Sortie = scenario.Sortie with { PetZero = scenario.Sortie.PetZero.AddSeconds(later.Seconds) } };
        OrbitUse use = UseAt(moved.Sortie.PetZero, SpanOf(scenario), NoteAfter, RefuseAfter);
        double age = Math.Max(Elements.AgeInDays(use.From), Elements.AgeInDays(use.To));
        if (age > RefuseAfter) return (null, null, OrbitProblems.OldThen(File, Elements.Epoch, age, use));
        (SkyTimes? times, Scenario? lit, Problem? problem) = Over(moved);
        return (lit, times, problem);
    }

    /// <summary>For when the elements are used, in a sortie at this PET zero.</summary>
    public static OrbitUse UseAt(DateTime petZero, PetInterval span, double noteAfter, double refuseAfter) =>
        new(petZero.AddSeconds(span.From.Seconds), petZero.AddSeconds(span.To.Seconds), noteAfter, refuseAfter);
}
