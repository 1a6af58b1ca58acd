using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nobody is outside for long while the station passes a region of high radiation.</summary>
internal sealed class RadiationHigh : Rule
{
    public override RuleCard Card { get; } = new(new("radiation.high"),
        "a dose that waiting inside would have spared",
        "for each person, the time outside while the station passes a region of high radiation, added up over the walk; how high it is there is not looked at",
        "the scenario's limit; zero keeps everybody in",
        Guard.Decoder("when the station passes is known beforehand: time outside then is added up to the second, so that search ends the walk earlier"));

    public override string? Missing(Scenario scenario) =>
        scenario.Sky.Radiation is null ? "nobody has said when the station passes a region of high radiation" : MissingLimit(scenario, Dimension.Time);

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        int most = (int)Math.Floor(limit.Value.Value);
        double near = limit.NearMargin;
        ImmutableArray<PetInterval> high = given.History.While(given.History["sky radiation"], state => state == "high");
        foreach (PersonId person in given.People)
        {
            int sum = 0;
            Pet? over = null, last = null;
            foreach (PetInterval pass in Intervals.Common(given.Outside(person), high))
            {
                int length = pass.To.Since(pass.From).Seconds;
                if (sum + length > most) over ??= pass.From.Plus(Duration.FromSeconds(most - sum));
                sum += length;
                last = pass.From;
            }
            int margin = most - sum;
            if (last is null || (margin >= 0 && margin >= near)) continue;
            Duration spent = Duration.FromSeconds(sum), allowed = Duration.FromSeconds(most);
            yield return Broken(given, over ?? last.Value, [person],
                $"{person} is outside for {spent} while the station passes a region of high radiation; the limit is {allowed}.",
                "Begin the walk at another time ('sky SCENARIO --slip' shows how the passes move), or end it before the pass.") with
            {
                Severity = margin < 0 ? Severity.Broken : Severity.Near,
                Measured = spent.ToString(),
                Limit = allowed.ToString(),
                Margin = Duration.FromSeconds(margin).ToString(),
                Source = SourceOf(limit),
            };
        }
    }
}
