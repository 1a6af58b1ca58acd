using System.Diagnostics;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Draw;

namespace Sallyport.Bench;

/// <summary>What a briefing costs once its plan is proven: all files of Skerry, made and written. The first round pays for compiling, as every run of the command does.</summary>
internal static class BriefRun
{
    public static void Run()
    {
        SortieDesk desk = SortieDesk.Open(Skerry.Folder).Value ?? throw new InvalidOperationException("Skerry cannot be read");
        ProvenPlan plan = desk.Plan("bench", effort: 1, seed: 7, null, _ => { }, CancellationToken.None).Plan ?? throw new InvalidOperationException("no plan for Skerry with one epoch");
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
}
