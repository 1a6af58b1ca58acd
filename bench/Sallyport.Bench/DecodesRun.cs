using System.Globalization;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Bench;

/// <summary>How fast search decodes candidates on one thread, in processor time, so that the load of the machine matters little, and what it allocates for that. Seed and number are stated, so that the
/// digest of what the lanes come to is the same for as long as decoding comes to the same.</summary>
internal static class DecodesRun
{
    private const int Candidates = 8_000;

    /// <summary>Runs it.</summary>
    /// <param name="words">The name of a demo, or a size of the frozen family; then how many epochs, 2 without it.</param>
    public static void Run(string[] words)
    {
        string what = words.ElementAtOrDefault(0) ?? "skerry";
        int epochs = int.Parse(words.ElementAtOrDefault(1) ?? "2", CultureInfo.InvariantCulture);
        IEnumerable<(string Name, Scenario Scenario)> cases = char.IsAsciiDigit(what[0])
            ? FrozenFamily.Seeds.Take(4).Select(seed => ($"{what}-{seed:00}", FrozenFamily.Of(int.Parse(what, CultureInfo.InvariantCulture), seed)))
            : [(what, ScenarioReader.Read(Path.Combine(Path.GetDirectoryName(Skerry.Folder)!, what)).Value ?? throw new InvalidOperationException($"the demo '{what}' cannot be read"))];
        foreach ((string name, Scenario scenario) in cases)
        {
            SearchCase all = new(scenario, new(scenario));
            Annealer[] lanes = [.. LaneSetting.Lanes.Select((setting, i) => new Annealer(all, setting, i, Starts.First(all), [], []))];
            // The first epoch is mostly the compiler's.
            foreach (Annealer lane in lanes) lane.Run(Candidates, 1, 0, 1.0 / epochs);
            long decodes = lanes.Sum(lane => lane.Decodes), allocated = GC.GetAllocatedBytesForCurrentThread();
            TimeSpan used = Environment.CpuUsage.TotalTime;
            for (int epoch = 1; epoch < epochs; epoch++)
                foreach (Annealer lane in lanes) lane.Run(Candidates, 1, (double)epoch / epochs, (epoch + 1.0) / epochs);
            double seconds = (Environment.CpuUsage.TotalTime - used).TotalSeconds;
            allocated = GC.GetAllocatedBytesForCurrentThread() - allocated;
            decodes = lanes.Sum(lane => lane.Decodes) - decodes;
            ulong digest = 14695981039346656037;
            foreach (Kept one in lanes.SelectMany(lane => lane.Best))
            {
                PlanScore score = one.Score;
                foreach (long part in (long[])[(long)one.Key, score.Broken, score.Value, score.Closed, score.End, score.Dead, score.Unbalance, score.Walked, score.Narrow]) digest = (digest ^ (ulong)part) * 1099511628211;
            }
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: digest {digest:x16}, {decodes} candidates, {decodes / seconds:0} a second of processor time, {(double)allocated / decodes:0} B allocated each"));
        }
    }
}
