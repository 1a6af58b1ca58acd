using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Questions answered, on the walk that was worked by hand: it ends at 0:56:30.</summary>
public sealed class AskingTests
{
    private static readonly SortieDesk Desk = Folders.Good(SortieDesk.Open(Folders.SkerryShort));

    [Fact]
    public void Ask_WhyAJobIsOutThatIsIn_SaysSo() => Assert.Contains("latch is in it: nothing leaves it out.", Ask(true, "why-out latch"));

    // Held to 0:25 instead of 0:21:30, everything is 3 min 30 s later.
    [Fact]
    public void Ask_ALaterStart_IsPricedInMinutesAndProven()
    {
        string[] lines = Ask(true, "if latch/free at 0:25");
        Assert.Contains("  The price: no value, 3 min 30 s later.", lines);
        Assert.Contains("  Proven: no plan that does so and is worth 10 ends before 1:00.", lines);
    }

    [Fact]
    public void Ask_WhatCannotBeTogether_NamesTheWishesInConflict()
    {
        string[] lines = Ask(false, "if latch/free at 0:25 and latch/look at 0:33 and latch/free by EV1");
        string[] named = [.. lines.Where(line => line.StartsWith("  - ", StringComparison.Ordinal))];
        Assert.Equal(["  - latch/free begins at 0:25", "  - latch/look begins at 0:33"], named);
        Assert.Contains(lines, line => line.StartsWith("No plan can do so: proven", StringComparison.Ordinal));
    }

    [Fact]
    public void Ask_SomebodyUntrained_SaysWhichTraining() =>
        Assert.Contains("No plan can do so: latch/free asks for training in mechanisms, which EV2 has not.", Ask(false, "if latch/free by EV2"));

    [Fact]
    public void WhyRefused_OfPlansThatBreakRules_TellsTheOneOfWhichLeastIsBroken()
    {
        string text = File.ReadAllText(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"));
        Outline Read(string from, string to)
        {
            using TemporaryFolder folder = new();
            string path = Path.Combine(folder.Path, "one.yaml");
            Assert.Contains(from, text);
            File.WriteAllText(path, text.Replace(from, to));
            return OutlineFile.Read(path, Desk.Scenario).Value!;
        }
        Outline clean = Read("scenario:", "scenario:"), pinned = Read("{leg: latch/free, way: auto, anchor: lock}", "{leg: latch/free, way: auto, anchor: lock, not_after: \"0:20\"}"),
            both = Read("{leg: latch/free, way: auto, anchor: lock}", "{leg: latch/free, way: auto, anchor: lock, not_after: \"0:20\", not_before: \"7:00\"}");
        Assert.Empty(Desk.WhyRefused([]));
        Assert.Empty(Desk.WhyRefused([clean]));
        string[] lines = [.. Desk.WhyRefused([pinned, both, clean])];
        Assert.Matches("^The nearest to one: 1 of 1 jobs, value 10, ends at PET 0:56:30. The proof refuses it:$", lines[0]);
        Assert.StartsWith("  - pin.missed: PET 0:21:30", lines[1]);
        Assert.Equal(2, lines.Length);
    }

    // End and start differ by 35 min for the latch and by 25 min for the look (0:56:30 − 0:21:30, 0:56:30 − 0:31:30); the limit is 6:30.
    [Fact]
    public void LatestStarts_OfTheWalkWorkedByHand_LeaveTheTimeThatFollowsThem()
    {
        ProvenPlan plan = Desk.Check(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"), asIs: true).Plan!;
        LatestStart[] starts = [.. Desk.LatestStarts(plan, CancellationToken.None)];
        Assert.Equal([("latch/free", "5:55"), ("latch/look", "6:05")], starts.Select(one => (one.Leg.Value, one.Latest.ToString()!)));
        Assert.All(starts, one => Assert.StartsWith("pet.limit: ", one.Then));
    }

    [Fact]
    public void Alternatives_OfTern_AreCleanAndDoneByOthers()
    {
        SortieDesk tern = Folders.Good(SortieDesk.Open(Path.Combine(Path.GetDirectoryName(Folders.SkerryShort)!, "tern")));
        ProvenPlan plan = tern.Plan("plan", effort: 1, seed: 7, from: null, _ => { }, CancellationToken.None).Plan!;
        ProvenPlan other = Assert.Single(tern.Alternatives(plan, 1, effort: 1, seed: 7, _ => { }, CancellationToken.None));
        Assert.True(other.Verdict.Clean);
        string[] told = AlternativeText.Of(tern.Scenario, [plan, other]).Split(Environment.NewLine);
        Assert.Matches("^ +plan +plan-other-1$", told[0]);
        Assert.Matches("^proof +clean +clean$", told[1]);
        Assert.Equal(["proof", "value", "ends at PET", "least return margin", "power and radio dead", "on the way", "work of EV1", "work of EV2", "work of EV3"], told[1..10].Select(line => line.Split("  ")[0]));
        Assert.EndsWith(other.End.ToString(), told[3]);
        Duration work = Duration.FromSeconds(other.Likely.Activities.OfType<DoStep>().Where(step => step.Person.Value == "EV1").Sum(step => step.Length.Seconds));
        Assert.EndsWith($"  {work}", told[7]);
        Assert.Matches("^plan-other-1: .*(does|leaves out)", told[10]);
    }

    private static string[] Ask(bool found, string words)
    {
        Answer answer = Desk.Ask(Folders.Good(Question.Read(words.Split(' '), Desk.Scenario)), effort: 1, seed: 7, CancellationToken.None);
        Assert.Equal(found, answer.IsFound);
        return [.. answer.Lines];
    }
}
