using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>For when elements are wanted, and how old they may be then.</summary>
/// <param name="From">The first instant that they are used for, UTC.</param>
/// <param name="To">The last, UTC.</param>
/// <param name="NoteAfter">Elements older than this many days, either way, get a note.</param>
/// <param name="RefuseAfter">Elements older than this many days are refused.</param>
public sealed record OrbitUse(DateTime From, DateTime To, double NoteAfter, double RefuseAfter);

/// <summary>Reads mean elements of an orbit: a CCSDS OMM (502.0-B-3) as key = value lines or as XML (505.0-B-3), or a two-line element set (TLE).</summary>
/// <remarks>One set a file. What the file says of centre, frame, time and theory is held against what SGP4 needs; nothing is converted.</remarks>
public static class OrbitReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="name">As the user gave it, for messages.</param>
    /// <param name="use">For when the elements are wanted; null when that is not known, so that their age is not looked at.</param>
    /// <returns>The elements, or every problem of the file.</returns>
    public static ReadResult<OrbitElements> Read(string path, string name, OrbitUse? use)
    {
        Gathered gathered = new();
        OrbitElements? elements = SourceText.Bytes(path, name, gathered.Report) is { } bytes ? FromBytes(bytes, name, use, gathered) : null;
        return gathered.Result(elements);
    }

    /// <summary>The same from the bytes of a file.</summary>
    public static ReadResult<OrbitElements> Read(byte[] bytes, string name, OrbitUse? use)
    {
        Gathered gathered = new();
        return gathered.Result(FromBytes(bytes, name, use, gathered));
    }

    private static OrbitElements? FromBytes(byte[] bytes, string name, OrbitUse? use, Gathered gathered)
    {
        // Both standards take a tab for a blank.
        if (SourceText.From(bytes, name, problem => { if (problem.Code != "text.tab") gathered.Report(problem); }) is not { } source) return null;
        string text = source.Text.TrimStart();
        if (text.Length == 0)
        {
            gathered.Report(FileProblems.Empty(name));
            return null;
        }
        OrbitFields fields = new(source, gathered.Report);
        if (text[0] == '<') XmlElements.Read(source, fields);
        else if (text.StartsWith("CCSDS_", StringComparison.Ordinal) || text.Split('\n')[0].Contains('=')) KeyValueElements.Read(source, fields);
        else TwoLineElements.Read(source, fields);
        if (!gathered.Clean) return null;
        OrbitElements? elements = fields.Elements();
        if (elements is null || !gathered.Clean) return null;
        Follow(elements, use, fields, gathered);
        return elements;
    }

    private static void Follow(OrbitElements elements, OrbitUse? use, OrbitFields fields, Gathered gathered)
    {
        DateTime from = use?.From ?? elements.Epoch, to = use?.To ?? elements.Epoch;
        if (use is not null)
        {
            double age = Math.Max(elements.AgeInDays(from), elements.AgeInDays(to));
            if (age > use.RefuseAfter)
            {
                gathered.Report(OrbitProblems.Old(fields.PlaceOf("EPOCH"), elements.Epoch, age, use));
                return;
            }
            if (age > use.NoteAfter) gathered.Note(OrbitProblems.OldNote(elements, age, use));
        }
        // The orbit is followed some twenty times a turn: one that has decayed by the end, or dips into the ground, has no state there.
        Sgp4 orbit = new(elements);
        foreach (DateTime instant in Moments(elements.Epoch, from, to))
        {
            Sgp4Fault fault = orbit.Propagate(elements.MinutesTo(instant), out _);
            if (fault == Sgp4Fault.None) continue;
            gathered.Report(OrbitProblems.NoState(fields.PlaceOf("MEAN_MOTION"), instant, fault));
            return;
        }
    }

    private static IEnumerable<DateTime> Moments(DateTime epoch, DateTime from, DateTime to)
    {
        yield return epoch;
        for (DateTime at = from; at < to; at += TimeSpan.FromMinutes(5)) yield return at;
        yield return to;
    }

    private sealed class Gathered
    {
        private readonly List<Problem> problems = [];
        private readonly List<string> notes = [];

        public bool Clean => problems.Count == 0;

        public void Report(Problem problem) => problems.Add(problem);

        public void Note(string note) => notes.Add(note);

        public ReadResult<OrbitElements> Result(OrbitElements? elements) => new(
            Clean ? elements : null, [.. problems.OrderBy(problem => problem.Line).ThenBy(problem => problem.Column)], Clean ? [.. notes] : []);
    }
}
