using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the sections about the walk as a whole: sortie, sky, tether, handling, limits.</summary>
internal static class SortieSections
{
    public static Sortie Sortie(MapReader r) => new(
        r.Text("title"), PetZero(r), r.Text("pet_zero_is"), r.OptionalText("outline"),
        r.OptionalMap("decision", "a decision", inner => new DecisionWish(inner.Pet("earliest"))))
    {
        Objectives = Objectives(r),
    };

    /// <summary>Those named come first, in their order; of the usual ones, those not named follow in theirs.</summary>
    private static ImmutableArray<Objective> Objectives(MapReader r)
    {
        if (!r.Has("objectives")) return Model.Sortie.UsualObjectives;
        ImmutableArray<Objective> named = [.. r.FilledTexts("objectives").Select(node => r.ChoiceOf(node, "objectives",
            ("value", Objective.Value), ("end", Objective.End), ("dead", Objective.Dead), ("balance", Objective.Balance), ("walking", Objective.Walking), ("margin", Objective.Margin)))];
        return [.. named.Concat(Model.Sortie.UsualObjectives).Distinct()];
    }

    public static Sky Sky(MapReader r) => new(Intervals(r, "night"), Intervals(r, "no_link"), r.Text("source"))
    {
        Radiation = r.Has("radiation") ? Intervals(r, "radiation") : null,
        NoVoice = Intervals(r, "no_voice"),
        VoiceLost = r.List("voice_lost", "a condition", Features.Condition),
    };

    public static TetherRules Tether(MapReader r)
    {
        int before = r.Binding.Count;
        TetherProtocol protocol = r.Choice("protocol", ("reel", TetherProtocol.Reel), ("leapfrog", TetherProtocol.Leapfrog));
        // Only the figure that the protocol uses must be there, and neither when it cannot be told which is meant.
        bool known = r.Binding.Count == before;
        Duration swap = known && protocol == TetherProtocol.Reel ? r.Time("swap") : r.OptionalTime("swap", 0, default);
        Duration hook = known && protocol == TetherProtocol.Leapfrog ? r.Time("hook") : r.OptionalTime("hook", 0, default);
        Duration? hooked = r.Has("hooked") ? r.Time("hooked") : null;
        if (hooked is { } on && protocol == TetherProtocol.Reel && known && on >= swap && r.Find("hooked") is TextNode late)
            r.Binding.Report(ValueProblems.Range(late, "hooked", $"less than the whole change of reels, {swap}: the other hook is released after it"));
        return new(protocol, swap, hook, r.Text("source")) { Hooked = hooked };
    }

    public static Handling Handling(MapReader r) => new(
        HandlingTime(r, "take"), HandlingTime(r, "put"), HandlingTime(r, "give"), HandlingTime(r, "plug"), HandlingTime(r, "unplug"),
        HandlingTime(r, "enter"), HandlingTime(r, "leave"), r.Text("source"))
    { Tie = r.Has("tie") ? r.Time("tie") : null };

    public static HandlingTime HandlingTime(MapReader r, string key) =>
        r.Map(key, $"the time to {key}", inner => new HandlingTime(inner.Time("time"), inner.Time("break_off")), "{time: 2 min, break_off: 1 min}")
        ?? new(Duration.FromSeconds(1), Duration.FromSeconds(1));

    public static Limit Limit(MapReader r)
    {
        string rule = r.Text("rule");
        if (r.Find("rule") is TextNode node && rule.Length > 0)
        {
            string[] words = rule.Split('.');
            if (words.Length == 2 && words.All(word => word.Length > 0 && word.All(char.IsAsciiLetterLower))) r.Give(node, Kinds.Limit);
            else r.Binding.Report(ValueProblems.Form(node, "rule", "a rule, two words joined by a dot", "return.one"));
        }
        Quantity limit = r.Quantity("limit") ?? default;
        Dimension? dimension = limit.Text is null ? null : limit.Dimension;
        Quantity? near = r.OptionalQuantity("near", dimension);
        if (near is { Dimension: Dimension.Temperature } margin && !margin.Text.EndsWith('K')) r.Binding.Report(FluidProblems.NearInDegrees(r.Place, margin.Text));
        Quantity? least = r.OptionalQuantity("least", dimension);
        if (least is { } low && dimension is not null && low.Value >= limit.Value) r.Binding.Report(FluidProblems.LeastAboveLimit(r.Place, rule));
        Quantity? hour = r.OptionalQuantity("hour", dimension);
        if (hour is not null && rule != "work.rate") r.Refuse("hour", "only the rule work.rate has a mean over an hour beside a shorter one");
        return new(new(rule), limit, near, r.Text("source"), r.Flag("verified")) { Least = least, Hour = hour };
    }

    /// <summary>Stretches of PET in order, not overlapping.</summary>
    public static ImmutableArray<PetInterval> Intervals(MapReader r, string key)
    {
        List<PetInterval> intervals = [];
        r.List(key, "a stretch of time", inner =>
        {
            PetInterval interval = new(inner.Pet("from"), inner.Pet("to"));
            if (interval.From >= interval.To) inner.Binding.Report(ScenarioProblems.BackwardInterval(inner.Place, interval));
            else if (intervals.Count > 0 && interval.From < intervals[^1].To) inner.Binding.Report(ScenarioProblems.OverlappingInterval(inner.Place, intervals[^1], interval));
            else intervals.Add(interval);
            return inner;
        });
        return [.. intervals];
    }

    private static DateTime PetZero(MapReader r)
    {
        const string example = "2031-05-14T13:40:00Z";
        if (r.RequiredText("pet_zero", example) is not { } node) return default;
        if (!DateTime.TryParseExact(node.Text, "yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTime zero))
            r.Binding.Report(ValueProblems.Form(node, "pet_zero", "an instant in UTC, ending in Z", example));
        return zero;
    }
}
