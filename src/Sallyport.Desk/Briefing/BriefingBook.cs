using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The briefing as a booklet: which chapters, in which order.</summary>
internal static class BriefingBook
{
    public static Booklet Of(BriefedPlan plan, BriefingOptions options)
    {
        ImmutableArray<Chapter> chapters =
        [
            // What is wrong comes first.
            .. plan.IsDraft ? [FrontChapters.Findings(plan), FrontChapters.NotChecked(plan)] : Array.Empty<Chapter>(),
            FrontChapters.Chart(plan, options.Paper),
            FrontChapters.Summary(plan),
            InsideChapter.Of(plan),
            .. plan.People.Select(person => PersonChapter.Of(plan, person)),
            GearChapter.Of(plan),
            GroundChapter.Of(plan),
            ReturnChapter.Of(plan),
            LateChapters.Suits(plan),
            LateChapters.Starts(plan, options.Latest),
            LateChapters.Contingencies(plan),
            LateChapters.Station(plan),
            .. plan.IsDraft ? Array.Empty<Chapter>() : [FrontChapters.Findings(plan), FrontChapters.NotChecked(plan)],
            FrontChapters.Sources(plan),
        ];
        return new(plan.Words.Say("book.title", plan.Scenario.Sortie.Title), Running(plan, options.Printed), [FrontChapters.Cover(plan, options.Printed, chapters.Select(chapter => chapter.Title)), .. chapters]);
    }

    public static RunningWords Running(BriefedPlan plan, DateOnly? printed) => new(
        plan.Words.Say("running.head", plan.Scenario.Sortie.Title, plan.Scenario.Id, plan.Plan.Name, plan.Plan.Verdict.PlanId, printed is { } date ? date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : plan.Words["cover.undated"]),
        Caution.Text, plan.IsDraft ? plan.Words["draft"] : null, (page, count) => plan.Words.Say("running.page", page, count), plan.Words["running.continued"]);
}
