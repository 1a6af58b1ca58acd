using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Web.Parts;

/// <summary>How a sortie stands, the same for all who look, as the script of its page reads it (<c>src/Stage/src/desk/view.ts</c>).</summary>
internal sealed record SortieMessage
{
    public required long Revision { get; init; }

    /// <summary>The revision at which texts changed last: what is so at each moment stays as it is with it.</summary>
    public required long TextRevision { get; init; }

    /// <summary>The class of <see cref="Words.Class(SortieState)"/>: <c>clean</c> only once everything that can be looked at was.</summary>
    public required string Standing { get; init; }

    /// <summary>How far it was looked at, and what is still to come.</summary>
    public required string Proving { get; init; }

    public required string Summary { get; init; }

    public required string[] NotChecked { get; init; }

    public required string LastChange { get; init; }

    public required DifferenceTold? Difference { get; init; }

    public required string[] Changes { get; init; }

    public required PlanView? View { get; init; }

    /// <summary>What was done, what it made of the plan and how far that is proven, to be said aloud.</summary>
    [JsonIgnore]
    public string Aloud => string.Join(' ', new[] { LastChange, Difference?.Aloud, Proving }.Where(part => !string.IsNullOrEmpty(part)));

    // It is read by a script and never stands in a page: letters are left as they are, which halves a chart.
    private static readonly JsonSerializerOptions Options = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>What a state says, its chart drawn in a size.</summary>
    public static SortieMessage Of(SortieState state, ChartSize size)
    {
        PlanView? view = ChartShelf.Of(state, size);
        return new()
        {
            Revision = state.Revision,
            TextRevision = state.TextRevision,
            Standing = Words.Class(state),
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
            View = view,
        };
    }

    /// <summary>Something as the script reads it.</summary>
    public static byte[] ToJson<T>(T told) => JsonSerializer.SerializeToUtf8Bytes(told, Options);

    /// <summary>What stands, for one who looks.</summary>
    /// <param name="state">What stands, as JSON: made once for all.</param>
    /// <param name="own">What is that one's own.</param>
    public static byte[] For(byte[] state, OwnTold own) => Joined(new { own }, state);

    /// <summary>What came of an edit, with what stands now.</summary>
    /// <param name="said">What is said of it.</param>
    /// <param name="refused">Whether nothing was done.</param>
    /// <param name="spent">How long the desk took, ms: for benches.</param>
    /// <param name="state">What stands, as JSON.</param>
    /// <param name="own">What is of the one who asked.</param>
    public static byte[] Answer(string said, bool refused, double spent, byte[] state, OwnTold own) => Joined(new { said, refused, spent, own }, state);

    private static byte[] Joined<T>(T beside, byte[] state) => [.. ToJson(beside).AsSpan()[..^1], .. ",\"state\":"u8, .. state, (byte)'}'];
}

/// <summary>What is one's own of those who look.</summary>
/// <param name="MayNot">Why that one may change nothing; null for a planner.</param>
/// <param name="Undo">What undo would take back, in words; null for nothing.</param>
/// <param name="Redo">What redo would do again.</param>
internal sealed record OwnTold(string? MayNot, string? Undo, string? Redo);

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
