namespace Sallyport.Physics;

/// <summary>An orbit and the Sun against PET.</summary>
internal sealed class OrbitTrack(OrbitElements elements, DateTime petZero)
{
    /// <summary>The pull of the Earth at its surface, km/s²: no orbit changes its speed faster.</summary>
    private const double StrongestPull = 0.0099;

    private readonly Sgp4 orbit = new(elements);
    private readonly double minutesAtZero = elements.MinutesTo(petZero);
    private readonly double daysAtZero = SkyTime.DaysFromJ2000(petZero);
    private readonly double terrestrialDaysAtZero = SkyTime.DaysFromJ2000(petZero) + SkyTime.TerrestrialLessUtc(petZero) / 86400;

    /// <summary>The state at a second of PET.</summary>
    public TemeState At(double second)
    {
        Sgp4Fault fault = orbit.Propagate(minutesAtZero + second / 60, out TemeState state);
        return fault == Sgp4Fault.None ? state : throw new OrbitLostException(fault, second);
    }

    public SunPlace SunAt(double second) => Sun.AtTerrestrial(terrestrialDaysAtZero + second / 86400);

    public Vector3D EarthFixed(TemeState state, double second) => Physics.EarthFixed.FromTeme(state.Position, daysAtZero + second / 86400);

    /// <summary>The highest speed, km/s, within a step before and after a state.</summary>
    public double SpeedBound(TemeState state) => state.Velocity.Length + StrongestPull * Crossings.Step;
}
