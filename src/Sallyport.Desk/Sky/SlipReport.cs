using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>One thing that another date changes.</summary>
/// <param name="Kind">What it is: date, orbit, night, sight, link, radiation, plan, leg, clock, finding.</param>
/// <param name="What">Which.</param>
/// <param name="Now">As it is on the date of the scenario; empty when it is not.</param>
/// <param name="Then">As it is on the other date; empty when it is not.</param>
/// <param name="Change">By how much, in words.</param>
public sealed record SlipRow(string Kind, string What, string Now, string Then, string Change);

/// <summary>The same plan on two dates.</summary>
/// <param name="Scenario">The scenario.</param>
/// <param name="By">How much later; negative when earlier.</param>
/// <param name="Outline">Which plan was looked at, in words.</param>
/// <param name="Rows">What changes.</param>
/// <param name="Same">How many windows, legs, clocks and findings do not change.</param>
/// <param name="Clean">Whether the plan is clean on the other date; null where there was no plan to look at.</param>
public sealed record SlipReport(Scenario Scenario, Duration By, string Outline, ImmutableArray<SlipRow> Rows, int Same, bool? Clean)
{
    /// <summary>The report as one table.</summary>
    public string Text()
    {
        StringBuilder text = new();
        string way = By.Seconds < 0 ? "earlier" : "later";
        text.Append(CultureInfo.InvariantCulture, $"{Scenario.Sortie.Title}: the same plan {Words(Math.Abs(By.Seconds))} {way}\n{Caution.Text}\n{Outline}.\n\n");
        int what = Width(row => row.What, 24), now = Width(row => row.Now, 3), then = Width(row => row.Then, 4);
        text.Append(CultureInfo.InvariantCulture, $"{"",-9}  {"".PadRight(what)}  {"now".PadRight(now)}  {"then".PadRight(then)}  change\n");
        string kind = "";
        foreach (SlipRow row in Rows)
        {
            text.Append($"{(row.Kind == kind ? "" : row.Kind),-9}  {row.What.PadRight(what)}  {row.Now.PadRight(now)}  {row.Then.PadRight(then)}  {row.Change}".TrimEnd()).Append('\n');
            kind = row.Kind;
        }
        text.Append(CultureInfo.InvariantCulture, $"\nNot changed: {Same} windows, starts of legs, clocks and findings. Moments are PET.\n");
        text.Append(Clean switch
        {
            null => "No plan was looked at: make one with plan, or name one with --outline.\n",
            true => "On that date the plan is clean as far as it is checked.\n",
            false => "On that date the plan is NOT CLEAN.\n",
        });
        return text.ToString();

        int Width(Func<SlipRow, string> cell, int least) => Rows.Select(row => cell(row).Length).Append(least).Max();
    }

    /// <summary>The report as JSON.</summary>
    public byte[] Json() =>
    [
        .. JsonSerializer.SerializeToUtf8Bytes(new { Caution = Caution.Text, Scenario = Scenario.Id, By, Outline, Clean, Rows, NotChanged = Same }, PlanJson.Options),
        (byte)'\n',
    ];

    private static string Words(int seconds) => seconds % 86400 == 0 ? $"{seconds / 86400} d" : seconds % 3600 == 0 ? $"{seconds / 3600} h" : Duration.FromSeconds(seconds).ToString();
}

/// <summary>Compares a plan on two dates.</summary>
internal sealed class SlipComparison
{
    // Windows of one kind come about once a turn: two that begin farther apart than this are not the same one.
    private const int SameWindow = 45 * 60;

    private readonly List<SlipRow> rows = [];
    private int same;

    public static SlipReport Of((SkyReport Sky, ProvenPlan? Plan) now, (SkyReport Sky, ProvenPlan? Plan) then, Duration by, string outline)
    {
        SlipComparison comparison = new();
        comparison.Dates(now.Sky, then.Sky);
        comparison.Windows(now.Sky, then.Sky, Math.Max(3600, Math.Max(ScenarioOrbit.LimitOf(now.Sky.Scenario), Math.Max(now.Plan?.End.Seconds ?? 0, then.Plan?.End.Seconds ?? 0))));
        if (now.Plan is { } before && then.Plan is { } after) comparison.Plans(now.Sky.Scenario, before, then.Sky.Scenario, after);
        return new(now.Sky.Scenario, by, outline, [.. comparison.rows], comparison.same, then.Plan?.Verdict.Clean);
    }

    private void Dates(SkyReport now, SkyReport then)
    {
        string Zero(SkyReport sky) => sky.Scenario.Sortie.PetZero.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture) + " UTC";
        string Days(double days) => string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(days * 10) / 10:0.0} d");
        string Degrees(double beta) => string.Create(CultureInfo.InvariantCulture, $"{beta:0.0} deg");
        rows.Add(new("date", "PET 0:00", Zero(now), Zero(then), ""));
        rows.Add(new("orbit", "age of the elements", Days(now.Times!.ElementAge), Days(then.Times!.ElementAge), then.Times.ElementAge > then.Orbit!.NoteAfter ? "OLD: times may be minutes off" : ""));
        rows.Add(new("orbit", "beta", Degrees(now.Times.Beta), Degrees(then.Times.Beta), ""));
    }

    private void Windows(SkyReport now, SkyReport then, int until)
    {
        Sky a = now.Scenario.Sky, b = then.Scenario.Sky;
        Pair("night", "not full day", now.Shown(a.Night), then.Shown(b.Night), until);
        Pair("night", "fully dark", now.Shown(a.FullNight), then.Shown(b.FullNight), until);
        foreach ((NamedPassages one, NamedPassages other) in now.Times!.Stations.Concat(now.Times.Relays).Zip(then.Times!.Stations.Concat(then.Times.Relays)))
            Pair("sight", one.Name, now.Times.Surely(one.Passages), then.Times.Surely(other.Passages), until);
        Pair("link", "lost", now.Shown(a.NoLink), then.Shown(b.NoLink), until);
        if (a.Radiation is { } high) Pair("radiation", "high", now.Shown(high), then.Shown(b.Radiation ?? []), until);
    }

    private void Pair(string kind, string what, ImmutableArray<PetInterval> now, ImmutableArray<PetInterval> then, int until)
    {
        bool InWalk(PetInterval one) => one.To.Seconds > 0 && one.From.Seconds < until;
        List<PetInterval> left = [.. then.Where(InWalk)];
        foreach (PetInterval one in now.Where(InWalk))
        {
            int Distance(PetInterval other) => Math.Abs(other.From.Seconds - one.From.Seconds);
            PetInterval? match = left.Count == 0 ? null : left.MinBy(Distance);
            if (match is { } found && Distance(found) <= SameWindow)
            {
                left.Remove(found);
                Add(kind, what, Words(one), Words(found), Moved(one, found));
            }
            else Add(kind, what, Words(one), "", "not then");
        }
        foreach (PetInterval more in left) Add(kind, what, "", Words(more), "only then");
    }

    private void Plans(Scenario now, ProvenPlan before, Scenario then, ProvenPlan after)
    {
        Add("plan", "end", before.Likely.Activities.Max(one => one.End).ToString(), after.Likely.Activities.Max(one => one.End).ToString(),
            Later(after.Likely.Activities.Max(one => one.End).Since(before.Likely.Activities.Max(one => one.End))));
        Dictionary<LegId, Pet> starts = Starts(after);
        foreach ((LegId leg, Pet start) in Starts(before).OrderBy(one => one.Value))
            if (starts.TryGetValue(leg, out Pet other)) Add("leg", leg.Value, start.ToString(), other.ToString(), Later(other.Since(start)));
            else Add("leg", leg.Value, start.ToString(), "", "not then");

        ILookup<string, ClockTold> runs = ClockTold.All(then, after.Likely, after.Played[0].Trace).ToLookup(run => run.Clock);
        foreach (IGrouping<string, ClockTold> clock in ClockTold.All(now, before.Likely, before.Played[0].Trace).GroupBy(run => run.Clock))
        {
            ClockTold[] others = [.. runs[clock.Key]];
            int i = 0;
            foreach (ClockTold run in clock)
            {
                if (i < others.Length) Add("clock", clock.Key, Words(run), Words(others[i]), Later(Duration.FromSeconds(others[i].Left.Seconds - run.Left.Seconds), "more left", "less left"));
                else Add("clock", clock.Key, Words(run), "", "not then");
                i++;
            }
            foreach (ClockTold more in others.Skip(i)) Add("clock", clock.Key, "", Words(more), "only then");
        }

        List<Finding> left = [.. after.Verdict.Findings];
        foreach (Finding one in before.Verdict.Findings)
        {
            // What it is about stays; when and by how much may move.
            Finding? match = left.FirstOrDefault(other => (other.Rule, other.Branch) == (one.Rule, one.Branch) && other.Who.SequenceEqual(one.Who) && other.Activity == one.Activity)
                ?? left.FirstOrDefault(other => (other.Rule, other.Branch) == (one.Rule, one.Branch) && other.Who.SequenceEqual(one.Who));
            if (match is not null) left.Remove(match);
            Add("finding", What(one), Words(one), match is null ? "" : Words(match),
                match is null ? "not then" : match.Severity == one.Severity ? "" : match.Severity == Severity.Broken ? "BROKEN THEN" : one.Severity == Severity.Broken ? "no longer broken" : "");
        }
        foreach (Finding more in left) Add("finding", What(more), "", Words(more), more.Severity == Severity.Broken ? "BROKEN ONLY THEN" : "only then");

        static Dictionary<LegId, Pet> Starts(ProvenPlan plan) => plan.Likely.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(leg => leg.Key, leg => leg.Min(step => step.Start));
        static string What(Finding finding) => finding.Who.IsEmpty ? finding.Rule.Value : $"{finding.Rule} {string.Join(", ", finding.Who)}";
    }

    private void Add(string kind, string what, string now, string then, string change)
    {
        SlipRow row = new(kind, what, now, then, change);
        if (now == then) same++;
        // The likely and the high time of one contingency often say the same.
        else if (kind != "finding" || !rows.Contains(row)) rows.Add(row);
    }

    private static string Words(PetInterval one) => $"{one.From} to {one.To}";

    private static string Words(ClockTold run) => $"{run.From} to {run.To}, {run.Left} left";

    private static string Words(Finding finding) =>
        $"{finding.Severity.ToString().ToLowerInvariant()} at {finding.At}" + (finding.Margin.Length > 0 ? $", margin {finding.Margin}" : "");

    private static string Moved(PetInterval one, PetInterval other)
    {
        Duration start = other.From.Since(one.From), longer = Duration.FromSeconds(other.To.Since(other.From).Seconds - one.To.Since(one.From).Seconds);
        return string.Join(", ", new[] { Later(start), longer.Seconds == 0 ? "" : Later(longer, "longer", "shorter") }.Where(words => words.Length > 0));
    }

    private static string Later(Duration by, string more = "later", string less = "earlier") =>
        by.Seconds == 0 ? "" : $"{Duration.FromSeconds(Math.Abs(by.Seconds))} {(by.Seconds > 0 ? more : less)}";
}
