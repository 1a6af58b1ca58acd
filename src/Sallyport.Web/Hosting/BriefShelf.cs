using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace Sallyport.Web;

/// <summary>A briefing as it was made, to be looked at and taken home.</summary>
/// <param name="Plan">The name of the plan that it tells.</param>
/// <param name="Revision">The revision of the texts that it was made from.</param>
/// <param name="Clean">Whether the plan was clean; otherwise it is a draft.</param>
/// <param name="Made">When, UTC.</param>
/// <param name="Files">Its files.</param>
public sealed record ShelvedBrief(string Plan, long Revision, bool Clean, DateTime Made, ImmutableArray<(string Name, byte[] Content)> Files);

/// <summary>The last briefing made of each scenario, for as long as the program runs.</summary>
public sealed class BriefShelf
{
    private readonly ConcurrentDictionary<string, ShelvedBrief> briefs = new();

    /// <summary>Told of the scenario whose briefing was laid down.</summary>
    public event Action<string>? Laid;

    /// <summary>The last briefing of a scenario; null when none was made.</summary>
    public ShelvedBrief? Of(string scenario) => briefs.GetValueOrDefault(scenario);

    /// <summary>Lays a briefing down in the place of the one before.</summary>
    public void Lay(string scenario, ShelvedBrief brief)
    {
        briefs[scenario] = brief;
        Laid?.Invoke(scenario);
    }
}
