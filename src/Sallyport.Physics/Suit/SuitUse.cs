using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The moment by which repress must start, and why.</summary>
/// <param name="Person">Whose supplies.</param>
/// <param name="Binds">Which of them.</param>
/// <param name="At">The last whole second.</param>
public sealed record SuitCutOff(PersonId Person, Consumable Binds, Pet At);

/// <summary>What a person's suit uses over a plan.</summary>
/// <param name="Person">Who.</param>
/// <param name="Stretches">The plan.</param>
/// <param name="Rates">One a stretch.</param>
/// <param name="Curves">One a consumable, in the order of <see cref="Consumable"/>.</param>
/// <param name="NotReckoned">What this says nothing of, in words; never to be shown as clean.</param>
public sealed record SuitUse(
    PersonId Person, ImmutableArray<SuitStretch> Stretches, ImmutableArray<SuitRates> Rates, ImmutableArray<ConsumableCurve> Curves,
    ImmutableArray<string> NotReckoned)
{
    /// <summary>Metabolic rate over the plan, W: what rolling means of work are made from.</summary>
    public ImmutableArray<RateStretch> Metabolic(Level level) => Rate(rates => rates.MetabolicWatts[level]);

    /// <summary>Carbon dioxide given by the body over the plan, kg/s, whoever takes it up.</summary>
    public ImmutableArray<RateStretch> CarbonDioxideGiven(Level level) => Rate(rates => rates.CarbonDioxideGiven[level]);

    /// <summary>The curve of one consumable.</summary>
    public ConsumableCurve Of(Consumable kind) => Curves.First(curve => curve.Kind == kind);

    /// <summary>When the first reserve is reached, and of what; null when none ever is.</summary>
    /// <param name="use">For safety, the high level.</param>
    public SuitCutOff? CutOff(Level use) => Earliest(Curves.Select(curve => curve.ReserveReached(use) is { } at ? new SuitCutOff(Person, curve.Kind, at) : null));

    /// <summary>The cut-off of the worst person.</summary>
    /// <exception cref="ArgumentException">Nobody is given: nothing is known of nobody.</exception>
    public static SuitCutOff? CutOff(ImmutableArray<SuitUse> people, Level use) =>
        people.IsEmpty ? throw new ArgumentException("expected at least one person") : Earliest(people.Select(person => person.CutOff(use)));

    /// <summary>Reckons what a person's suit uses.</summary>
    /// <param name="profile">The person in the suit.</param>
    /// <param name="stretches">The plan, without a gap, rising in time.</param>
    /// <param name="repressStart">When repress starts: what follows it, on an umbilical or out of the suit, does not put the cut-off later.</param>
    /// <param name="usedBefore">What was used before the first of them, such as read during the walk; <see cref="SuitAmounts.None"/> from a full suit.</param>
    /// <exception cref="ArgumentException">A fault of the profile or of a stretch, in words; stretches out of order or with gaps; repress outside
    /// them; more used before than was aboard, or less than nothing.</exception>
    public static SuitUse Over(SuitProfile profile, ImmutableArray<SuitStretch> stretches, Pet repressStart, SuitAmounts usedBefore)
    {
        if (profile.Faults() is [_, ..] faults) throw new ArgumentException($"{profile.Person}: {string.Join("; ", faults)}");
        if (stretches.IsEmpty) throw new ArgumentException($"{profile.Person}: expected at least one stretch");
        foreach (Consumable kind in Enum.GetValues<Consumable>())
            if (!(usedBefore.Of(kind) >= 0 && usedBefore.Of(kind) <= profile.Aboard.Of(kind)))
                throw new ArgumentException($"{profile.Person}: {usedBefore.Of(kind)} {kind.Unit()} of {kind.InWords()} used before, of {profile.Aboard.Of(kind)} aboard");
        RollingMean.RequireJoined([.. stretches.Select(stretch => new RateStretch(stretch.From, stretch.To, 0))]);
        ImmutableArray<SuitRates> rates = [.. stretches.Select(stretch => SuitRates.Of(profile, stretch.Exertion, stretch.State))];
        if (repressStart < stretches[0].From || repressStart > stretches[^1].To)
            throw new ArgumentException($"{profile.Person}: repress starts at {repressStart}, outside the plan from {stretches[0].From} to {stretches[^1].To}");
        SuitRates reserve = SuitRates.OnReserve(profile);
        ConsumableCurve Curve(Consumable kind)
        {
            ImmutableArray<CurvePoint>.Builder points = ImmutableArray.CreateBuilder<CurvePoint>(stretches.Length + 1);
            points.Add(new(stretches[0].From, Estimate.Exactly(usedBefore.Of(kind))));
            Pet? starts = null;
            for (int i = 0; i < stretches.Length; i++)
            {
                Estimate rate = rates[i].Of(kind);
                if (starts is null && rate.High > 0) starts = stretches[i].From;
                points.Add(new(stretches[i].To, points[i].Used.Plus(rate.Times((double)stretches[i].To.Seconds - stretches[i].From.Seconds))));
            }
            double kept = reserve.Of(kind).High * profile.Reserve.Length.Seconds;
            return new(kind, profile.Aboard.Of(kind), kept, reserve.Of(kind), repressStart, starts, points.MoveToImmutable());
        }
        ImmutableArray<ConsumableCurve> curves = [.. Enum.GetValues<Consumable>().Select(Curve)];
        return new(profile.Person, stretches, rates, curves, Unreckoned(curves, stretches));
    }

    private ImmutableArray<RateStretch> Rate(Func<SuitRates, double> of) =>
        [.. Stretches.Select((stretch, i) => new RateStretch(stretch.From, stretch.To, of(Rates[i])))];

    private static ImmutableArray<string> Unreckoned(ImmutableArray<ConsumableCurve> curves, ImmutableArray<SuitStretch> stretches)
    {
        ImmutableArray<string>.Builder words = ImmutableArray.CreateBuilder<string>();
        foreach (ConsumableCurve curve in curves)
            if (curve.Starts is null) words.Add($"{curve.Kind.InWords()}: not used in this plan");
        foreach (SuitStretch stretch in stretches)
            if (stretch.State is { OwnPower: true, WaterOn: false })
                words.Add($"heat: nothing is told to carry it off from {stretch.From} to {stretch.To}; what the body stores is not reckoned");
        return words.ToImmutable();
    }

    private static SuitCutOff? Earliest(IEnumerable<SuitCutOff?> cutOffs) => cutOffs.OfType<SuitCutOff>().MinBy(cutOff => cutOff.At);
}
