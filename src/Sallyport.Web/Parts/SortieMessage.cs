using System.Text.Json;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Web.Parts;

/// <summary>How a sortie stands, as the script of its page reads it (<c>src/Stage/src/desk/view.ts</c>).</summary>
internal sealed record SortieMessage
{
    public required long Revision { get; init; }

    public required bool Planner { get; init; }

    /// <summary><c>clean</c> only once everything that can be looked at was.</summary>
    public required string Standing { get; init; }

    /// <summary>How far it was looked at, and what is still to come.</summary>
    public required string Proving { get; init; }

    public required string Summary { get; init; }

    public required string[] NotChecked { get; init; }

    public required string LastChange { get; init; }

    public required DifferenceTold? Difference { get; init; }

    public required string[] Changes { get; init; }

    public required string? Undo { get; init; }

    public required string? Redo { get; init; }

    public required PlanView? View { get; init; }

    private static readonly JsonSerializerOptions Options = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>What one who looks sees of a state.</summary>
    public static SortieMessage Of(SortieState state, ChartSize size, bool planner, string? undo, string? redo)
    {
        PlanView? view = ChartShelf.Of(state, size);
        return new()
        {
            Revision = state.Revision,
            Planner = planner,
            Standing = state switch { { Plan: null } => "nothing", { IsClean: true } => "clean", { IsClean: false } => "broken", _ => "unproven" },
            Proving = state.Proving switch
            {
                Sallyport.Desk.Proving.Quick when state.IsClean is null => "Quick: played and judged, nothing broken so far. What follows a contingency is still being proven.",
                Sallyport.Desk.Proving.Quick => $"{Words.Standing(state)}. Quick: what follows a contingency is still being proven.",
                _ => $"{Words.Standing(state)}.",
            },
            Summary = view?.Ends ?? "",
            NotChecked = [.. state.NotYet, .. state.Plan?.Verdict.NotChecked ?? []],
            LastChange = state.LastChange,
            Difference = state.Difference is { } difference ? DifferenceTold.Of(difference) : null,
            Changes = [.. state.Changes],
            Undo = undo,
            Redo = redo,
            View = view,
        };
    }

    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Options);

    /// <summary>What came of an edit, with what stands now.</summary>
    public static byte[] Answer(string said, bool refused, SortieMessage? message) => JsonSerializer.SerializeToUtf8Bytes(new { said, refused, message }, Options);
}

/// <summary>What a change did, in words.</summary>
internal sealed record DifferenceTold(string[] Words, FindingTold[] Gained, FindingTold[] Lost)
{
    public static DifferenceTold Of(StateDifference difference)
    {
        List<string> words = [];
        if (difference.End != difference.EndBefore) words.Add($"ends {difference.End}, {By(difference.End.Since(difference.EndBefore), "later", "earlier")}");
        if (difference.Value != difference.ValueBefore) words.Add($"value {difference.Value}, {Math.Abs(difference.Value - difference.ValueBefore)} {(difference.Value > difference.ValueBefore ? "more" : "less")}");
        if (difference.Margin != difference.MarginBefore)
            words.Add(difference is { Margin: { } now, MarginBefore: { } before }
                ? $"least return margin {now}, {By(Duration.FromSeconds(now.Seconds - before.Seconds), "more", "less")}"
                : difference.Margin is { } first ? $"least return margin {first}" : "no return limit is held any more");
        if (words.Count == 0) words.Add("end, value and least return margin as before");
        return new([.. words], Told(difference.Gained), Told(difference.Lost));
    }

    /// <summary>In one line, to be said aloud.</summary>
    public string Aloud => string.Join("; ", Words) + "." + Count(Gained, "gained") + Count(Lost, "gone");

    private static string Count(FindingTold[] told, string what) => told.Length == 0 ? "" : $" {Parts.Words.Count(told.Length, "finding")} {what}: {told[0].Sentence}";

    private static string By(Duration by, string more, string less) => $"{Duration.FromSeconds(Math.Abs(by.Seconds))} {(by.Seconds > 0 ? more : less)}";

    private static FindingTold[] Told(IEnumerable<Finding> findings) => [.. findings.Select(finding => new FindingTold(finding.Severity.ToString().ToLowerInvariant(), finding.At.Seconds, finding.Sentence))];
}

/// <summary>A finding that came or went.</summary>
internal sealed record FindingTold(string Severity, int At, string Sentence);

/// <summary>What a page asks for; names are looked up by the edit itself, which refuses what is not there.</summary>
public sealed record EditAsked(string Kind, string? Leg, string? Job, string? Person, string? Before, int? Moment)
{
    /// <summary>The edit; null where what was asked says nothing.</summary>
    internal SortieEdit? Edit => this switch
    {
        { Kind: "move", Leg: { } leg, Person: { } person } => new MoveLeg(new(leg), new(person), Before is { } before ? new LegId(before) : null),
        { Kind: "pin", Leg: { } leg } => new Pin(new(leg), Moment is { } moment ? Pet.FromSeconds(moment) : null),
        { Kind: "unpin", Leg: { } leg } => new Unpin(new(leg)),
        { Kind: "stay", Leg: { } leg } => new PinPerson(new(leg)),
        { Kind: "leave", Job: { } job } => new LeaveOut(new(job)),
        { Kind: "back", Job: { } job } => new BringBack(new(job)),
        _ => null,
    };
}
