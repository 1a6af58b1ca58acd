using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using BenchmarkDotNet.Attributes;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Bench;

/// <summary>Waits for the sky: a day of light, links and radiation, each crossing to 0.1 s.</summary>
public class SkyWaits
{
    private static readonly DateTime Zero = new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc);

    private static readonly ImmutableArray<GroundStation> Stations =
        [.. Enumerable.Range(0, 6).Select(i => new GroundStation($"station {i}", new(-30 + 12 * i, 60 * i), 100, 5, []))];

    private static readonly RadiationRegion Region = new("region", [new(-35, -60), new(-30, 10), new(0, 0), new(-5, -60)]);

    internal static readonly OrbitElements Low = new("low", Zero.AddDays(-1), 15.35, 0.0008, 38, 110, 40, 320, 1e-4);

    /// <summary>Penumbra, umbra (twice), six stations, two relays and a region over a day.</summary>
    [Benchmark]
    public SkyTimes DayOfPasses() => SkyOutlook.SkyOf(
        Low, Stations, [new("east", 76, 100), new("west", -150, 100)], [Region], Zero, new(Pet.FromSeconds(0), Pet.FromSeconds(86_400))).Times!;

    /// <summary>Day and night alone.</summary>
    [Benchmark]
    public SkyTimes DayOfLight() => SkyOutlook.SkyOf(Low, [], [], [], Zero, new(Pet.FromSeconds(0), Pet.FromSeconds(86_400))).Times!;
}

/// <summary>SGP4 beside another program in the same run: <c>sky</c> on the command line. Both take the best of some rounds, turn by turn.</summary>
internal static class SkyRun
{
    private const int Count = 400_000, Rounds = 5, Turns = 3;
    private const double Step = 0.00576;

    public static void Run()
    {
        ImmutableArray<OrbitElements> sets =
        [
            SkyWaits.Low,
            SkyWaits.Low with { Name = "low, some drag", MeanMotion = 15.56387291, Eccentricity = 0.0030035, Inclination = 58.0579 },
            SkyWaits.Low with { Name = "half-day, deep space", MeanMotion = 2.00491383, Eccentricity = 0.6877146, Inclination = 64.1586, Perigee = 265 },
            SkyWaits.Low with { Name = "whole-day, deep space", MeanMotion = 1.0027, Eccentricity = 0.0003, Inclination = 3 },
        ];
        double[] ours = new double[sets.Length], theirs = new double[sets.Length];
        for (int turn = 0; turn < Turns; turn++)
        {
            for (int i = 0; i < sets.Length; i++) ours[i] = Math.Max(ours[i], Pace(new(sets[i])));
            double[] answers = Ask(sets);
            for (int i = 0; i < sets.Length; i++) theirs[i] = Math.Max(theirs[i], answers[i]);
        }
        Console.WriteLine("| orbit | ours, M/s a core | satellite.js, M/s | ratio |\n| --- | --- | --- | --- |");
        for (int i = 0; i < sets.Length; i++)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {sets[i].Name} | {ours[i] / 1e6:0.00} | {theirs[i] / 1e6:0.00} | {ours[i] / theirs[i]:0.0} |"));
    }

    private static double Pace(Sgp4 orbit)
    {
        double best = 0, sum = 0;
        for (int round = 0; round < Rounds; round++)
        {
            long start = Stopwatch.GetTimestamp();
            sum += Sum(orbit);
            best = Math.Max(best, Count / Stopwatch.GetElapsedTime(start).TotalSeconds);
        }
        return double.IsFinite(sum) ? best : throw new InvalidOperationException("the orbit was lost");
    }

    private static double Sum(Sgp4 orbit)
    {
        double sum = 0;
        for (int i = 0; i < Count; i++)
        {
            orbit.Propagate(i * Step, out TemeState state);
            sum += state.Position.X;
        }
        return sum;
    }

    private static double[] Ask(ImmutableArray<OrbitElements> sets)
    {
        string folder = Path.Combine(Skerry.Folder, "..", "..", "tests", "References", "satellite-js");
        if (!Directory.Exists(Path.Combine(folder, "node_modules"))) throw new DirectoryNotFoundException("satellite.js is not installed: ./test.sh does that, or npm ci in tests/References/satellite-js");
        using Process node = Process.Start(new ProcessStartInfo("node", ["pace.mjs"]) { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true })!;
        node.StandardInput.Write(JsonSerializer.Serialize(new
        {
            count = Count,
            step = Step,
            rounds = Rounds,
            sets = sets.Select(set => new
            {
                NORAD_CAT_ID = 1,
                EPOCH = set.Epoch.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture),
                MEAN_MOTION = set.MeanMotion,
                ECCENTRICITY = set.Eccentricity,
                INCLINATION = set.Inclination,
                RA_OF_ASC_NODE = set.Node,
                ARG_OF_PERICENTER = set.Perigee,
                MEAN_ANOMALY = set.MeanAnomaly,
                BSTAR = set.Drag,
                MEAN_MOTION_DOT = 0,
                MEAN_MOTION_DDOT = 0,
            }),
        }));
        node.StandardInput.Close();
        string answer = node.StandardOutput.ReadToEnd();
        node.WaitForExit();
        return JsonSerializer.Deserialize<double[]>(answer)!;
    }
}
