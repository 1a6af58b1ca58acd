using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk.Tests;

public sealed class OutlineMergeTests
{
    private static readonly Scenario Short = ScenarioReader.Read(Folders.SkerryShort).Value!;

    private const string Edited = """
        # Kept by a person.
        scenario: skerry/short
        people:
          EV1:
          - {egress: lock}     # first out

          # the latch goes to EV2 today
          - {ingress: lock, way: auto, anchor: lock}
          EV2:
          - {egress: lock}
          - {leg: latch/free, way: auto, anchor: lock}   # Noor asked for it
          - {leg: latch/look, way: auto, anchor: lock}
          - {ingress: lock, way: auto, anchor: lock}
        """;

    [Fact]
    public void Complete_LegMovedWithoutItsBag_BagIsTakenByWhoDoesTheLeg()
    {
        Completed complete = new Completion(Short, new Expander(Short)).Complete(Outline(Edited));

        TakeEntry take = Assert.Single(Entries(complete.Outline, "EV2").OfType<TakeEntry>());
        Assert.Equal(new GearId("latch-bag"), take.Gear);
        Assert.Equal(new LegId("latch/free"), take.For);
        // EV2 is not trained for it; completion keeps who the person named, and the proof will say so.
        Assert.Equal(["latch/free", "latch/look"], Entries(complete.Outline, "EV2").OfType<LegEntry>().Select(entry => entry.Leg.Value));
        Assert.Contains("EV2: + take latch-bag from lock onto waist, before leg latch/free", complete.Changes);
    }

    [Fact]
    public void Complete_OutlineThatHolds_IsReturnedAsItIs()
    {
        Outline told = OutlineFile.Read(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"), Short).Value!;

        Completed complete = new Completion(Short, new Expander(Short)).Complete(told);

        Assert.Same(told, complete.Outline);
        Assert.Empty(complete.Changes);
    }

    [Fact]
    public void Merge_BagMoveAdded_OnlyThatLineIsNew()
    {
        Outline told = Outline(Edited);
        Outline wanted = new Completion(Short, new Expander(Short)).Complete(told).Outline;

        string merged = OutlineFile.Merge(Edited, told, wanted, Short)!;

        string[] before = Edited.Split('\n'), after = merged.TrimEnd('\n').Split('\n');
        Assert.Empty(before.Except(after));
        string added = Assert.Single(after.Except(before));
        Assert.StartsWith("  - {take: latch-bag, from: lock", added);
        Assert.Equal(Array.IndexOf(after, added) + 1, Array.FindIndex(after, line => line.Contains("Noor asked for it", StringComparison.Ordinal)));
    }

    [Fact]
    public void Merge_EntryTakenOut_CommentsStay()
    {
        Outline told = Outline(Edited);
        Outline wanted = told with { People = told.People.SetItem(1, told.People[1] with { Entries = told.People[1].Entries.RemoveAt(2) }) };

        string merged = OutlineFile.Merge(Edited, told, wanted, Short)!;

        Assert.DoesNotContain("latch/look", merged);
        Assert.Contains("# the latch goes to EV2 today", merged);
        Assert.Contains("# first out", merged);
    }

    [Fact]
    public void Merge_SeveralEntriesOnOneLine_IsRefused()
    {
        const string crowded = "scenario: skerry/short\npeople:\n  EV1: [{egress: lock}, {ingress: lock}]\n";
        Outline told = Outline(crowded);
        Outline wanted = told with { People = [told.People[0] with { Entries = told.People[0].Entries.Insert(1, new LegEntry(new("latch/look"), Pins.None, Way.Auto, false)) }] };

        Assert.Null(OutlineFile.Merge(crowded, told, wanted, Short));
    }

    private static Outline Outline(string text) => OutlineFile.Read(Encoding.UTF8.GetBytes(text), "mine.yaml", Short).Value!;

    private static ImmutableArray<Entry> Entries(Outline outline, string person) => outline.People.First(list => list.Person.Value == person).Entries;
}
