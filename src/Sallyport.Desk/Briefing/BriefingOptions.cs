using System.Collections.Immutable;
using Sallyport.Draw;

namespace Sallyport.Desk;

/// <summary>How a briefing is made.</summary>
/// <param name="Paper">The paper of its PDF files.</param>
/// <param name="Printed">The date on it; null for none.</param>
public sealed record BriefingOptions(PaperSize Paper, DateOnly? Printed)
{
    /// <summary>How late each leg can begin; null when that was not reckoned, and then the briefing says so.</summary>
    public ImmutableArray<LatestStart>? Latest { get; init; }

    /// <summary>The plan that the reader knows; null when nothing is to be told of changes.</summary>
    public ProvenPlan? Since { get; init; }

    internal Wording Words { get; init; } = Wording.English;
}
