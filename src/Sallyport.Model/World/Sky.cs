using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>The sky of a walk in PET, given by hand or computed from an orbit: light, link and radiation.</summary>
/// <param name="Night">When it is not full daylight, rounded outward, in order, not overlapping: what needs day keeps out of it.</param>
/// <param name="NoLink">When there is no link, in order, not overlapping.</param>
/// <param name="Source">Where the times come from.</param>
public sealed record Sky(ImmutableArray<PetInterval> Night, ImmutableArray<PetInterval> NoLink, string Source)
{
    private readonly ImmutableArray<PetInterval>? fullNight;

    /// <summary>When it is fully dark, each within a stretch of <see cref="Night"/>, in order: what needs night is done in it. Nights given by hand have no twilight.</summary>
    public ImmutableArray<PetInterval> FullNight { get => fullNight ?? Night; init => fullNight = value; }

    /// <summary>When the station passes a region of high radiation, in order, not overlapping; null when nobody has said.</summary>
    public ImmutableArray<PetInterval>? Radiation { get; init; }

    /// <summary>When the people outside, inside and at the arm cannot hear each other, in order, not overlapping.</summary>
    public ImmutableArray<PetInterval> NoVoice { get; init; } = [];

    /// <summary>They cannot hear each other while one of these is so either.</summary>
    public ImmutableArray<FeatureCondition> VoiceLost { get; init; } = [];

    /// <summary>How the Sun stands to worksites of which that can be told; may be none.</summary>
    public ImmutableArray<SiteLight> Sites { get; init; } = [];
}

/// <summary>How the Sun stands to a worksite.</summary>
public enum SunAtSite
{
    /// <summary>The Sun is behind the Earth, or partly so.</summary>
    None,
    /// <summary>A body of the station stands between.</summary>
    Shade,
    /// <summary>It shines on the worksite.</summary>
    Sun,
    /// <summary>It shines there, into the eyes of whoever works.</summary>
    Glare,
}

/// <summary>How the Sun stands to a worksite over the time looked at.</summary>
/// <param name="Site">Which.</param>
/// <param name="Changes">From when it is so, in order, the first at the beginning of the time; good to the step of the looking, half a minute.</param>
public sealed record SiteLight(SiteId Site, ImmutableArray<(Pet From, SunAtSite Sun)> Changes);
