using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>One stretch of line laid along a span. The span is null when the timeline walks where the station has none.</summary>
internal readonly record struct LineStretch(GripId To, int Millimetres, Span? Span, int ToldSeconds);

/// <summary>A mark along a tether line as it lies: a reel hooked at a grip, or a stretch walked to a grip.</summary>
internal readonly record struct LineMark(GripId Grip, bool Hook, LineStretch Stretch)
{
    /// <summary>Whether another line lies the same way here.</summary>
    public bool Same(LineMark other) => Grip == other.Grip && Hook == other.Hook;
}

/// <summary>
/// A person's tether on the structure: the reels hooked one after another, each with the way it lies along.
/// Stepping back over the stretch walked last winds it in again; any other step pays out, also round a loop.
/// </summary>
internal sealed class TetherLine
{
    private readonly List<Reel> reels = [];
    private ImmutableArray<LineMark> marks = [];

    /// <summary>How many reels are hooked.</summary>
    public int Count => reels.Count;

    /// <summary>The anchor of the reel in use; null when there is none.</summary>
    public GripId? Anchor => reels.Count > 0 ? reels[^1].Anchor : null;

    /// <summary>The anchor of the reel before the one in use; null when there is none.</summary>
    public GripId? AnchorBefore => reels.Count > 1 ? reels[^2].Anchor : null;

    /// <summary>Where the person's end of the reel in use is.</summary>
    public GripId? End => reels.Count > 0 ? reels[^1].End : null;

    /// <summary>Paid out of the reel in use, mm.</summary>
    public int PaidOut => reels.Count > 0 ? reels[^1].Millimetres : 0;

    /// <summary>Hooks the next reel here.</summary>
    public void Hook(GripId anchor)
    {
        reels.Add(new Reel(anchor));
        marks = default;
    }

    /// <summary>Winds in the reel in use and takes the earlier one again.</summary>
    public void Unhook()
    {
        reels.RemoveAt(reels.Count - 1);
        marks = default;
    }

    /// <summary>Nothing is hooked any more.</summary>
    public void Clear()
    {
        reels.Clear();
        marks = default;
    }

    /// <summary>Whether walking to this grip steps back over the stretch walked last.</summary>
    public bool LeadsBackTo(GripId grip) => reels.Count > 0 && reels[^1].GripBefore == grip;

    /// <summary>The stretch walked last; only when there is one.</summary>
    public LineStretch Last => reels[^1].Stretches[^1];

    /// <summary>Walks one stretch.</summary>
    public void Walk(LineStretch stretch)
    {
        if (reels.Count == 0) return;
        marks = default;
        Reel reel = reels[^1];
        if (reel.GripBefore == stretch.To) reel.Stretches.RemoveAt(reel.Stretches.Count - 1);
        else reel.Stretches.Add(stretch);
    }

    /// <summary>The grips that the whole line lies along, from the first anchor to the person's end; none when nothing is hooked.</summary>
    public ImmutableArray<GripId> Grips() => reels.Count == 0 ? [] : [reels[0].Anchor, .. reels.SelectMany(reel => reel.Stretches).Select(stretch => stretch.To)];

    /// <summary>Every hook and stretch, from the first anchor to the person's end: the same list until the line is laid anew.</summary>
    public ImmutableArray<LineMark> Marks => marks.IsDefault ? marks = [.. All()] : marks;

    private IEnumerable<LineMark> All()
    {
        foreach (Reel reel in reels)
        {
            yield return new(reel.Anchor, true, default);
            foreach (LineStretch stretch in reel.Stretches) yield return new(stretch.To, false, stretch);
        }
    }

    private sealed class Reel(GripId anchor)
    {
        public GripId Anchor { get; } = anchor;

        public List<LineStretch> Stretches { get; } = [];

        public GripId End => Stretches.Count > 0 ? Stretches[^1].To : Anchor;

        public GripId? GripBefore => Stretches.Count switch { 0 => null, 1 => Anchor, _ => Stretches[^2].To };

        public int Millimetres => Stretches.Sum(stretch => stretch.Millimetres);
    }
}
