using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>A state along an orbit, or why there is none.</summary>
/// <param name="Minutes">From the epoch of the elements.</param>
/// <param name="State">TEME; nothing when there is a fault.</param>
/// <param name="Fault">The model's own code.</param>
public sealed record StateAt(double Minutes, TemeState State, Sgp4Fault Fault);

/// <summary>States of a set of elements at moments.</summary>
/// <param name="Elements">The elements.</param>
/// <param name="States">In the order asked for.</param>
public sealed record OrbitStates(OrbitElements Elements, ImmutableArray<StateAt> States)
{
    /// <summary>Whether the model gave a state at every moment.</summary>
    public bool Whole => States.All(one => one.Fault == Sgp4Fault.None);

    /// <summary>Reads a file of elements and follows the orbit.</summary>
    /// <param name="file">Its name, as the user gave it.</param>
    /// <param name="minutes">From the epoch, either way.</param>
    public static ReadResult<OrbitStates> Of(string file, IEnumerable<double> minutes)
    {
        ReadResult<OrbitElements> read = OrbitReader.Read(file, file, null);
        if (read.Value is not { } elements) return new(null, read.Problems, read.Notes);
        Sgp4 orbit = new(elements);
        return new(new(elements, [.. minutes.Select(minute => new StateAt(minute, default, orbit.Propagate(minute, out TemeState state)) with { State = state })]), [], read.Notes);
    }

    /// <summary>The states as JSON.</summary>
    public byte[] Json() => SkyJson.Of(Elements, States);

    /// <summary>The states as a table.</summary>
    public string Text()
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"{Elements.Name}, epoch {Elements.Epoch:yyyy-MM-dd HH:mm:ss.ffffff} UTC\n{Caution.Text}\nSGP4, frame TEME, centre Earth. Elements lose some kilometres a day along the track.\n\n");
        text.Append(CultureInfo.InvariantCulture, $"{"minutes",12}  {"x km",16}  {"y km",16}  {"z km",16}  {"vx km/s",13}  {"vy km/s",13}  {"vz km/s",13}\n");
        foreach (StateAt one in States)
        {
            (Vector3D r, Vector3D v) = (one.State.Position, one.State.Velocity);
            text.Append(one.Fault == Sgp4Fault.None
                ? string.Create(CultureInfo.InvariantCulture, $"{one.Minutes,12:0.####}  {r.X,16:0.00000000}  {r.Y,16:0.00000000}  {r.Z,16:0.00000000}  {v.X,13:0.000000000}  {v.Y,13:0.000000000}  {v.Z,13:0.000000000}\n")
                : string.Create(CultureInfo.InvariantCulture, $"{one.Minutes,12:0.####}  no state: the orbit {OrbitProblems.Why(one.Fault)} (SGP4 code {(int)one.Fault})\n"));
        }
        return text.ToString();
    }
}
