namespace Sallyport.Desk;

/// <summary>The texts of problems with names: unknown, given twice, of another kind, not well formed.</summary>
internal static class NameProblems
{
    public static Problem Unknown(Place place, string kind, string name, IEnumerable<string> known, bool seeksNearest = true)
    {
        string? nearest = seeksNearest ? Nearest.Of(name, known) : null;
        string fix = nearest is not null ? $"write '{nearest}' if that is meant, or add the {kind} '{name}'."
            : known.Any() ? $"use one of: {Some(known)}."
            : $"add the {kind} '{name}'; there is none of its kind yet.";
        return FileProblems.At(place, "name.unknown", $"'{name}'", $"a known {kind}", fix, nearest);
    }

    public static Problem WrongKind(Place place, string kind, string name, string actual, IEnumerable<string> known) =>
        FileProblems.At(place, "name.kind", $"'{name}', which is a known {actual} but no {kind}", $"a {kind}",
            known.Any() ? $"use one of: {Some(known)}." : $"add a {kind}; there is none yet.");

    public static Problem Twice(Place place, string kind, string name, Place first) =>
        FileProblems.At(place, "name.twice", $"the {kind} '{name}' again; the first stands at {first}", $"each {kind} once", "rename or delete one of the two.");

    public static Problem Form(Place place, string kind, string name, bool blanks) =>
        FileProblems.At(place, "name.form", $"'{name}'", $"a name for a {kind}: letters, digits, '-', '_', '.'{(blanks ? ", single blanks inside" : "")}",
            "write it with these characters only.");

    public static Problem UnknownSection(TextNode key, IReadOnlyCollection<string> known)
    {
        string? nearest = Nearest.Of(key.Text, known);
        return FileProblems.At(key.Place, "section.unknown", $"the section '{key.Text}'", "a section of the scenario format",
            nearest is null ? $"use one of: {Some(known, 40)}." : $"write '{nearest}' if that is meant, or delete the section.", nearest);
    }

    public static Problem UnknownKey(TextNode key, string what, IReadOnlyCollection<string> known)
    {
        string? nearest = Nearest.Of(key.Text, known);
        return FileProblems.At(key.Place, "key.unknown", $"the key '{key.Text}'", $"a key of {what}: {Some(known, 30)}",
            nearest is null ? "delete it, or move it to where it belongs." : $"write '{nearest}' if that is meant, or delete it.", nearest);
    }

    public static string Some(IEnumerable<string> names, int most = 8)
    {
        int count = names.Count();
        return string.Join(", ", names.Take(most)) + (count > most ? $" and {count - most} more" : "");
    }
}
