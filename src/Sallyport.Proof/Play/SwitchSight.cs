using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How far the state of a switch is known: changed without anybody seeing it, seen in telemetry or on board, and read to the crew.</summary>
internal static class SwitchSight
{
    public const string Unseen = "unseen";
    public const string Seen = "seen";
    public const string Read = "read";

    public static ImmutableArray<string> All { get; } = [Unseen, Seen, Read];

    /// <summary>What is as it must be before the hatch opens was looked at and read then; nothing else was.</summary>
    public static string AtStart(Feature feature) => feature.Ready == feature.Start ? Read : Unseen;
}
