using System.Collections.Immutable;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The walk-through of a plan: one page that plays it, its captions and its script.</summary>
internal static class Walkthrough
{
    /// <summary>Every file of a walk-through.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="plan">The plan; both branches of a decision are played.</param>
    /// <param name="orbit">Its orbit, for the Sun; null where the sky was given by hand.</param>
    /// <param name="options">The date printed on the chart, and the words.</param>
    /// <param name="model">The station's model, a binary glTF file that was looked over; null to draw the modules.</param>
    internal static ImmutableArray<(string Name, byte[] Content)> Files(Scenario scenario, ProvenPlan plan, ScenarioOrbit? orbit, BriefingOptions options, byte[]? model = null)
    {
        BriefedPlan briefed = new(scenario, plan, options.Words.Closing);
        Told told = Narration.Of(briefed);
        RangeChartOptions drawn = new(plan.Name, options.Printed, Width: 1500, Decision: plan.Outline?.Decision) { StripHeight = 140, Words = options.Words };
        string chart = SvgWriter.Write(RangeChart.Draw(scenario, plan.Played, plan.Verdict, drawn));
        Playback playback = PlaybackBuilder.Of(briefed, orbit, told, RangeChart.FrameOf(scenario, plan.Played, plan.Verdict, drawn)) with { Model = model };
        return
        [
            ("walkthrough.html", Encoding.UTF8.GetBytes(WalkthroughPage.Of(playback, chart, briefed.Words))),
            ("walkthrough.vtt", Encoding.UTF8.GetBytes(NarrationText.Captions(briefed, told.Likely))),
            .. briefed.Other is { } other ? [("walkthrough-otherwise.vtt", Encoding.UTF8.GetBytes(NarrationText.Captions(other, told.Other)))] : Array.Empty<(string, byte[])>(),
            ("narration.md", Encoding.UTF8.GetBytes(NarrationText.Script(briefed, told))),
        ];
    }
}
