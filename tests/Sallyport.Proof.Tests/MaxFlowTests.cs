using System.Diagnostics;
using System.Numerics;
using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms.MaximumFlow;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>Independent inhibits held against the greatest flow, by a graph library that knows nothing of switches.</summary>
public sealed class MaxFlowTests
{
    private const string Sources = "all sources", Touched = "n0";

    private static readonly Gen<(PowerLine[] Lines, HashSet<FeatureId> Open, Dictionary<string, string> Common)> Nets = Gen.Select(
        Gen.Select(Gen.Int[0, 6], Gen.Int[0, 6], Gen.Int[0, 5], Gen.Bool).Array[4, 14],
        // Each of the boxes 1 to 5 alone, or with others on one of two converters.
        Gen.Int[0, 4].Array[6]).Select((raw, converters) =>
        {
            PowerLine[] lines = [.. raw.Where(line => line.Item1 != line.Item2).Select((line, i) => new PowerLine(
                new($"n{line.Item1}"), new($"n{line.Item2}"), new(new($"s{i}"), ["closed"]), line.Item3 == 0 ? null : $"box-{line.Item3}"))];
            return (lines, lines.Where((_, i) => raw[i].Item4).Select(line => line.Closed!.Feature).ToHashSet(),
                Enumerable.Range(1, 5).Where(box => converters[box] > 2).ToDictionary(box => $"box-{box}", box => $"converter-{converters[box]}"));
        });

    [Fact]
    [Reference("max-flow-min-cut")]
    public void FewestInhibits_OfRandomNets_IsTheLeastSetThatLetsSomethingFlow() => Nets.Sample(sample =>
    {
        (PowerLine[] lines, HashSet<FeatureId> open, Dictionary<string, string> common) = sample;
        PowerNet net = NetOf(lines, open, common, "n5", "n6");
        Held(net.FewestInhibits(new(Touched)).Count, lines, open, line => line.Controller!, "n5", "n6");
        Held(net.FewestInhibits(new(Touched), net.ByCause, int.MaxValue).Count, lines, open, line => common.GetValueOrDefault(line.Controller!, line.Controller!), "n5", "n6");
    }, iter: 400);

    [Fact]
    public void FewestInhibits_UpToWhatIsAsked_IsTheSameBelowIt() => Nets.Sample(sample =>
    {
        PowerNet net = NetOf(sample.Lines, sample.Open, sample.Common, "n5", "n6");
        int all = net.FewestInhibits(new(Touched)).Count;
        for (int asked = 1; asked <= 4; asked++) Assert.Equal(all < asked ? all : int.MaxValue, net.FewestInhibits(new(Touched), asked).Count);
    }, iter: 400);

    // Simple paths grow without bound on such a net: 20 rungs of 20 nodes, every line switched, all of them open, 25 boxes. The count is that of a
    // net for which nobody has ever asked more than three.
    [Fact]
    public void FewestInhibits_OfABigMesh_IsFoundAtOnce()
    {
        const int side = 20, boxes = 25;
        List<PowerLine> lines = [];
        void Line(int a, int b) => lines.Add(new(new($"n{a}"), new($"n{b}"), new(new($"s{lines.Count}"), ["closed"]), $"box-{lines.Count * 7 % boxes}"));
        for (int row = 0; row < side; row++)
            for (int column = 0; column < side; column++)
            {
                if (column + 1 < side) Line(row * side + column, row * side + column + 1);
                if (row + 1 < side) Line(row * side + column, (row + 1) * side + column);
            }
        PowerNet net = NetOf([.. lines], [.. lines.Select(line => line.Closed!.Feature)], [], $"n{side * side - 1}");
        Stopwatch watch = Stopwatch.StartNew();
        Assert.Equal(int.MaxValue, net.FewestInhibits(new(Touched), 3).Count);
        // Far above the figure seen, which stands in the decision note, and far below that of following every path.
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(20), $"{watch.Elapsed}");
    }

    private static PowerNet NetOf(PowerLine[] lines, HashSet<FeatureId> open, Dictionary<string, string> common, params string[] sources) => new(
        TestWorld.Skerry.Station with
        {
            PowerLines = [.. lines],
            PowerSources = [.. sources.Select(source => new NodeId(source))],
            Controllers = [.. common.Select(one => new SwitchController(one.Key, one.Value))],
        },
        feature => open.Contains(feature) ? "open" : "closed");

    private static void Held(int fewest, PowerLine[] lines, HashSet<FeatureId> open, Func<PowerLine, string> inhibit, params string[] sources)
    {
        // A node that no line names is not shown to be dead by anything.
        if (!lines.Any(line => line.From.Value == Touched || line.To.Value == Touched))
        {
            Assert.Equal(0, fewest);
            return;
        }
        string[] inhibits = [.. lines.Where(line => line.Controller is not null && open.Contains(line.Closed!.Feature)).Select(inhibit).Distinct()];
        bool flows = false;
        for (int set = 0; set < 1 << inhibits.Length; set++)
        {
            int failed = BitOperations.PopCount((uint)set);
            if (failed > fewest) continue;
            double flow = FlowWith(lines, line => !open.Contains(line.Closed!.Feature)
                || (line.Controller is not null && (set >> Array.IndexOf(inhibits, inhibit(line)) & 1) == 1), sources);
            if (failed < fewest) Assert.Equal(0, flow);
            else flows |= flow > 0;
        }
        Assert.Equal(fewest != int.MaxValue, flows);
    }

    private static double FlowWith(PowerLine[] lines, Func<PowerLine, bool> conducts, string[] sources)
    {
        AdjacencyGraph<string, Edge<string>> graph = new();
        graph.AddVertexRange([Sources, Touched, .. sources]);
        foreach (PowerLine line in lines.Where(conducts))
        {
            graph.AddVerticesAndEdge(new(line.From.Value, line.To.Value));
            graph.AddVerticesAndEdge(new(line.To.Value, line.From.Value));
        }
        foreach (string source in sources) graph.AddEdge(new(Sources, source));
        ReversedEdgeAugmentorAlgorithm<string, Edge<string>> reversed = new(graph, (from, to) => new(from, to));
        reversed.AddReversedEdges();
        EdmondsKarpMaximumFlowAlgorithm<string, Edge<string>> flow = new(graph, _ => 1, (from, to) => new(from, to), reversed);
        flow.Compute(Sources, Touched);
        return flow.MaxFlow;
    }
}
