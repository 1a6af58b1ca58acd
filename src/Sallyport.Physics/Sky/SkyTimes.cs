using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What an orbit meets under one name: a station or relay in sight, or a region below.</summary>
/// <param name="Name">Of the station, relay or region.</param>
/// <param name="Passages">In order, not overlapping.</param>
public sealed record NamedPassages(string Name, ImmutableArray<Passage> Passages);

/// <summary>Day and night, links and radiation over a span of a sortie, as computed from an orbit; nothing is known outside the span.</summary>
/// <remarks>Times are good to 0.1 s as far as the elements are; the whole seconds for a plan are rounded so that nothing is promised that is not so.</remarks>
/// <param name="PetZero">PET 0:00, UTC.</param>
/// <param name="Span">What was looked at.</param>
/// <param name="ElementAge">Days from the epoch of the elements to the farther end of the span.</param>
/// <param name="Beta">At the middle of the span, degrees from the plane of the orbit to the Sun.</param>
/// <param name="Penumbra">While any of the Sun is covered, umbra included.</param>
/// <param name="Umbra">While all of it is.</param>
/// <param name="SureUmbra">The same for an Earth of the polar radius: the part of it that is dark for any shape of the Earth.</param>
/// <param name="Stations">Each ground station in sight.</param>
/// <param name="Relays">Each relay in sight.</param>
/// <param name="Radiation">Each region passed over.</param>
public sealed record SkyTimes(
    DateTime PetZero, PetInterval Span, double ElementAge, double Beta,
    ImmutableArray<Passage> Penumbra, ImmutableArray<Passage> Umbra, ImmutableArray<Passage> SureUmbra,
    ImmutableArray<NamedPassages> Stations, ImmutableArray<NamedPassages> Relays, ImmutableArray<NamedPassages> Radiation)
{
    /// <summary>How far a crossing may be off as computed, s; taken off a window that allows, added to one that forbids.</summary>
    private const double Doubt = 0.1;

    /// <summary>Whole seconds that are not full daylight, rounded outward: what needs day must keep out of them.</summary>
    public ImmutableArray<PetInterval> NotDay => Outward(Penumbra);

    /// <summary>Whole seconds of full darkness, rounded inward: what needs night may be done in them.</summary>
    public ImmutableArray<PetInterval> FullNight => Inward(SureUmbra);

    /// <summary>Whole seconds in which at least one station or relay is in sight, each link rounded inward before they are joined: a gap at a hand-over stays a gap.</summary>
    public ImmutableArray<PetInterval> Link => Joined(Stations.Concat(Relays).SelectMany(one => Inward(one.Passages)));

    /// <summary>The rest of the span: what needs a link must keep out of it.</summary>
    public ImmutableArray<PetInterval> NoLink
    {
        get
        {
            ImmutableArray<PetInterval>.Builder gaps = ImmutableArray.CreateBuilder<PetInterval>();
            Pet from = Span.From;
            foreach (PetInterval link in Link)
            {
                if (from < link.From) gaps.Add(new(from, link.From));
                from = link.To;
            }
            if (from < Span.To) gaps.Add(new(from, Span.To));
            return gaps.ToImmutable();
        }
    }

    /// <summary>Whole seconds over any region of high radiation, rounded outward.</summary>
    public ImmutableArray<PetInterval> InRadiation => Joined(Radiation.SelectMany(one => Outward(one.Passages)));

    /// <summary>The sky of a plan: these times, and what was given by hand beside them, which closes further and opens nothing.</summary>
    /// <remarks>Before and after the span nothing is known: it is taken as neither day nor night, without a link and in high radiation.</remarks>
    /// <param name="byHand">What is given beside; its source is kept.</param>
    /// <param name="sites">How the Sun stands to worksites.</param>
    public Sky With(Sky byHand, ImmutableArray<SiteLight> sites)
    {
        PetInterval[] unknown = [new(Earliest, Span.From), new(Span.To, Latest)];
        return byHand with
        {
            Night = Joined([.. NotDay, .. byHand.Night, .. unknown]),
            FullNight = FullNight,
            NoLink = Joined([.. NoLink, .. byHand.NoLink, .. unknown]),
            Radiation = Radiation.IsEmpty ? byHand.Radiation : Joined([.. InRadiation, .. byHand.Radiation ?? [], .. unknown]),
            Sites = sites,
        };
    }

    private static readonly Pet Earliest = Pet.FromSeconds(-100 * 3600), Latest = Pet.FromSeconds(100 * 3600);

    /// <summary>The instant of a PET, UTC.</summary>
    public DateTime Utc(Pet pet) => PetZero.AddSeconds(pet.Seconds);

    /// <summary>Whole seconds in which passages surely last, each rounded inward.</summary>
    public ImmutableArray<PetInterval> Surely(ImmutableArray<Passage> passages) => Inward(passages);

    private ImmutableArray<PetInterval> Outward(IEnumerable<Passage> passages) => Joined(passages.Select(passage => new PetInterval(
        passage.CutAtStart ? Span.From : Pet.FromSeconds(Math.Max(Span.From.Seconds, (int)Math.Floor(passage.From - Doubt))),
        passage.CutAtEnd ? Span.To : Pet.FromSeconds(Math.Min(Span.To.Seconds, (int)Math.Ceiling(passage.To + Doubt))))));

    private ImmutableArray<PetInterval> Inward(IEnumerable<Passage> passages) => [.. passages.Select(passage => new PetInterval(
        passage.CutAtStart ? Span.From : Pet.FromSeconds((int)Math.Ceiling(passage.From + Doubt)),
        passage.CutAtEnd ? Span.To : Pet.FromSeconds((int)Math.Floor(passage.To - Doubt)))).Where(interval => interval.From < interval.To)];

    private static ImmutableArray<PetInterval> Joined(IEnumerable<PetInterval> intervals)
    {
        List<PetInterval> joined = [];
        foreach (PetInterval next in intervals.OrderBy(interval => interval.From))
        {
            if (joined.Count > 0 && next.From <= joined[^1].To) joined[^1] = new(joined[^1].From, joined[^1].To < next.To ? next.To : joined[^1].To);
            else joined.Add(next);
        }
        return [.. joined];
    }
}
