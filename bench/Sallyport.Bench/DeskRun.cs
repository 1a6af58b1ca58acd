using System.Diagnostics;
using System.Globalization;
using System.Text;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Bench;

/// <summary>
/// What an edit costs whoever drags a stretch on the chart: a leg of the demo moved and saved, as one edit and part by part. The least of the rounds; processor time of the
/// thread that edits beside wall time, since other work on the machine, and the whole verdict that goes on meanwhile, lengthen the one and hardly the other.
/// </summary>
internal static class DeskRun
{
    private const int Rounds = 25;

    public static void Run()
    {
        DirectoryInfo root = Directory.CreateTempSubdirectory("sallyport-bench-");
        try
        {
            string folder = Directory.CreateDirectory(Path.Combine(root.FullName, "skerry")).FullName;
            foreach (string path in Directory.GetFiles(Skerry.Folder)) File.Copy(path, Path.Combine(folder, Path.GetFileName(path)));
            Directory.CreateDirectory(Path.Combine(folder, "outlines"));
            File.Copy(Skerry.OutlineFilePath, Path.Combine(folder, "outlines", "plan.yaml"));
            using OpenSortie sortie = new DeskFolder(root.FullName, Path.Combine(root.FullName, "out")).Open("skerry").Value!;
            (PersonOutline list, LegId[] legs) = Swappable(sortie);
            Console.WriteLine("| what | wall, ms | processor, ms | allocated, MB |\n| --- | --- | --- | --- |");
            SortieState state = sortie.State;
            byte[] text = Encoding.UTF8.GetBytes(state.TextOf("outlines/plan.yaml")!);
            Outline outline = OutlineFile.Read(text, "plan", state.Scenario!).Value!;
            Tell("  read the outline", () => OutlineFile.Read(text, "plan", state.Scenario!));
            Tell("  find anew what its legs need, for the first time", () => new Planning.Completion(state.Scenario!, Skerry.Expander).Complete(outline, anew: true));
            Planning.Completion completion = new(state.Scenario!, Skerry.Expander);
            Tell("  the same again", () => completion.Complete(outline, anew: true));
            Tell("  write it into its file", () => OutlineFile.Merge(state.TextOf("outlines/plan.yaml")!, outline, outline with { LeftOut = [] }, state.Scenario!));
            Tell("  expand", () => Skerry.Expander.Expand(outline, Branch.Likely, "bench"));
            Timeline timeline = Skerry.Expander.Expand(outline, Branch.Likely, "bench").Timeline!;
            Tell("  play", () => Proof.Player.Play(state.Scenario!, timeline));
            Model.Trace trace = Proof.Player.Play(state.Scenario!, timeline);
            Tell("  judge, nothing followed", () => Proof.Judge.Of(state.Scenario!, [(timeline, trace)]));
            ProvenPlan plan = state.Plan!;
            Tell("  draw the chart and what may be taken hold of", () => state.Desk!.ViewOf(plan, false, 950, 80, "chart-"));
            Tell("  gather what is so at each moment", () => state.Desk!.BesideOf(plan));
            Tell("  read the scenario", () => SortieDesk.Open(folder));
            // Forth and back: the second leg before the first, and behind it again.
            bool forth = false;
            Tell("a leg moved, saved and looked at", () =>
            {
                forth = !forth;
                Done(sortie, forth ? new MoveLeg(legs[1], list.Person, legs[0]) : new MoveLeg(legs[0], list.Person, legs[1]));
            });
            Tell("the same near a moment", () =>
            {
                forth = !forth;
                Done(sortie, new MoveLegTo(legs[1], list.Person, Pet.FromSeconds(forth ? 1800 : 7200)));
            });
            Tell("a leg pinned or unpinned", () =>
            {
                forth = !forth;
                Done(sortie, forth ? new PinPerson(legs[0]) : new Unpin(legs[0]));
            });
            Tell("a value of a scenario file set", () =>
            {
                forth = !forth;
                Done(sortie, new SetValue("gear.yaml", "gear/0/title", forth ? "One" : "Other"));
            });
        }
        finally
        {
            root.Delete(recursive: true);
        }
    }

    /// <summary>Two legs that follow each other in somebody's list and may be done in either order.</summary>
    private static (PersonOutline List, LegId[] Legs) Swappable(OpenSortie sortie)
    {
        foreach (PersonOutline list in Skerry.Outline.People)
        {
            LegId[] legs = [.. list.Entries.OfType<LegEntry>().Select(entry => entry.Leg)];
            for (int i = 0; i + 1 < legs.Length; i++)
                if (sortie.Apply(new MoveLeg(legs[i + 1], list.Person, legs[i]), "bench", sortie.State.Revision) is Accepted)
                {
                    sortie.Undo("bench");
                    return (list, legs[i..]);
                }
        }
        throw new InvalidOperationException("no two legs of the demo can be swapped");
    }

    private static void Done(OpenSortie sortie, SortieEdit edit)
    {
        EditOutcome outcome = sortie.Apply(edit, "bench", sortie.State.Revision);
        if (outcome is not Accepted) throw new InvalidOperationException($"{edit}: {outcome}");
    }

    /// <summary>What this thread has taken of a processor, ms; of all threads where the system does not tell of one.</summary>
    private static double Processor() => OperatingSystem.IsLinux()
        ? long.Parse(File.ReadAllText("/proc/thread-self/schedstat").Split(' ')[0], CultureInfo.InvariantCulture) / 1e6
        : Environment.CpuUsage.TotalTime.TotalMilliseconds;

    private static void Tell(string what, Action work)
    {
        double wall = double.MaxValue, processor = double.MaxValue, megabytes = double.MaxValue;
        for (int round = 0; round < Rounds; round++)
        {
            long bytes = GC.GetAllocatedBytesForCurrentThread(), start = Stopwatch.GetTimestamp();
            double before = Processor();
            work();
            wall = Math.Min(wall, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            processor = Math.Min(processor, Processor() - before);
            megabytes = Math.Min(megabytes, (GC.GetAllocatedBytesForCurrentThread() - bytes) / 1e6);
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {wall:0.0} | {processor:0.0} | {megabytes:0.0} |"));
    }
}
