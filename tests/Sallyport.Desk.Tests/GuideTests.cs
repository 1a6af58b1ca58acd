using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The guide from the starter to a station of one's own: each example applied in turn, read after each, planned where a plan is spoken
/// of. The info string of an example says what a reader of the guide is told to do with it.</summary>
public sealed partial class GuideTests
{
    private static string Guide => File.ReadAllText(RepositoryFolder.Of("docs", "scenario-guide.md")).Replace("\r\n", "\n");

    [Fact]
    public void Guide_EveryExampleInTurn_ReadsAndInTheEndPlansClean()
    {
        using TemporaryFolder temporary = new();
        string folder = Path.Combine(temporary.Path, "holm");
        Assert.Null(NewScenario.Write(folder).Problem);
        int applied = 0, refusals = 0;
        string refusal = "";
        foreach (Match block in Block().Matches(Guide))
        {
            string info = block.Groups[1].Value, text = block.Groups[2].Value;
            // Commands to type have no info string.
            if (info.Length == 0) continue;
            if (info == "text")
            {
                Assert.Equal(text, refusal);
                refusals++;
                continue;
            }
            string path = Path.Combine(folder, info[(info.IndexOf('=') + 1)..]);
            string? before = File.Exists(path) ? File.ReadAllText(path) : null;
            if (info.StartsWith("yaml new=", StringComparison.Ordinal))
            {
                Assert.Null(before);
                File.WriteAllText(path, text);
            }
            else
            {
                Assert.Matches("^yaml (wrong )?in=", info);
                File.WriteAllText(path, Put(before!, text));
            }
            ReadResult<Scenario> read = ScenarioReader.Read(folder);
            if (info.StartsWith("yaml wrong", StringComparison.Ordinal))
            {
                refusal = Assert.Single(read.Problems).ToString().Replace(temporary.Path + Path.DirectorySeparatorChar, "").Replace('\\', '/');
                File.WriteAllText(path, before);
                continue;
            }
            Assert.True(read.Ok, $"after the example '{info}':\n{Desk.Problem.Render(read.Problems)}");
            applied++;
        }
        Assert.True(applied > 8 && refusals > 0, $"only {applied} examples were applied, and {refusals} refused");
        AssertPlansClean(folder);
    }

    // The station is one's own by then: nothing of the starter's is left but what the guide says may be.
    private static void AssertPlansClean(string folder)
    {
        SortieDesk desk = Folders.Good(SortieDesk.Open(folder));
        Assert.Equal(("holm/spring", "Holm"), (desk.Scenario.Id, desk.Scenario.Station.Name));
        PlanOutcome outcome = desk.Plan("plan", effort: 2, seed: 7, from: null, _ => { }, CancellationToken.None);
        Assert.True(outcome.Plan is not null, outcome.Search!.Why);
        Assert.True(outcome.Plan.Verdict.Clean);
        Assert.Empty(outcome.Plan.Outline!.LeftOut);
        Assert.Equal(["fuse/change", "vane/change", "window/look"], outcome.Plan.Likely.Activities.OfType<DoStep>().Select(step => step.Leg.Value).Distinct().Order(StringComparer.Ordinal));
    }

    /// <summary>Puts sections in the place of those of the same names, or at the end.</summary>
    private static string Put(string file, string sections)
    {
        foreach (Match section in Section().Matches(sections))
        {
            Match old = Section().Matches(file).FirstOrDefault(one => one.Groups[1].Value == section.Groups[1].Value)!;
            file = old is null ? file + section.Value : file[..old.Index] + section.Value + file[(old.Index + old.Length)..];
        }
        return file;
    }

    [GeneratedRegex("^```(.*)\n((?:.*\n)*?)```$", RegexOptions.Multiline)]
    private static partial Regex Block();

    // From its name at the start of a line to the next name there.
    [GeneratedRegex("^([a-z]+):.*\n(?:(?![a-z]+:).*\n)*", RegexOptions.Multiline)]
    private static partial Regex Section();
}
