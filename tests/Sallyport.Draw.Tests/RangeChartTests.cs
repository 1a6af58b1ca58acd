using System.Collections.Immutable;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Draw.Tests;

public sealed class RangeChartTests
{
    private readonly Scenario scenario;
    private readonly ImmutableArray<(Timeline Timeline, Trace Trace)> played;
    private readonly Verdict verdict;
    private readonly RangeChartOptions options;

    public RangeChartTests() => (scenario, played, verdict, options) = SampleWalk.Make(7, 2, 8, true);

    [Fact]
    public void Chart_AnyPlan_CarriesTheCaution()
    {
        Picture picture = Draw(verdict);
        Assert.Contains(Caution.Text, ChartReading.Words(picture));
        Assert.Contains(Caution.Text, picture.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Chart_PlanWithoutBreachButThingsNotChecked_SaysNoMoreThanThat()
    {
        Picture picture = Draw(verdict);
        Assert.Contains("Clean as far as checked", ChartReading.Words(picture));
        Assert.Contains(ChartReading.Words(picture), words => words.Contains("fluid lines; carbon dioxide; touch temperature", StringComparison.Ordinal));
    }

    // A third row only where radiation is known; twilight is named where there is any.
    [Fact]
    public void Chart_OfAComputedSky_ShowsRadiationAndFullDarkness()
    {
        PetInterval night = scenario.Sky.Night[0];
        PetInterval dark = new(night.From.Plus(Duration.FromSeconds(20)), night.To.Plus(Duration.FromSeconds(-20)));
        Scenario computed = scenario with { Sky = scenario.Sky with { FullNight = [dark], Radiation = [new(Pet.FromSeconds(4000), Pet.FromSeconds(4700))] } };
        Picture picture = RangeChart.Draw(computed, played, verdict, options), without = Draw(verdict);
        Assert.Contains(picture.Flat.OfType<Group>(), group => group.Title == "High radiation, PET 1:06:40 to 1:18:20");
        Assert.Contains("high radiation", ChartReading.Words(picture));
        Assert.DoesNotContain("high radiation", ChartReading.Words(without));
        Assert.Contains(picture.Flat.OfType<Group>(), group => group.Title.StartsWith("Night", StringComparison.Ordinal) && group.Description == $"fully dark {dark.From} to {dark.To}");
        Assert.Equal(15, picture.Height - without.Height, 6);
    }

    [Fact]
    public void Chart_EverythingChecked_SaysClean() => Assert.Contains("Clean", ChartReading.Words(Draw(verdict with { NotChecked = [] })));

    [Fact]
    public void Chart_NothingChecked_SaysNotJudged()
    {
        Picture picture = Draw(new(verdict.PlanId, [], [], []));
        Assert.Contains("Not judged", ChartReading.Words(picture));
        Assert.DoesNotContain(ChartReading.Words(picture), words => words.StartsWith("Clean", StringComparison.Ordinal));
    }

    [Fact]
    public void Chart_ManyFindings_MarksTheFirstAndCountsTheRest()
    {
        Finding broken = verdict.Findings[0] with { Severity = Severity.Broken };
        Picture picture = Draw(verdict with { Findings = [.. Enumerable.Repeat(broken, 9)] });
        Assert.Contains("9 broken", ChartReading.Words(picture));
        Assert.Contains("+ 3 more in the list of findings", ChartReading.Words(picture));
        Assert.DoesNotContain(ChartReading.Words(picture), words => words.StartsWith("Clean", StringComparison.Ordinal));
        for (int i = 1; i <= 6; i++) Assert.Contains(ChartReading.Groups(picture, $"finding-{i}"), group => group.Description == broken.Sentence);
        Assert.Empty(ChartReading.OverlappingTexts(picture));
    }

    [Fact]
    public void Finding_OfOnePerson_StandsOnThatPersonsLine()
    {
        Finding finding = verdict.Findings[0] with { Who = [new("EV2")], At = Pet.FromSeconds(3600) };
        Picture picture = Draw(verdict with { Findings = [finding] });
        Disc marker = ChartReading.Inside<Disc>(ChartReading.Groups(picture, "finding-1").First()).First();
        Text header = picture.Flat.OfType<Text>().Single(text => text.Words == "EV2");
        Assert.True(marker.Centre.Y > header.Area.Top);
        Assert.Contains(ChartReading.Groups(picture, "return-EV2").SelectMany(ChartReading.Inside<Trail>), trail =>
            Enumerable.Range(1, trail.Spots.Length - 1).Any(i => new Area(marker.Centre.X, marker.Centre.Y, 0, 0).Grown(0.01).Meets(trail.Spots[i - 1], trail.Spots[i])));
    }

    [Fact]
    public void Margins_BetweenMinutes_AreNeverRoundedTowardsDanger()
    {
        Assert.Equal("19", Sheet.MinutesUp(18 * 60 + 1));
        Assert.Equal("18", Sheet.MinutesUp(18 * 60));
        Assert.Equal("27", Sheet.MinutesDown(28 * 60 - 1));
        Assert.Equal("28", Sheet.MinutesDown(28 * 60));
    }

    [Fact]
    public void Ties_GiveAndTogether_JoinTheLinesOfBothPeople()
    {
        Picture picture = Draw(verdict);
        Give give = played[0].Timeline.Activities.OfType<Give>().First();
        Assert.Contains(ChartReading.Groups(picture, "hand-over"), group => group.Title.Contains($"{give.From} gives", StringComparison.Ordinal));
        Group together = Assert.Single(ChartReading.Groups(picture, "together"));
        Line tie = ChartReading.Inside<Line>(together).First();
        Assert.Equal(tie.From.X, tie.To.X);
        Assert.Contains(ChartReading.Inside<Text>(together), text => text.Words == "together: mating");
    }

    [Fact]
    public void Shutdown_OverItsLongest_SaysTooLong()
    {
        Scenario cold = scenario with
        {
            Consoles = [.. scenario.Consoles.Select(console => console with { Shutdowns = [.. console.Shutdowns.Select(shutdown => shutdown with { Longest = Duration.FromMinutes(44) })] })],
        };
        Assert.Contains("45 of 44 min: too long", ChartReading.Words(RangeChart.Draw(cold, played, verdict, options)));
        Assert.Contains("45 of 75 min", ChartReading.Words(Draw(verdict)));
    }

    [Fact]
    public void Shutdown_NeverEnded_SaysSo()
    {
        Timeline open = played[0].Timeline;
        open = open with { Activities = [.. open.Activities.Where(activity => activity is not SendCommand { Command.Value: "branch-a on" })] };
        Picture picture = RangeChart.Draw(scenario, [(open, played[0].Trace)], verdict, options);
        Assert.Contains(ChartReading.Words(picture), words => words.EndsWith("not turned on again: too long", StringComparison.Ordinal));
    }

    [Fact]
    public void Chart_PlanPastItsLimit_SaysByHowMuch()
    {
        Scenario tight = scenario with { Limits = [new(new("pet.limit"), new(Dimension.Time, played[0].Trace.To.Seconds - 61, "limit"), null, "invented", false)] };
        Picture picture = RangeChart.Draw(tight, played, verdict, options);
        Assert.Contains(ChartReading.Words(picture), words => words.Contains(", 2 min after the limit of ", StringComparison.Ordinal));
    }

    [Fact]
    public void Chart_NobodyOutsideAndNothingPlayed_StillStands()
    {
        Scenario empty = scenario with { People = [], Consoles = [], Arms = [], Limits = [] };
        Timeline nothing = played[0].Timeline with { Activities = [] };
        Trace still = played[0].Trace with { From = default, To = default, Returns = [], Ceiling = [] };
        Picture picture = RangeChart.Draw(empty, [(nothing, still)], verdict with { Findings = [] }, options with { Decision = null });
        Assert.Contains(Caution.Text, ChartReading.Words(picture));
        Assert.Empty(ChartReading.OverlappingTexts(picture));
    }

    [Fact]
    public void Chart_PersonWithoutReturnTimes_SaysThatThereIsNone()
    {
        Trace without = played[0].Trace with { Returns = [.. played[0].Trace.Returns.Where(curve => curve.Person?.Value != "EV2")] };
        Assert.Contains("no return time", ChartReading.Words(RangeChart.Draw(scenario, [(played[0].Timeline, without)], verdict, options)));
    }

    [Fact]
    public void Chart_WithoutTheLikelyBranch_IsRefused()
    {
        ArgumentException refused = Assert.Throws<ArgumentException>(() => RangeChart.Draw(scenario, [], verdict, options));
        Assert.Contains("likely branch", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decision_KnownLeg_IsFlaggedWithItsThreshold()
    {
        Group flag = Assert.Single(ChartReading.Groups(Draw(verdict), "decision"));
        Assert.Contains($"before {options.Decision!.IfBefore}", flag.Title, StringComparison.Ordinal);
        Assert.NotEmpty(ChartReading.Groups(Draw(verdict), "otherwise-EV1"));
    }

    private Picture Draw(Verdict judged) => RangeChart.Draw(scenario, played, judged, options);
}
