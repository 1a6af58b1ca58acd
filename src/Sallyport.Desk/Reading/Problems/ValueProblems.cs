using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems with one value: missing, of another shape, without its unit, out of range.</summary>
internal static class ValueProblems
{
    public static Problem MissingKey(Place place, string what, string key, string example) =>
        FileProblems.At(place, "key.missing", $"{what} without '{key}'", $"the key '{key}'", $"add '{key}: {example}'.");

    public static Problem MissingSection(string folder, string section, string why) =>
        FileProblems.Whole(folder, "section.missing", $"no section '{section}' in any file", why, $"add the section '{section}:'.");

    public static Problem Shape(Node found, string what, string expected, string fix) =>
        FileProblems.At(found.Place, "value.shape", $"{found.Shown} for {what}", expected, fix);

    public static Problem EmptyValue(Node found, string key) =>
        FileProblems.At(found.Place, "value.empty", $"nothing after '{key}:'", "a value", "write the value, or delete the key.");

    public static Problem EmptyList(Node found, string key) =>
        FileProblems.At(found.Place, "list.empty", $"an empty list for '{key}'", "at least one entry", "write an entry.");

    public static Problem ListedTwice(Place place, string name) =>
        FileProblems.At(place, "list.twice", $"'{name}' a second time in this list", "each name once", "delete one of the two.");

    public static Problem UnitMissing(TextNode found, string key, Dimension dimension, string? unit = null) =>
        FileProblems.At(found.Place, "unit.missing", $"{found.Shown} for '{key}', without a unit", $"a {Named(dimension)} with its unit",
            $"write the unit after the figure, such as '{found.Text.Trim()} {unit ?? Example(dimension)}'.");

    public static Problem UnitUnknown(TextNode found, string key, string unit, Dimension dimension)
    {
        string? nearest = Nearest.Of(unit, UnitsOf(dimension));
        return FileProblems.At(found.Place, "unit.unknown", $"{found.Shown} for '{key}', in an unknown unit '{unit}'", $"a {Named(dimension)}",
            $"write it in one of: {string.Join(", ", UnitsOf(dimension))}.", nearest);
    }

    public static Problem UnitWrong(TextNode found, string key, Dimension actual, Dimension dimension) =>
        FileProblems.At(found.Place, "unit.wrong", $"{found.Shown} for '{key}', which is a {Named(actual)}", $"a {Named(dimension)}",
            $"write it in one of: {string.Join(", ", UnitsOf(dimension))}.");

    public static Problem CountUnit(TextNode found, string key, string unit) =>
        FileProblems.At(found.Place, "unit.wrong", $"{found.Shown} for '{key}'", $"a count in {unit}", $"write it as a count, such as '2 {unit}'.");

    public static Problem Number(TextNode found, string key, string expected) =>
        FileProblems.At(found.Place, "number.unreadable", $"{found.Shown} for '{key}'", expected, "write a figure, with a point before decimals.");

    public static Problem Whole(TextNode found, string key, string expected) =>
        FileProblems.At(found.Place, "number.unreadable", $"{found.Shown} for '{key}'", expected, "write a whole number, in figures.");

    public static Problem Range(TextNode found, string key, string expected) =>
        FileProblems.At(found.Place, "value.range", $"{found.Shown} for '{key}'", expected, "check the figure and its unit.");

    public static Problem Form(TextNode found, string key, string expected, string example) =>
        FileProblems.At(found.Place, "value.form", $"{found.Shown} for '{key}'", expected, $"write it like this: {example}.");

    public static Problem Choice(TextNode found, string key, IReadOnlyCollection<string> choices)
    {
        string? nearest = Nearest.Of(found.Text, choices);
        return FileProblems.At(found.Place, "value.choice", $"{found.Shown} for '{key}'", $"one of: {string.Join(", ", choices)}",
            nearest is null ? "write one of these." : $"write '{nearest}' if that is meant.", nearest);
    }

    public static Problem NeitherKey(Place place, string what, string keys) =>
        FileProblems.At(place, "key.missing", $"{what} without any of: {keys}", "exactly one of them", "add the one that is meant.");

    public static Problem TooManyKeys(Place place, string what, string keys) =>
        FileProblems.At(place, "key.clash", $"{what} with more than one of: {keys}", "exactly one of them", "keep the one that is meant.");

    public static Problem KeyClash(Place place, string what, string key, string why) =>
        FileProblems.At(place, "key.clash", $"{what} with '{key}'", why, $"delete '{key}', or change what it clashes with.");

    public static Problem Version(TextNode found, int version) =>
        FileProblems.At(found.Place, "format.version", $"format {found.Shown}", $"format {version}, the one this program reads", $"write 'sallyport: {version}' and follow its format.");

    public static Problem SectionTwice(TextNode key, Place first) =>
        FileProblems.At(key.Place, "section.twice", $"the section '{key.Text}' again; the first stands at {first}", "this section once", "merge the two.");

    public static string Example(Dimension dimension) => UnitsOf(dimension).ElementAtOrDefault(dimension switch
    {
        Dimension.Time => 1,
        Dimension.Length => 2,
        Dimension.Mass => 1,
        _ => 0,
    }) ?? "";

    public static string Named(Dimension dimension) => dimension.ToString().ToLowerInvariant();

    private static IEnumerable<string> UnitsOf(Dimension dimension) => Units.All.Where(unit => unit.Dimension == dimension).Select(unit => unit.Name);
}
