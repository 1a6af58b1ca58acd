using Sallyport.Bench;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>A candidate that is decoded from where it differs from the one before comes to the same as one decoded from the start, and none is given up that may be taken.</summary>
public class CheckpointTests
{
    [Theory]
    [InlineData("skerry", 3_000)]
    [InlineData("tern", 3_000)]
    public void Decode_DemoFromACheckpoint_IsAsAfresh(string demo, int candidates) =>
        ComesToTheSame(ScenarioReader.Read(RepositoryFolder.Of("scenarios", demo)).Value!, candidates, demo);

    [Theory]
    [InlineData(15)]
    [InlineData(25)]
    public void Decode_FamilyFromACheckpoint_IsAsAfresh(int legs)
    {
        for (int seed = 1; seed <= 4; seed++) ComesToTheSame(FrozenFamily.Of(legs, seed), 500, $"{legs}-{seed}");
    }

    [Fact]
    public void Decode_RandomFromACheckpoint_IsAsAfresh()
    {
        (int Later, int GivenUp)[] counts = new (int, int)[120];
        Parallel.For(0, counts.Length, i => counts[i] = Compare(RandomScenario.Of(i + 1), 60, $"seed {i + 1}"));
        IsTried(counts.Sum(one => one.Later), counts.Sum(one => one.GivenUp), 60 * counts.Length, "random");
    }

    private static void ComesToTheSame(Scenario scenario, int candidates, string what)
    {
        (int later, int givenUp) = Compare(scenario, candidates, what);
        IsTried(later, givenUp, candidates, what);
    }

    private static void IsTried(int later, int givenUp, int candidates, string what)
    {
        Assert.True(later > candidates / 20, $"{what}: {later} of {candidates} went on from a checkpoint");
        Assert.True(givenUp > candidates / 20, $"{what}: {givenUp} of {candidates} were given up");
    }

    /// <summary>Decodes many candidates both ways; how many went on from a checkpoint, and how many were given up.</summary>
    private static (int Later, int GivenUp) Compare(Scenario scenario, int candidates, string what)
    {
        SearchCase all = new(scenario, new(scenario));
        Random random = new(candidates);
        Decoder afresh = new(all), onwards = new(all), limited = new(all);
        Bringing[] most = [.. all.Units.Select(unit => Bringing.MostOf(all, unit))];
        Candidate current = Starts.First(all);
        PlanScore held = afresh.Decode(current, []);
        onwards.Hold(current, held);
        limited.Hold(current, held);
        int later = 0, givenUp = 0;
        List<Deed> deeds = [];
        for (int i = 0; i < candidates; i++)
        {
            Candidate trial = current.Copy();
            for (int changes = random.Next(1, 3); changes > 0; changes--) Change(all, trial, most, random);
            deeds.Clear();
            PlanScore score = afresh.Decode(trial, [], deeds), again = onwards.Decode(trial, []);
            Assert.True(score == again, $"{what}, candidate {i}: {again} from unit {onwards.WentOnFrom} on instead of {score}");
            if (onwards.WentOnFrom > 0)
            {
                later++;
                if (onwards.Done is { } done) Assert.Equal(deeds, done);
                Assert.Equal(afresh.Commands().Select(Told), onwards.Commands().Select(Told));
                Assert.Equal(afresh.Voices().Select(voice => string.Join(' ', voice.Legs)), onwards.Voices().Select(voice => string.Join(' ', voice.Legs)));
            }
            // As search does it: what may just be taken is decoded in full, and what is given up is beyond what is taken.
            double weight = 5 + random.Next(20), point = random.Next(100), own = weight * score.Broken + score.End - point * score.Value, ceiling = own + random.Next(-4000, 2000);
            PlanScore tried = limited.Decode(trial, [], null, weight, ceiling, point);
            if (ceiling >= own) Assert.True(score == tried, $"{what}, candidate {i}: {tried} instead of {score}, which is below the ceiling");
            else if (tried == PlanScore.Worst) givenUp++;
            if (random.Next(20) == 0 || score.CompareTo(held) < 0)
            {
                (current, held) = (trial, score);
                onwards.Hold(current, held);
                limited.Hold(current, held);
            }
        }
        return (later, givenUp);
    }

    private static string Told((int Start, GroundEntry Entry) command) => $"{command.Start} {command.Entry}";

    private static void Change(SearchCase all, Candidate candidate, Bringing[] most, Random random)
    {
        int u = random.Next(all.Units.Length);
        switch (random.Next(6))
        {
            case 0:
                int job = random.Next(candidate.JobIn.Length);
                candidate.JobIn[job] = !candidate.JobIn[job] || !all.Leavable[job];
                break;
            case 1 when all.Units[u].Options.Length > 1:
                candidate.Options[u] = random.Next(all.Units[u].Options.Length);
                break;
            case 2:
                candidate.Bringing[u] = candidate.Bringing[u].Otherwise(most[u], random.Next(4), random.NextDouble());
                break;
            default:
                // To another place, as far as what must come before and after allows.
                int from = Array.IndexOf(candidate.Order, u), low = from, high = from;
                while (low > 0 && !all.Before[candidate.Order[low - 1]][u]) low--;
                while (high + 1 < candidate.Order.Length && !all.Before[u][candidate.Order[high + 1]]) high++;
                List<int> order = [.. candidate.Order];
                order.RemoveAt(from);
                order.Insert(random.Next(low, high + 1), u);
                order.CopyTo(candidate.Order);
                break;
        }
    }
}
