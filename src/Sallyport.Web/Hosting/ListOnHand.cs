using System.Collections.Immutable;
using Sallyport.Desk;

namespace Sallyport.Web;

/// <summary>The list of scenarios as it was read last.</summary>
public sealed class ListOnHand(DeskFolder folder)
{
    private volatile ScenarioCard[]? last;

    /// <summary>The list as it was read last; default when nobody has read it.</summary>
    public ImmutableArray<ScenarioCard> Last => last is { } cards ? [.. cards] : default;

    /// <summary>Reads it.</summary>
    public ImmutableArray<ScenarioCard> Read()
    {
        ImmutableArray<ScenarioCard> cards = folder.Scenarios();
        last = [.. cards];
        return cards;
    }
}
