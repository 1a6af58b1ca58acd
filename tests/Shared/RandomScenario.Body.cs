using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>
/// What the people of a random scenario do for themselves: checks of gloves, rests, steps that are led or rough, latest starts, helping each
/// other home. Drawn from a stream of its own, so that all else of a scenario stays what it is.
/// </summary>
internal sealed class RandomBody
{
    private const string Source = "invented for the test";
    private readonly Random random;

    private RandomBody(int seed) => random = new(seed ^ 0x0b0d1e5);

    /// <summary>A scenario with some of it, or none.</summary>
    public static Scenario Added(Scenario scenario, int seed) => new RandomBody(seed).Add(scenario);

    private bool Chance(int percent) => random.Next(100) < percent;

    private Scenario Add(Scenario scenario)
    {
        bool gloves = Chance(50), rest = Chance(40), led = Chance(50), late = Chance(20), help = Chance(40);
        GloveCheck? check = gloves && Chance(85) ? new(new(Duration.FromSeconds(60 + random.Next(90)), Duration.FromSeconds(10)), Chance(60), Source) : null;
        RestTime? pause = rest ? new(Duration.FromSeconds(120 + random.Next(300)), Source) : null;
        return scenario with
        {
            Checks = check is null && pause is null ? null : new(check, pause),
            Help = help ? new(Duration.FromMinutes(2 + random.Next(4)), 1 + random.Next(10) / 10.0, Duration.FromMinutes(6), Source) : null,
            Limits =
            [
                .. scenario.Limits,
                .. gloves ? new[] { Limit("glove.check", (check is null ? 300 : 70) + random.Next(40)) } : [],
                .. rest ? new[] { Limit("work.rest", 110 + random.Next(100)) } : [],
                .. led ? new[] { new Limit(new("voice.crowded"), new(Dimension.Count, 1 + random.Next(2), "at once"), null, Source, false) } : [],
                .. help ? new[] { Limit("return.help", 240) } : [],
            ],
            Jobs = [.. scenario.Jobs.Select(job => Marked(job, gloves, led, late))],
        };
    }

    private Job Marked(Job job, bool gloves, bool led, bool late) => job with
    {
        Latest = late && Chance(20) ? Pet.FromSeconds((120 + random.Next(200)) * 60) : null,
        Legs = [.. job.Legs.Select(leg => leg with
        {
            Latest = late && Chance(20) ? Pet.FromSeconds((150 + random.Next(200)) * 60) : null,
            Steps = [.. leg.Steps.Select(step => step with
            {
                Led = led && Chance(40),
                Rough = gloves && Chance(20),
                ChecksGloves = gloves && step.Time.Likely.Seconds >= 150 && Chance(15),
            })],
        })],
    };

    private static Limit Limit(string rule, int minutes) => new(new(rule), new(Dimension.Time, minutes * 60, $"{minutes} min"), null, Source, false);
}
