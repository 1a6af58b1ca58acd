using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>What can go wrong in a random scenario, from a stream of chance of its own: the rest of the scenario is the same without it.</summary>
internal static class RandomTroubles
{
    private const int Stream = 0x5A11;

    /// <summary>The scenario with contingencies at some of its steps, and with states that some of its features may be left in.</summary>
    public static Scenario With(Scenario scenario, int seed)
    {
        Random random = new(seed ^ Stream);
        ImmutableArray<Job> jobs = [.. scenario.Jobs.Select(job => job with { Contingencies = [.. job.Legs.SelectMany(leg => Of(random, leg))] })];
        return scenario with { Jobs = jobs };
    }

    private static IEnumerable<Contingency> Of(Random random, Leg leg)
    {
        foreach (Step step in leg.Steps)
        {
            if (random.Next(100) >= 20) continue;
            int likely = 3 + random.Next(15);
            Duration Minutes(int minutes) => Duration.FromMinutes(minutes);
            // A tool is wanted only where it hangs on the person in any case.
            yield return new(leg.Id, step.Id, $"Trouble at {step.Id}", 0.05, "invented for the test", new(Minutes(likely / 2), Minutes(likely), Minutes(likely * 2), "invented for the test"), "go on slowly")
            {
                Tools = random.Next(100) < 30 ? leg.With : [],
            };
        }
    }
}
