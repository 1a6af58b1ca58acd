using System.Diagnostics;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Draw;

namespace Sallyport.Bench;

/// <summary>
/// What a briefing of Skerry costs: reading, proving, and all files made and written. The first round is taken in a fresh process and pays for compiling, as every run of
/// the command does.
/// </summary>
internal static class BriefRun
{
    public static void Run()
    {
        Console.WriteLine("stage  wall ms  processor ms, the first time each is asked for");
        Stage("start of the process", Process.GetCurrentProcess().StartTime.ToUniversalTime(), TimeSpan.Zero);
        SortieDesk desk = Timed("read the scenario", () => SortieDesk.Open(Skerry.Folder).Value) ?? throw new InvalidOperationException("Skerry cannot be read");
        ProvenPlan plan = Timed("complete, expand, play, prove", () => desk.Check(Skerry.BriefedOutline, asIs: false).Plan) ?? throw new InvalidOperationException("no plan of Skerry's outline");
        Timed("the range chart of the pages", () => RangeChart.Draw(desk.Scenario, plan.Played, plan.Verdict, new(plan.Name, null, 900, plan.Outline?.Decision) { ListsBelow = false }));
        Timed("all files, with another chart", () => desk.BriefingOf(plan, new(PaperSize.A4, new(2031, 5, 14))));
        BriefingOptions options = new(PaperSize.A4, new(2031, 5, 14)) { Since = plan };
        string folder = Directory.CreateTempSubdirectory("sallyport-bench-").FullName;
        try
        {
            Console.WriteLine($"{plan.Likely.Activities.Length} activities, {plan.Verdict.Findings.Length} findings, {plan.Verdict.Contingencies.Length} contingencies");
            Console.WriteLine("round  wall ms  processor ms  allocated MB");
            for (int round = 1; round <= 8; round++)
            {
                GC.Collect();
                long before = GC.GetTotalAllocatedBytes(precise: true);
                TimeSpan spent = Process.GetCurrentProcess().TotalProcessorTime;
                Stopwatch clock = Stopwatch.StartNew();
                (var written, _, Problem? problem) = desk.WriteBriefing(plan, folder, options);
                clock.Stop();
                if (problem is not null) throw new InvalidOperationException(problem.Found);
                spent = Process.GetCurrentProcess().TotalProcessorTime - spent;
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{round,5}  {clock.Elapsed.TotalMilliseconds,7:0}  {spent.TotalMilliseconds,12:0}  {(GC.GetTotalAllocatedBytes(precise: true) - before) / 1e6,12:0.0}"));
                if (round == 1)
                    foreach (string file in written) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"       {Path.GetFileName(file)}: {new FileInfo(file).Length} bytes"));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static T Timed<T>(string name, Func<T> make)
    {
        (DateTime began, TimeSpan spent) = (DateTime.UtcNow, Process.GetCurrentProcess().TotalProcessorTime);
        T made = make();
        Stage(name, began, spent);
        return made;
    }

    private static void Stage(string name, DateTime began, TimeSpan spent) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"       {(DateTime.UtcNow - began).TotalMilliseconds,7:0}  {(Process.GetCurrentProcess().TotalProcessorTime - spent).TotalMilliseconds,12:0}  {name}"));
}
