using System.Collections.Immutable;
using System.Runtime.InteropServices;
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
/// How a tether line lies, mark after mark. A book has one of each: two lines that lie the same are one and the same object.
/// </summary>
internal sealed class Lay
{
    private readonly List<Lay> further = [];
    private readonly int length;

    private Lay(Lay? before, LineMark mark, Lay? hooked)
    {
        (Before, Mark, Hooked) = (before, mark, mark.Hook ? this : hooked);
        if (before is null) return;
        length = before.length + 1;
        Reels = before.Reels + (mark.Hook ? 1 : 0);
        PaidOut = mark.Hook ? 0 : before.PaidOut + mark.Stretch.Millimetres;
    }

    /// <summary>The line without its last mark; null where nothing is hooked.</summary>
    public Lay? Before { get; }

    /// <summary>The last mark.</summary>
    public LineMark Mark { get; }

    /// <summary>The line as it lay when the reel in use was hooked; null where nothing is.</summary>
    public Lay? Hooked { get; }

    /// <summary>How many reels are hooked.</summary>
    public int Reels { get; }

    /// <summary>Paid out of the reel in use, mm.</summary>
    public int PaidOut { get; }

    public bool IsEmpty => Before is null;

    /// <summary>Every hook and stretch, from the first anchor to the person's end.</summary>
    public ImmutableArray<LineMark> Marks => field.IsDefault ? field = All() : field;

    /// <summary>The grips that the whole line lies along, from the first anchor to the person's end.</summary>
    public ImmutableArray<GripId> Grips => field.IsDefault ? field = [.. Marks.Where((mark, i) => i == 0 || !mark.Hook).Select(mark => mark.Grip)] : field;

    /// <summary>A line of which nothing is laid yet.</summary>
    public static Lay Nothing() => new(null, default, null);

    /// <summary>The line with one mark more.</summary>
    public Lay With(LineMark mark)
    {
        // Few ways lead on from anywhere.
        foreach (Lay known in further)
            if (known.Mark == mark) return known;
        further.Add(new(this, mark, Hooked));
        return further[^1];
    }

    private ImmutableArray<LineMark> All()
    {
        LineMark[] marks = new LineMark[length];
        for (Lay at = this; !at.IsEmpty; at = at.Before!) marks[at.length - 1] = at.Mark;
        return ImmutableCollectionsMarshal.AsImmutableArray(marks);
    }

    public Lay WithHook(GripId anchor) => With(new(anchor, true, default));

    public Lay WithStretch(LineStretch stretch) => With(new(stretch.To, false, stretch));
}

/// <summary>
/// A person's tether on the structure: the reels hooked one after another, each with the way it lies along.
/// Stepping back over the stretch walked last winds it in again; any other step pays out, also round a loop.
/// </summary>
internal sealed class TetherLine(Lay nothing)
{
    private readonly Lay nothing = nothing;

    /// <summary>How it lies.</summary>
    public Lay Lay { get; private set; } = nothing;

    /// <summary>How many reels are hooked.</summary>
    public int Count => Lay.Reels;

    /// <summary>The anchor of the reel in use; null when there is none.</summary>
    public GripId? Anchor => Lay.Hooked?.Mark.Grip;

    /// <summary>The anchor of the reel before the one in use; null when there is none.</summary>
    public GripId? AnchorBefore => Lay.Hooked?.Before?.Hooked?.Mark.Grip;

    /// <summary>Where the person's end of the reel in use is.</summary>
    public GripId? End => Lay.IsEmpty ? null : Lay.Mark.Grip;

    /// <summary>Paid out of the reel in use, mm.</summary>
    public int PaidOut => Lay.PaidOut;

    /// <summary>Hooks the next reel here.</summary>
    public void Hook(GripId anchor) => Lay = Lay.WithHook(anchor);

    /// <summary>Winds in the reel in use and takes the earlier one again.</summary>
    public void Unhook() => Lay = Lay.Hooked!.Before!;

    /// <summary>Nothing is hooked any more.</summary>
    public void Clear() => Lay = nothing;

    /// <summary>Whether walking to this grip steps back over the stretch walked last.</summary>
    public bool LeadsBackTo(GripId grip) => !Lay.IsEmpty && !Lay.Mark.Hook && Lay.Before!.Mark.Grip == grip;

    /// <summary>Walks one stretch.</summary>
    public void Walk(LineStretch stretch)
    {
        if (!Lay.IsEmpty) Lay = LeadsBackTo(stretch.To) ? Lay.Before! : Lay.WithStretch(stretch);
    }
}
