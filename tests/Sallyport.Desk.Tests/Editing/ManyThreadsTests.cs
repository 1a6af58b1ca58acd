using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk.Tests;

/// <summary>What expansion and completion remember is asked for by many threads at once: an edit, a rehearsal and the whole verdict share one of each.</summary>
public sealed class ManyThreadsTests
{
    private const int Threads = 4, Rounds = 12;

    // Each round begins with nothing remembered, so that all of them come upon what is not there yet.
    [Fact]
    public void ExpandAndComplete_ManyThreadsAtOnce_GiveWhatOneGives()
    {
        Scenario scenario = Folders.Good(SortieDesk.Open(RepositoryFolder.Of("scenarios", "skerry"))).Scenario;
        Outline outline = Folders.Good(OutlineFile.Read(Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml"), scenario));
        Outline[] moved = [.. Moved(outline).Take(Threads)];
        Assert.Equal(Threads, moved.Length);
        string[] alone = [.. moved.Select(one => Told(one, scenario))];
        Assert.True(alone.Distinct().Count() > 1, "expected outlines that come to different things");
        for (int round = 0; round < Rounds; round++)
        {
            Expander expander = new(scenario);
            Completion completion = new(scenario, expander);
            string[] together = new string[Threads];
            using Barrier start = new(Threads);
            Thread[] threads = [.. Enumerable.Range(0, Threads).Select(i => new Thread(() =>
            {
                start.SignalAndWait();
                try
                {
                    together[i] = Told(moved[i], expander, completion);
                }
                catch (Exception e)
                {
                    together[i] = e.ToString();
                }
            }))];
            foreach (Thread thread in threads) thread.Start();
            foreach (Thread thread in threads) thread.Join();
            Assert.Equal(alone, together);
        }
    }

    private static string Told(Outline outline, Scenario scenario)
    {
        Expander expander = new(scenario);
        return Told(outline, expander, new(scenario, expander));
    }

    private static string Told(Outline outline, Expander expander, Completion completion)
    {
        Outline complete = completion.Complete(outline, anew: true).Outline;
        Expansion expansion = expander.Expand(complete, Branch.Likely, "test");
        return OutlineFile.Write(complete) + (expansion.Timeline is { } timeline ? string.Join('\n', timeline.Activities.Select(activity => activity.ToString())) : expansion.Problem!.ToString());
    }

    /// <summary>The outline with a leg moved before the one before it: another one each time.</summary>
    private static IEnumerable<Outline> Moved(Outline outline)
    {
        foreach (PersonOutline list in outline.People)
        {
            int[] legs = [.. Enumerable.Range(0, list.Entries.Length).Where(i => list.Entries[i] is LegEntry)];
            foreach ((int first, int second) in legs.Zip(legs.Skip(1)))
            {
                ImmutableArray<Entry> entries = list.Entries.SetItem(first, list.Entries[second]).SetItem(second, list.Entries[first]);
                yield return outline with { People = outline.People.Replace(list, list with { Entries = entries }) };
            }
        }
    }
}
