using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>check</c> on the hand-made outline of the short walk, edited as a person edits.</summary>
public sealed class CheckTests : IDisposable
{
    private const string Short = "scenarios/skerry-short", ByHand = Short + "/outlines/by-hand.yaml";

    private const string Take = "  - {take: latch-bag, from: lock, carry: waist, for: latch/free}\n";
    private const string Free = "  - {leg: latch/free, way: auto, anchor: lock}\n";
    private const string Look = "  - {leg: latch/look, way: auto, anchor: lock}\n";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    private Result Check(params string[] words) => place.Run(["check", Short, "--outline", "mine.yaml", .. words]);

    private Result CheckEdited((string From, string To)[] changes, params string[] words)
    {
        place.Edit(ByHand, changes, "mine.yaml");
        return Check(words);
    }

    [Fact]
    public void Check_NoOutlineNamed_TakesTheCurrentOneAndWritesNothing()
    {
        SortedDictionary<string, string> before = place.Files();
        Result result = place.Run("check", Short).Ended(0).ShowedPlan().Broke();
        Assert.Contains($"outline {ByHand}, marked current in the scenario", result.Err);
        Assert.Contains("Ends at PET 0:56:30", result.Out);
        Assert.Equal(before, place.Files());
    }

    [Fact]
    public void Check_NothingMarkedCurrent_TakesTheNewestAndSaysSo()
    {
        place.Edit(Short + "/scenario.yaml", "  outline: by-hand\n", "");
        File.Copy(place.PathOf(ByHand), place.PathOf(Short + "/outlines/older.yaml"));
        File.SetLastWriteTimeUtc(place.PathOf(Short + "/outlines/older.yaml"), new(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        Assert.Contains($"outline {ByHand}, the newest", place.Run("check", Short).Ended(0).Err);
    }

    [Fact]
    public void Check_NoOutlineAtAll_SaysHowToGetOne()
    {
        place.Edit(Short + "/scenario.yaml", "  outline: by-hand\n", "");
        File.Delete(place.PathOf(ByHand));
        Result result = place.Run("check", Short).Ended(2);
        Assert.Contains("outline.none", result.Err);
        Assert.Contains("make one with plan", result.Err);
    }

    [Fact]
    public void Check_Write_WritesDerivedFilesAndLeavesTheOutline()
    {
        byte[] before = place.Bytes(ByHand);
        // Of an earlier plan with a decision; this one has none.
        string other = place.PathOf("papers/skerry-short/by-hand/timeline-otherwise.json");
        Directory.CreateDirectory(Path.GetDirectoryName(other)!);
        File.WriteAllText(other, "of a plan before");
        Result result = place.Run("check", Short, "--write", "--out", "papers").Ended(0);
        Assert.False(File.Exists(other));
        Assert.Equal(before, place.Bytes(ByHand));
        Assert.Equal(result.Out.Split('\n')[0], place.Read("papers/skerry-short/by-hand/plan.txt").Split('\n')[0]);
        Assert.Contains("papers/skerry-short/by-hand/plan.txt", result.Err);
        Assert.True(File.Exists(place.PathOf("papers/skerry-short/by-hand/range.svg")));
    }

    [Fact]
    public void Check_Json_IsOneDocumentWithWhoWhereAndByHowMuch()
    {
        place.Edit(ByHand, Free, "  - {leg: latch/free, way: auto, anchor: lock, not_after: \"0:20\"}\n", "mine.yaml");
        JsonNode shown = JsonNode.Parse(Check("--json").Ended(1).Out)!;
        Assert.Equal(Caution.Text, (string)shown["caution"]!);
        JsonNode finding = Assert.Single(shown["findings"]!.AsArray())!;
        Assert.Equal(("pin.missed", "broken", "0:21:30", "-1 min 30 s"),
            ((string)finding["rule"]!, (string)finding["severity"]!, (string)finding["at"]!, (string)finding["margin"]!));
    }

    // Out at 0:17, 2 min to take the bag, 2 min 30 s to the ring: 0:21:30.
    [Fact]
    public void Check_PinThatCannotBeMet_IsPlacedAtTheEarliestAndFound()
    {
        Result result = CheckEdited([(Free, "  - {leg: latch/free, way: auto, anchor: lock, not_after: \"0:20\"}\n")]).Ended(1).ShowedPlan().Broke("pin.missed");
        Assert.Contains("latch/free starts at 0:21:30, although it is pinned: starts no later than 0:20.", result.Out);
        Assert.Contains("measured PET 0:21:30, limit PET 0:20, margin -1 min 30 s", result.Out);
        Assert.Contains("Mend: Move the pin of latch/free", result.Out);
    }

    [Fact]
    public void Check_PinThatCanBeMet_Holds()
    {
        Result result = CheckEdited([(Free, "  - {leg: latch/free, way: auto, anchor: lock, at: \"0:30\"}\n")]).Ended(0).Broke();
        Assert.Contains("0:30     4:00  [latch/free] Loosen", result.Out);
    }

    [Fact]
    public void Check_BagMoveDeleted_IsDerivedAgainAndShown()
    {
        Result result = CheckEdited([(Take, "")]).Ended(0).ShowedPlan().Broke();
        Assert.Contains("Re-derived, since legs were moved", result.Err);
        Assert.Contains("  EV1: + take latch-bag from lock onto waist, before leg latch/free\n", result.Err);
        Assert.Contains("take latch-bag at lock, onto waist", result.Out);
        Assert.DoesNotContain("take", place.Read("mine.yaml"));
    }

    [Fact]
    public void Check_BagMoveDeletedAsIs_IsFoundWithWhoAndMend()
    {
        Result result = CheckEdited([(Take, "")], "--as-is").Ended(1).ShowedPlan().Broke("gear.absent");
        Assert.DoesNotContain("Re-derived", result.Err);
        Assert.Contains("PET 0:19:30: EV1 begins latch/free, for which latch-bag hangs on the person, but it is inside the station.", result.Out);
        Assert.Contains("Mend: Let EV1 take latch-bag first.", result.Out);
    }

    [Fact]
    public void Check_OrderSwapped_IsDerivedAgainAsIsFound()
    {
        (string, string)[] swapped = [(Take + Free, Free + Take)];
        Assert.Contains("  EV1: + take latch-bag from lock onto waist, before leg latch/free\n", CheckEdited(swapped).Ended(0).Broke().Err);
        CheckEdited(swapped, "--as-is").Ended(1).Broke("gear.absent");
    }

    [Fact]
    public void Check_LegGivenToTheOtherPerson_StaysThereAndTheBagMovesAlong()
    {
        place.Edit(Short + "/people.yaml", "  name: Noor Halden\n  role: outside\n", "  name: Noor Halden\n  role: outside\n  trained_for: [mechanisms]\n");
        Result result = CheckEdited([(Free, ""), (Look, Free + Look)]).Ended(0).ShowedPlan().Broke();
        Assert.Contains("  EV1: − take latch-bag from lock onto waist\n", result.Err);
        Assert.Contains("  EV2: + take latch-bag from lock onto waist, before leg latch/free\n", result.Err);
        Assert.Contains("[latch/free]", result.Out[result.Out.IndexOf("EV2, Noor", StringComparison.Ordinal)..]);
        Assert.DoesNotContain("[latch/free]", result.Out[..result.Out.IndexOf("EV2, Noor", StringComparison.Ordinal)]);
    }

    [Fact]
    public void Check_LegGivenToSomebodyUntrained_StaysThereAndIsFound()
    {
        Result result = CheckEdited([(Free, ""), (Look, Free + Look)]).Ended(1).ShowedPlan().Broke("person.untrained");
        Assert.Contains("EV2 begins latch/free, which asks for training in mechanisms.", result.Out);
        Assert.Contains("Mend: Give latch/free to somebody trained in mechanisms.", result.Out);
    }

    [Fact]
    public void Check_MustJobLeftOut_IsFoundAndSaidWithItsWhy()
    {
        Result result = CheckEdited([(Take, ""), (Free, ""), (Look, "")]).Ended(1).ShowedPlan().Broke("job.missing");
        Assert.Contains("A must-job is not in it: latch.", result.Out);
        Assert.Contains("Sticky latch on Quay's ring (latch, a must-job): no reason given in the outline", result.Out);
        place.Write("mine.yaml", place.Read("mine.yaml") + "left_out: [{job: latch, why: no bag on board}]\n");
        Assert.Contains("(latch, a must-job): no bag on board", Check().Ended(1).Out);
    }

    [Fact]
    public void Check_HalfAJobLeftOut_IsFound()
    {
        Result result = CheckEdited([(Look, "")]).Ended(1).Broke("job.order");
        Assert.Contains("latch/look not begun", result.Out);
        Assert.DoesNotContain("[latch/look]", result.Out);
    }

    [Fact]
    public void Check_HalfAJobLeftOutAndABagMoveToo_BringsBackTheBagMoveOnly()
    {
        Result result = CheckEdited([(Look, ""), (Take, "")]).Ended(1).Broke("job.order");
        Assert.Contains("+ take latch-bag", result.Err);
        Assert.DoesNotContain("[latch/look]", result.Out);
    }

    [Fact]
    public void Check_PersonLeftOutside_IsFound()
    {
        Result result = CheckEdited([("  - {ingress: lock, way: auto, anchor: lock}\n  EV2", "  EV2")]).Ended(1).Broke("hatch.end", "item.lost", "person.alone", "return.both", "return.one", "time.twice");
        Assert.Contains("The plan ends with EV1 at quay-2.", result.Out);
        Assert.Contains("Mend: Bring EV1 in.", result.Out);
    }

    [Fact]
    public void Check_MadeFromOtherInputs_IsNoted()
    {
        Result result = CheckEdited([("scenario: skerry/short\n", "scenario: skerry/short\ndigest: 0123\n")]).Ended(0);
        Assert.Contains("mine.yaml was made from other inputs", result.Err);
    }
}
