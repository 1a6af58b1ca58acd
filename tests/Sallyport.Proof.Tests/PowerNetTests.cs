using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>Small nets, counted by hand: what keeps the plug from its sources.</summary>
public sealed class PowerNetTests
{
    private const string Closed = "closed", Open = "open";

    private static PowerLine Switch(string from, string to, string feature, string? controller) =>
        new(new(from), new(to), new FeatureCondition(new(feature), [Closed]), controller);

    private static PowerLine Wire(string from, string to) => new(new(from), new(to), null, null);

    private static int Count(PowerLine[] lines, string[] open, params string[] sources) => new PowerNet(
        TestWorld.Skerry.Station with { PowerLines = [.. lines], PowerSources = [.. sources.Select(source => new NodeId(source))] },
        feature => open.Contains(feature.Value) ? Open : Closed).FewestInhibits(new("plug")).Count;

    private static readonly PowerLine[] Row = [Switch("battery", "bus", "a", "box-1"), Switch("bus", "plug", "b", "box-2")];

    [Theory]
    [InlineData("", 0)]
    [InlineData("a", 1)]
    [InlineData("b", 1)]
    [InlineData("a b", 2)]
    public void Row_OfTwoSwitches_CountsTheOpenOnes(string open, int count) => Assert.Equal(count, Count(Row, open.Split(' '), "battery"));

    [Fact]
    public void Row_OfOneController_CountsOnce() =>
        Assert.Equal(1, Count([Switch("battery", "bus", "a", "box-1"), Switch("bus", "plug", "b", "box-1")], ["a", "b"], "battery"));

    [Fact]
    public void SecondSource_OnTheNearSide_LeavesOnlyWhatIsBetween() =>
        // A capacitor on the bus feeds the plug past the first switch.
        Assert.Equal(1, Count([.. Row, Wire("capacitor", "bus")], ["a", "b"], "battery", "capacitor"));

    [Fact]
    public void Connector_Apart_EndsThePathWithoutBeingAnInhibit()
    {
        PowerLine[] lines = [Switch("battery", "bus", "a", "box-1"), Switch("bus", "plug", "c", null)];
        Assert.Equal(int.MaxValue, Count(lines, ["c"], "battery"));
        Assert.Equal(1, Count(lines, ["a"], "battery"));
        Assert.Equal(0, Count(lines, [], "battery"));
    }

    [Fact]
    public void Ring_WithAWayRound_TakesTheWorseWay()
    {
        // By the row two open; round by one switch more than the row, but only one of them open.
        PowerLine[] lines = [.. Row, Switch("battery", "side", "c", "box-3"), Switch("side", "plug", "d", "box-4")];
        Assert.Equal(1, Count(lines, ["a", "b", "c"], "battery"));
        Assert.Equal(2, Count(lines, ["a", "b", "c", "d"], "battery"));
    }

    [Fact]
    public void Ring_WhereTheSharedControllerMakesTheLongerWayWorse_IsSeen()
    {
        // Straight: box-1 and box-2, two. Round: three open switches of one box, one.
        PowerLine[] lines = [.. Row, Switch("battery", "x", "c", "box-9"), Switch("x", "y", "d", "box-9"), Switch("y", "plug", "e", "box-9")];
        Assert.Equal(1, Count(lines, ["a", "b", "c", "d", "e"], "battery"));
    }

    [Fact]
    public void Node_OfNoLineOrASourceItself_IsNotInhibitedAtAll()
    {
        Assert.Equal(0, Count([Wire("battery", "bus")], [], "battery"));
        Assert.Equal(0, Count([Wire("battery", "plug")], [], "plug"));
    }

    /// <summary>Against plain exhaustion: the plug is cut off from every source by k inhibits when no k−1 controllers closed up again would
    /// feed it. The fewest is the smallest set of controllers whose open switches, taken as closed, feed the plug.</summary>
    [Fact]
    public void RandomNets_AgainstClosingSetsOfControllers_AgreeOnTheFewest() =>
        Gen.Select(
            Gen.Select(Gen.Int[0, 5], Gen.Int[0, 5], Gen.Int[0, 4], Gen.Int[0, 3]).Array[3, 9],
            Gen.Int[0, 31]).Sample((raw, openBits) =>
        {
            PowerLine[] lines = [.. raw.Where(line => line.Item1 != line.Item2).Select((line, index) =>
                line.Item4 == 0 ? Switch(Node(line.Item1), Node(line.Item2), $"k{index}", null) : Switch(Node(line.Item1), Node(line.Item2), $"s{index}", $"box-{line.Item3}"))];
            string[] open = [.. lines.Where((_, index) => (openBits >> (index % 5) & 1) == 1).Select(line => line.Closed!.Feature.Value)];
            int expected = int.MaxValue;
            if (!lines.Any(line => line.From.Value == "plug" || line.To.Value == "plug")) expected = 0;
            else
                for (int set = 0; set < 32; set++)
                    if (Feeds(lines, open, set)) expected = Math.Min(expected, int.PopCount(set));
            Assert.Equal(expected, Count(lines, open, "n1", "n2"));
        }, iter: 2000);

    private static string Node(int index) => index == 0 ? "plug" : $"n{index}";

    private static bool Feeds(PowerLine[] lines, string[] open, int closedUp)
    {
        HashSet<string> reached = ["plug"];
        for (bool more = true; more;)
        {
            more = false;
            foreach (PowerLine line in lines)
            {
                bool conducts = !open.Contains(line.Closed!.Feature.Value) || (line.Controller is { } box && (closedUp >> (box[^1] - '0') & 1) == 1);
                if (!conducts || reached.Contains(line.From.Value) == reached.Contains(line.To.Value)) continue;
                reached.UnionWith([line.From.Value, line.To.Value]);
                more = true;
            }
        }
        return reached.Contains("n1") || reached.Contains("n2");
    }
}
