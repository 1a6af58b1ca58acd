using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads places of gear, such as <c>bag latch-bag</c> or <c>inside</c>.</summary>
internal static class Locations
{
    private static readonly (string Word, LocationKind Kind, string Names)[] Words =
    [
        ("inside", LocationKind.Inside, ""), ("spent", LocationKind.Spent, ""),
        ("grip", LocationKind.Grip, Kinds.Grip), ("bag", LocationKind.Bag, Kinds.Bag), ("person", LocationKind.Person, Kinds.Person),
        ("socket", LocationKind.Socket, Kinds.Socket), ("site", LocationKind.Site, Kinds.Site), ("arm", LocationKind.Arm, Kinds.Arm),
    ];

    /// <summary>Reads a place.</summary>
    /// <param name="r">The map it stands in.</param>
    /// <param name="node">The text.</param>
    /// <param name="key">Its key.</param>
    /// <param name="site">In a step, the site of its leg: <c>site</c> alone means this one, <c>person</c> alone whoever does the step.</param>
    public static Location Read(MapReader r, TextNode node, string key, SiteId? site = null)
    {
        string[] words = node.Text.Split(' ', 2, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        (string word, LocationKind kind, string names) = Words.FirstOrDefault(known => known.Word == words[0]);
        bool alone = words.Length == 1;
        if (word is not null && alone && (names.Length == 0 || (site is not null && kind is LocationKind.Person or LocationKind.Site)))
            return new(kind, kind == LocationKind.Site ? site!.Value.Value : "");
        if (word is not null && !alone && names.Length > 0)
            return new(kind, r.Use(new(node.Place, words[1], node.Plain), names));
        r.Binding.Report(ScenarioProblems.Location(node, key, site is not null));
        return Location.Inside;
    }
}
