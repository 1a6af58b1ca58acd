using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Where a piece of a way is, by the names of places: from one to another, or staying at one.</summary>
internal readonly record struct Passage(string From, string To)
{
    private const string Hatch = "hatch ";

    /// <summary>Staying where one is.</summary>
    public static Passage At(string place) => new(place, place);

    /// <summary>In through a hatch.</summary>
    public static Passage Through(Airlock airlock) => new(Places.At(airlock.Grip), Hatch + airlock.Id);

    /// <summary>With the hatch closed: nothing outside touches that.</summary>
    public static Passage Inside { get; } = At(Places.Inside);
}

/// <summary>A piece of a way, with the seconds that it takes.</summary>
internal readonly record struct WayLeg(Passage Where, int Seconds);
