using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Draw.Tests;

public sealed class RangeChartReadabilityTests
{
    private static readonly Gen<(int Seed, int People, int Legs, bool Arm, int Width)> Walks =
        Gen.Select(Gen.Int[0, 100_000], Gen.Int[1, 4], Gen.Int[3, 20], Gen.Bool, Gen.Int[1000, 2200]);

    [Fact]
    public void Labels_AnyWalk_NeverOverlapNorLieOnACurve() => Walks.Sample(walk =>
    {
        (Scenario scenario, var played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(walk.Seed, walk.People, walk.Legs, walk.Arm);
        Picture picture = RangeChart.Draw(scenario, played, verdict, options with { Width = walk.Width });
        Assert.Empty(ChartReading.OverlappingTexts(picture));
        Assert.Empty(ChartReading.LabelsOnCurves(picture, scenario.Outside.Select(person => person.Id.Value)));
        Assert.Empty(ChartReading.LeadersThroughTexts(picture));
        Assert.All(picture.Flat.OfType<Text>(), text => Assert.True(new Area(0, 0, picture.Width, picture.Height).Contains(text.Area), $"'{text.Words}' runs over the edge"));
    }, iter: 10, threads: 1);

    [Fact]
    public void Legs_AnyWalk_AreNamedOnTheLineOrInTheKey() => Walks.Sample(walk =>
    {
        (Scenario scenario, var played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(walk.Seed, walk.People, walk.Legs, walk.Arm);
        Picture picture = RangeChart.Draw(scenario, played, verdict, options with { Width = walk.Width });
        HashSet<string> onTheLine = [.. ChartReading.Groups(picture, "label-").Select(group => group.Title)];
        List<string> inTheKey = [.. ChartReading.Groups(picture, "key").SelectMany(ChartReading.Inside<Text>).Select(text => text.Words)];
        foreach (var steps in played[0].Item1.Activities.OfType<DoStep>().GroupBy(step => step.Leg))
        {
            Leg leg = scenario.Legs.Single(leg => leg.Id == steps.Key);
            string words = $"{steps.Min(step => step.Start)} {leg.Title}";
            Assert.True(onTheLine.Any(title => title.StartsWith(words, StringComparison.Ordinal)) || inTheKey.Any(entry => entry.Contains(words, StringComparison.Ordinal)),
                $"'{words}' is said nowhere");
        }
    }, iter: 5, threads: 1);

    [Fact]
    public void Labels_CrowdedWalk_AreAtMostSixAnHour()
    {
        (Scenario scenario, var played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(3, 2, 60, false);
        Picture picture = RangeChart.Draw(scenario, played, verdict, options with { Width = 6000 });
        foreach (Person person in scenario.Outside)
        {
            HashSet<string> named = [.. ChartReading.Groups(picture, $"label-{person.Id}-").Where(group => !group.Id.Contains("-key-", StringComparison.Ordinal)).Select(group => group.Title)];
            List<double> moments = [];
            foreach (var steps in played[0].Item1.Activities.OfType<DoStep>().Where(step => step.Person == person.Id).GroupBy(step => step.Leg))
            {
                (Pet from, Pet to) = (steps.Min(step => step.Start), steps.Max(step => step.End));
                string title = scenario.Legs.Single(leg => leg.Id == steps.Key).Title;
                if (named.Any(words => words.StartsWith($"{from} {title}", StringComparison.Ordinal))) moments.Add((from.Seconds + to.Seconds) / 2.0);
            }
            Assert.True(moments.Count > 10, "expected the walk to name many legs");
            moments.Sort();
            for (int i = 6; i < moments.Count; i++) Assert.True(moments[i] - moments[i - 6] >= 3599, $"seven labels from {moments[i - 6]} s to {moments[i]} s");
        }
        Assert.Contains(ChartReading.Words(picture), words => words.StartsWith("Labels moved here for room: ", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(7, 2, 13, true)]
    [InlineData(4, 3, 14, true)]
    public void Texts_OnWhatLiesBehindThem_HaveEnoughContrast(int seed, int people, int legs, bool arm)
    {
        (Scenario scenario, var played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(seed, people, legs, arm);
        Finding broken = verdict.Findings[0] with { Severity = Severity.Broken };
        Picture picture = RangeChart.Draw(scenario, played, verdict with { Findings = [broken, .. verdict.Findings] }, options);
        foreach (Text text in picture.Flat.OfType<Text>())
            for (int i = 0; i <= 8; i++)
            {
                Spot at = new(text.Area.Left + text.Area.Width * i / 8, text.Area.Centre.Y);
                double contrast = Contrast.Between(text.Ink, ChartReading.Background(picture, text, at));
                Assert.True(contrast >= 4.5, $"'{text.Words}' at {at}: {contrast:0.00}:1");
            }
    }

    [Fact]
    public void Curves_OnPaperAndNight_StandOut()
    {
        (Scenario scenario, var played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(7, 4, 8, true);
        Picture picture = RangeChart.Draw(scenario, played, verdict, options);
        foreach (string curve in new[] { "return-", "everyone-EV", "armless-", "otherwise-", "ceiling-" })
        {
            List<Group> groups = [.. ChartReading.Groups(picture, curve)];
            Assert.NotEmpty(groups);
            // The first stroke of a group carries the line; what is drawn inside it only parts it.
            foreach (Group group in groups)
            {
                Ink ink = ChartReading.Inside<Trail>(group).First(trail => trail.Stroke is not null).Stroke!.Ink;
                Trail line = ChartReading.Inside<Trail>(group).First(trail => trail.Stroke is not null);
                foreach (Spot spot in line.Spots)
                    Assert.True(Contrast.Between(ink, ChartReading.Background(picture, line, spot)) >= 3, $"{group.Id} at {spot}");
            }
        }
    }

    [Fact]
    public void Contrast_BlackOnWhite_IsTwentyOneToOne() =>
        // WCAG 2.2, glossary, "contrast ratio", note 1: "Contrast ratios can range from 1 to 21".
        Assert.Equal(21, Contrast.Between(Ink.FromHex(0x000000), Ink.FromHex(0xFFFFFF)), 1e-9);
}
