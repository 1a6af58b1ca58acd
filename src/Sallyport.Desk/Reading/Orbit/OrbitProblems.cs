using System.Globalization;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>The texts of problems with element sets.</summary>
internal static class OrbitProblems
{
    /// <summary>Versions of the OMM that are read: they differ in nothing that is used here.</summary>
    public static readonly string[] Versions = ["1.0", "2.0", "3.0"];

    public static Problem OtherMessage(Place place, string found) =>
        FileProblems.At(place, "orbit.format", $"'{found}'", "an OMM, which begins with CCSDS_OMM_VERS or holds one <omm>, or a two-line element set", "give mean elements for SGP4 in one of these formats.");

    public static Problem OtherVersion(Place place, string found) =>
        FileProblems.At(place, "format.version", found.Length > 0 ? $"version '{found}' of the OMM" : "no version of the OMM", $"one of: {string.Join(", ", Versions)}", "ask for the message in a version that is read here.");

    public static Problem SecondSet(Place place) =>
        FileProblems.At(place, "orbit.several", "a second element set", "one set a file", "keep the set that is meant, in a file of its own.");

    public static Problem NoKeyword(Place place) =>
        FileProblems.At(place, "orbit.line", "a line without '='", "KEYWORD = value, or COMMENT and text", "mend the line, or delete it.");

    public static Problem Unknown(Place place, string key, IReadOnlyCollection<string> known) =>
        FileProblems.At(place, "key.unknown", $"the keyword '{key}'", "a keyword of the OMM", "correct the keyword, or delete the line.", Nearest.Of(key, known));

    public static Problem Missing(SourceText source, string key, string example) =>
        FileProblems.Whole(source.Name, "key.missing", $"no {key}", "all elements, and the centre, frame, time and theory they are for", $"add '{key} = {example}' if that is what holds, or get the set from its source again.");

    public static Problem Other(TextNode node, string key, string meant) =>
        FileProblems.At(node.Place, "orbit.other", $"{node.Shown} for {key}", $"{meant}, the only one that SGP4 is for", "get mean elements for SGP4: nothing is converted here.");

    public static Problem NoMeanMotion(Place place) =>
        FileProblems.At(place, "key.missing", "SEMI_MAJOR_AXIS without MEAN_MOTION", "MEAN_MOTION, as SGP4 needs it", "get the set with its mean motion: the one does not follow from the other.");

    public static Problem Unit(TextNode node, string key, string unit, string wanted) =>
        FileProblems.At(node.Place, "unit.wrong", $"{key} in [{unit}]", $"[{wanted}]", "write it in the unit of the standard, or leave the unit out if the figure is right.");

    public static Problem Lines(Place place, int lines) =>
        FileProblems.At(place, "orbit.lines", lines == 1 ? "1 line" : $"{lines} lines", "two lines of elements, with a line of the name before them or not", "keep one set, lines 1 and 2, and nothing else.");

    public static Problem Line(Place place, char begins, int length) =>
        FileProblems.At(place, "orbit.line", $"a line of {length} characters here", $"line {begins} of the set: '{begins}', a blank, 69 characters in all", "copy the line again, with all its blanks.");

    public static Problem Checksum(Place place, char begins, char found, int sum) =>
        FileProblems.At(place, "orbit.checksum", $"the checksum '{found}' of line {begins}", $"{sum}, as its digits give", "copy the line again: one of its characters is wrong.");

    public static Problem OtherNumber(Place place, string first, string second) =>
        FileProblems.At(place, "orbit.number", $"the number '{second}'", $"'{first}', as in line 1", "put the two lines of one object together.");

    public static Problem Old(Place place, DateTime epoch, double age, OrbitUse use) =>
        FileProblems.At(place, "orbit.old", string.Create(CultureInfo.InvariantCulture, $"an epoch of {epoch:yyyy-MM-dd HH:mm} UTC, {age:0.#} days from {use.From:yyyy-MM-dd}"),
            string.Create(CultureInfo.InvariantCulture, $"at most {use.RefuseAfter:0.#} days"), "get newer elements, or check the date of the sortie.");

    public static Problem OldThen(string file, DateTime epoch, double age, OrbitUse use) =>
        FileProblems.Whole(file, "orbit.old", string.Create(CultureInfo.InvariantCulture, $"an epoch of {epoch:yyyy-MM-dd HH:mm} UTC, {age:0.#} days from {use.From:yyyy-MM-dd}"),
            string.Create(CultureInfo.InvariantCulture, $"at most {use.RefuseAfter:0.#} days"), "slip by less, or get elements for that date.");

    public static Problem NoState(Place place, DateTime instant, Sgp4Fault fault) =>
        FileProblems.At(place, fault == Sgp4Fault.Decayed ? "orbit.decayed" : "orbit.lost",
            string.Create(CultureInfo.InvariantCulture, $"an orbit that {Why(fault)} at {instant:yyyy-MM-dd HH:mm:ss} UTC (SGP4 code {(int)fault})"),
            "an orbit that lasts through the sortie", "get newer elements, or check the set and the date of the sortie.");

    public static Problem Lost(string file, DateTime instant, Sgp4Fault fault) =>
        FileProblems.Whole(file, fault == Sgp4Fault.Decayed ? "orbit.decayed" : "orbit.lost",
            string.Create(CultureInfo.InvariantCulture, $"an orbit that {Why(fault)} at {instant:yyyy-MM-dd HH:mm:ss} UTC (SGP4 code {(int)fault})"),
            "an orbit that lasts through the sortie", "get newer elements, or check the set and the date of the sortie.");

    public static Problem NoFile(TextNode file, string path) =>
        FileProblems.At(file.Place, "file.missing", $"'{file.Text}', which is not there ({path})", "a file of elements in the folder of the scenario", "put the elements there, an OMM or a two-line set, or correct the name.");

    public static Problem SkylineBack(Place place) =>
        FileProblems.At(place, "orbit.skyline", "an azimuth no greater than the one before", "points of a skyline in order, from north by east", "put the points in order, each azimuth once.");

    public static Problem FewCorners(Place place, string name, int corners) =>
        FileProblems.At(place, "orbit.corners", corners == 1 ? $"1 corner of {name}" : $"{corners} corners of {name}", "at least 3 corners", "give every corner, in order around the region.");

    public static string OldNote(OrbitElements elements, double age, OrbitUse use) => string.Create(CultureInfo.InvariantCulture,
        $"The elements of {elements.Name} are {age:0.#} days from the sortie, more than {use.NoteAfter:0.#}: day, night and links may be minutes off. Get newer ones before the day.");

    public static string Why(Sgp4Fault fault) => fault switch
    {
        Sgp4Fault.Decayed => "is below the ground",
        Sgp4Fault.MeanMotion => "has no mean motion",
        Sgp4Fault.SemiLatusRectum => "is open",
        _ => "has lost its eccentricity",
    };
}
