using System.Collections.Immutable;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The walk-through of a plan: one page that plays it, its captions and its script.</summary>
public static class Walkthrough
{
    /// <summary>Every file of a walk-through.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="plan">The plan; its likely branch is played.</param>
    /// <param name="orbit">Its orbit, for the Sun; null where the sky was given by hand.</param>
    /// <param name="printed">A date printed on the chart; null for none.</param>
    /// <param name="words">The words; those that are shipped unless others are given.</param>
    /// <param name="model">The station's model, a binary glTF file that was looked over; null to draw the modules.</param>
    public static ImmutableArray<(string Name, byte[] Content)> Files(Scenario scenario, ProvenPlan plan, ScenarioOrbit? orbit, DateOnly? printed, WalkthroughWords? words = null, byte[]? model = null)
    {
        words ??= WalkthroughWords.English;
        ImmutableArray<Cue> cues = Narration.Of(scenario, plan, words);
        RangeChartOptions options = new(plan.Name, printed, Width: 1500, Decision: plan.Outline?.Decision) { StripHeight = 140 };
        string chart = SvgWriter.Write(RangeChart.Draw(scenario, plan.Played, plan.Verdict, options));
        Playback playback = PlaybackOf(scenario, plan, orbit, words, cues, RangeChart.FrameOf(scenario, plan.Played, plan.Verdict, options)) with { Model = model };
        return
        [
            ("walkthrough.html", Encoding.UTF8.GetBytes(WalkthroughPage.Of(playback, chart, words))),
            ("walkthrough.vtt", Encoding.UTF8.GetBytes(NarrationText.Captions(plan, cues, words))),
            ("narration.md", Encoding.UTF8.GetBytes(NarrationText.Script(scenario, plan, cues, words))),
        ];
    }

    /// <summary>What the page plays.</summary>
    internal static Playback PlaybackOf(Scenario scenario, ProvenPlan plan, ScenarioOrbit? orbit, WalkthroughWords words, ImmutableArray<Cue> cues, ChartFrame chart) =>
        new PlaybackBuilder(scenario, plan, words).Build(orbit, cues, chart);
}
