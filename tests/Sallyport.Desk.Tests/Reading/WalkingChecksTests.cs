using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Reels that reach nothing, and spans that nobody can walk in a day.</summary>
public sealed class WalkingChecksTests
{
    // Hatch and rail 6 m apart, rail and bench 4.5 m; the only site is the bench.
    private static string Told(string reels, string railIsAnchor = "true", string site = "grip: quay-2", string protocol = "reel", string pace = "6 m/min")
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml"))
        {
            string text = File.ReadAllText(path)
                .Replace("reels: [26 m, 26 m]", reels)
                .Replace("- {id: quay-1, at: \"6, 0, 1.5 m\"}", $"- {{id: quay-1, at: \"6, 0, 1.5 m\", anchor: {railIsAnchor}}}")
                .Replace("title: Quay's rim, grip: quay-1", $"title: Quay's rim, {site}")
                .Replace("protocol: reel", $"protocol: {protocol}")
                .Replace("easy: 6 m/min", $"easy: {pace}");
            File.WriteAllText(Path.Combine(folder.Path, Path.GetFileName(path)), text);
        }
        ReadResult<Scenario> result = ScenarioReader.Read(folder.Path);
        return result.Ok ? "taken" : string.Join("; ", result.Problems.Select(problem => $"{problem.Line}:{problem.Column} {problem.Code} {problem.Found}"));
    }

    [Theory]
    [InlineData("reels: [6 m, 4.5 m]", "true", "taken")]
    [InlineData("reels: [10.5 m]", "false", "taken")]
    // The hatch is an anchor too, so the second reel may be the longer one.
    [InlineData("reels: [1 m, 10.5 m]", "false", "taken")]
    [InlineData("reels: [6 m, 4.499 m]", "true", "short")]
    [InlineData("reels: [5.999 m, 4.5 m]", "true", "short")]
    [InlineData("reels: [10.499 m]", "true", "short")]
    [InlineData("reels: [6 m, 4.5 m]", "false", "short")]
    public void Reels_ToTheOnlySite_MustReachItOverAnchors(string reels, string railIsAnchor, string expected)
    {
        static string Short(int line, string person) => $"{line}:3 reel.short {person}, whose reels reach no site; the nearest way to one, at quay-2, is 10.5 m from the hatch";
        Assert.Equal(expected == "taken" ? expected : $"{Short(3, "EV1")}; {Short(21, "EV2")}", Told(reels, railIsAnchor));
    }

    [Fact]
    public void Reels_ToANearerSite_AreEnough() => Assert.Equal("taken", Told("reels: [6 m]", site: "grip: quay-1"));

    [Fact]
    public void Reels_None_AreToldWhereTheProtocolIsReel()
    {
        Assert.Equal("3:3 reel.none EV1 without a reel, where the tether protocol is reel; 21:3 reel.none EV2 without a reel, where the tether protocol is reel", Told("reels: []"));
        Assert.Equal("taken", Told("reels: []", protocol: "leapfrog"));
    }

    // 6 m × 1.8, the slowest size class, in 24 h: 0.0075 m/min.
    [Theory]
    [InlineData("0.0075 m/min", "taken")]
    [InlineData("0.0074 m/min", "slow")]
    [InlineData("1e-12 m/min", "slow")]
    public void Span_ThatTakesMoreThanADay_IsTold(string pace, string expected)
    {
        static string Slow(int line, string person) => $"{line}:3 span.slow {person}, whom the span from lock to quay-1 (6 m) takes more than 24 h with the slowest thing carried";
        Assert.Equal(expected == "taken" ? expected : $"{Slow(3, "EV1")}; {Slow(21, "EV2")}", Told("reels: [26 m, 26 m]", pace: pace));
    }
}
