using System.Collections.Immutable;
using System.Text.Json;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>The sky of a sortie, and states along an orbit, as JSON.</summary>
internal static class SkyJson
{
    public static byte[] Of(SkyReport report)
    {
        Sky sky = report.Scenario.Sky;
        return Bytes(new
        {
            Caution = Caution.Text,
            Scenario = report.Scenario.Id,
            report.Scenario.Sortie.PetZero,
            report.Span.From,
            report.Span.To,
            sky.Source,
            Elements = report is { Orbit: { } orbit, Times: { } known }
                ? new { orbit.Elements.Name, orbit.Elements.Epoch, AgeInDays = known.ElementAge, NoteAfterDays = orbit.NoteAfter, RefuseAfterDays = orbit.RefuseAfter } : null,
            Computed = report.Times is not { } times ? null : new
            {
                BetaInDegrees = times.Beta,
                Penumbra = Raw(times, times.Penumbra),
                Umbra = Raw(times, times.Umbra),
                SureUmbra = Raw(times, times.SureUmbra),
                Stations = Named(times, times.Stations),
                Relays = Named(times, times.Relays),
                Radiation = Named(times, times.Radiation),
            },
            Plan = new
            {
                NotFullDay = report.Shown(sky.Night),
                FullNight = report.Shown(sky.FullNight),
                NoLink = report.Shown(sky.NoLink),
                NoVoice = report.Shown(sky.NoVoice),
                Radiation = sky.Radiation is { } radiation ? report.Shown(radiation) : (ImmutableArray<PetInterval>?)null,
            },
            Sites = sky.Sites.Select(site => new { site.Site, Changes = site.Changes.Select(change => new { change.From, Light = change.Sun }) }),
        });
    }

    public static byte[] Of(OrbitElements elements, ImmutableArray<StateAt> states) => Bytes(new
    {
        Caution = Caution.Text,
        elements.Name,
        elements.Epoch,
        Frame = "TEME",
        States = states.Select(one => new
        {
            one.Minutes,
            PositionInKm = one.Fault == Sgp4Fault.None ? new[] { one.State.Position.X, one.State.Position.Y, one.State.Position.Z } : null,
            VelocityInKmPerSecond = one.Fault == Sgp4Fault.None ? new[] { one.State.Velocity.X, one.State.Velocity.Y, one.State.Velocity.Z } : null,
            Sgp4Code = (int)one.Fault,
        }),
    });

    private static object Named(SkyTimes times, ImmutableArray<NamedPassages> named) => named.Select(one => new { one.Name, Passages = Raw(times, one.Passages) });

    private static object Raw(SkyTimes times, ImmutableArray<Passage> passages) => passages.Select(one => new
    {
        FromSeconds = Math.Round(one.From, 1),
        ToSeconds = Math.Round(one.To, 1),
        FromUtc = times.PetZero.AddSeconds(Math.Round(one.From, 1)),
        ToUtc = times.PetZero.AddSeconds(Math.Round(one.To, 1)),
        one.CutAtStart,
        one.CutAtEnd,
    });

    private static byte[] Bytes(object value) => [.. JsonSerializer.SerializeToUtf8Bytes(value, PlanJson.Options), (byte)'\n'];
}
