using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>A prebreathe reckoned through, beside its limits.</summary>
/// <param name="Plan">As told.</param>
/// <param name="SuitPascals">Lowest regulated suit pressure.</param>
/// <param name="Result">Tension and ratio after each part.</param>
/// <param name="Limit">The limit of the ratio; null when none is given.</param>
/// <param name="PaidBack">What a minute of break costs; null when none is given, and then breaks are paid back minute for minute.</param>
public sealed record PrebreatheSheet(PrebreathePlan Plan, double SuitPascals, PrebreatheResult Result, Limit? Limit, Limit? PaidBack)
{
    internal const string Exercise = "Exercise protocols are approved as whole sequences, which this compartment does not describe: the ratio is for information only.";

    /// <summary>Reckons a prebreathe through.</summary>
    internal static PrebreatheSheet Of(PrebreathePlan plan, double suitPascals, Limit? limit, Limit? paidBack) => new(
        plan, suitPascals, InertGas.Of(plan, suitPascals).Over(plan.Parts, InertGas.PaidBack(paidBack)), limit, paidBack);

    /// <summary>Whether it is over a limit; never of an exercise protocol, whose ratio says nothing.</summary>
    public bool Breaks => !Result.IsForInformationOnly && ((Limit is { Value.Dimension: Dimension.Count } limit && Result.Steps[^1].Ratio > limit.Value.Value) || (PaidBack is not null && !IsPaidBack));

    /// <summary>Whether what its breaks cost was breathed beyond what was planned without them; true without breaks.</summary>
    internal bool IsPaidBack => Result.Penalty.BreakMinutes == 0 || (Result.Penalty.Minutes is { } due && InertGas.BeyondMinutes(Plan) >= due);
}

/// <summary>A prebreathe in words and as JSON. The ratio is rounded up.</summary>
public static class PrebreatheText
{
    /// <summary>For the screen.</summary>
    public static string Screen(PrebreatheSheet sheet)
    {
        StringBuilder text = new();
        text.AppendLine("Prebreathe: inert-gas tension and its ratio over the lowest suit pressure");
        text.AppendLine(Caution.Text);
        string vapour = sheet.Result.WaterVapourPascals > 0 ? $"water vapour of {Pressure(sheet.Result.WaterVapourPascals)} taken off" : "dry gas";
        text.AppendLine(Invariant($"One compartment that halves in {sheet.Plan.HalfTimeMinutes:0.##} min; at the start {Pressure(sheet.Plan.StartPascals)} ({sheet.Result.StartIs}); {vapour}; suit at {Pressure(sheet.SuitPascals)}."));
        text.AppendLine($"Source: {sheet.Plan.Source}");
        text.AppendLine();
        text.AppendLine($"  {"part",-5} {"pressure",-22} {"oxygen",7} {"minutes",9} {"ends after",11} {"tension",-22} {"ratio",7}");
        for (int i = 0; i < sheet.Result.Steps.Length; i++)
        {
            PrebreatheStep step = sheet.Result.Steps[i];
            string marks = (step.Part.Exercise ? "  exercise" : "") + (step.Part.IsBreak ? "  break" : "");
            text.AppendLine(Invariant($"  {i + 1,-5} {Pressure(step.Part.Pascals),-22} {step.Part.OxygenShare,7:0.###} {step.Part.Minutes,9:0.##} {step.EndMinutes,7:0.##} min {Pressure(step.TensionPascals),-22} {Up(step.Ratio),7:0.0000}{marks}"));
        }
        text.AppendLine();
        foreach (string line in Verdict(sheet)) text.AppendLine(line);
        text.AppendLine("The flight surgeon decides.");
        return text.ToString().ReplaceLineEndings("\n");
    }

    /// <summary>As JSON: pascals and minutes.</summary>
    public static byte[] Json(PrebreatheSheet sheet)
    {
        JsonObject json = new()
        {
            ["caution"] = Caution.Text,
            ["halfTimeMinutes"] = sheet.Plan.HalfTimeMinutes,
            ["startPascals"] = sheet.Plan.StartPascals,
            ["startIs"] = sheet.Result.StartIs,
            ["waterVapourPascals"] = sheet.Result.WaterVapourPascals,
            ["suitPascals"] = sheet.SuitPascals,
            ["source"] = sheet.Plan.Source,
            ["steps"] = new JsonArray([.. sheet.Result.Steps.Select(step => (JsonNode)new JsonObject
            {
                ["pascals"] = step.Part.Pascals,
                ["oxygenShare"] = step.Part.OxygenShare,
                ["minutes"] = step.Part.Minutes,
                ["exercise"] = step.Part.Exercise,
                ["break"] = step.Part.IsBreak,
                ["endMinutes"] = step.EndMinutes,
                ["tensionPascals"] = step.TensionPascals,
                ["ratio"] = step.Ratio,
            })]),
            ["ratio"] = sheet.Result.Steps[^1].Ratio,
            ["limit"] = sheet.Limit is { } limit ? new JsonObject { ["ratio"] = limit.Value.Value, ["source"] = limit.Source, ["verified"] = limit.Verified } : null,
            ["isForInformationOnly"] = sheet.Result.IsForInformationOnly,
            ["breaks"] = sheet.Result.Penalty.BreakMinutes == 0 ? null : new JsonObject
            {
                ["minutes"] = sheet.Result.Penalty.BreakMinutes,
                ["byRuleMinutes"] = sheet.PaidBack is null ? null : sheet.Result.Penalty.ByRuleMinutes,
                ["byTensionMinutes"] = sheet.Result.Penalty.ByTensionMinutes,
                ["paidMinutes"] = InertGas.BeyondMinutes(sheet.Plan),
            },
            ["overALimit"] = sheet.Breaks,
            ["verdict"] = new JsonArray([.. Verdict(sheet).Select(line => (JsonNode)line)]),
        };
        return [.. JsonSerializer.SerializeToUtf8Bytes(json, PlanJson.Options), (byte)'\n'];
    }

    private static IEnumerable<string> Verdict(PrebreatheSheet sheet)
    {
        double ratio = sheet.Result.Steps[^1].Ratio;
        if (sheet.Limit is { } limit)
        {
            string source = limit.Verified || limit.Source.Contains("unverified", StringComparison.OrdinalIgnoreCase) ? limit.Source : $"{limit.Source} (unverified)";
            yield return Invariant($"Ratio {Up(ratio):0.0000} {(ratio > limit.Value.Value ? "is ABOVE" : "is not above")} the limit of {limit.Value.Value:0.####} ({source}).");
        }
        else yield return Invariant($"Ratio {Up(ratio):0.0000}; no limit is given, so it is held against none.");
        if (sheet.Result.IsForInformationOnly) yield return PrebreatheSheet.Exercise;
        BreakPenalty penalty = sheet.Result.Penalty;
        if (penalty.BreakMinutes == 0) yield break;
        string due = penalty.Minutes is { } minutes ? Invariant($"{Math.Ceiling(minutes * 10 - 1e-9) / 10:0.0} min") : "no length of that gas is enough";
        string rule = sheet.PaidBack is { } paid ? Invariant($"by the rule of {paid.Value.Text} a minute {penalty.ByRuleMinutes:0.#} min") : "no rule is given, and they are held against none";
        yield return Invariant($"Breaks of {penalty.BreakMinutes:0.#} min: to be paid back with {due} ({rule}); breathed beyond the plan without breaks: {InertGas.BeyondMinutes(sheet.Plan):0.#} min, which {(sheet.IsPaidBack ? "is enough" : "is NOT enough")}.");
    }

    private static string Pressure(double pascals) => Invariant($"{pascals / 1000:0.000} kPa ({pascals / 6894.757293168:0.000} psi)");

    private static double Up(double ratio) => Math.Ceiling(ratio * 10000 - 1e-6) / 10000;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
