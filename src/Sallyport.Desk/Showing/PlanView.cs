using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>
/// What the page of one scenario shows of a plan first, and an edit is answered with: its chart, what may be taken hold of on it, its findings. Times are seconds of PET. All of
/// it is read from the plan's own trace and verdict.
/// </summary>
public sealed record PlanView
{
    /// <summary>The range chart, a part of a page.</summary>
    public required string Svg { get; init; }

    /// <summary>Where its time axis is, in the units of the picture.</summary>
    public required PlaybackChart Frame { get; init; }

    /// <summary>How wide the picture is.</summary>
    public required double Width { get; init; }

    /// <summary>What PET counts from, UTC.</summary>
    public required string PetZero { get; init; }

    /// <summary>The strips, from above.</summary>
    public required ImmutableArray<StripView> Strips { get; init; }

    /// <summary>The legs that stand on the strips, in the order of their starts.</summary>
    public required ImmutableArray<LegView> Legs { get; init; }

    public required ImmutableArray<FindingView> Findings { get; init; }

    /// <summary>When it ends, by how much within the limit, how many jobs, what they are worth.</summary>
    public required string Ends { get; init; }
}

/// <summary>What is so at each moment of a plan, so that the page asks nobody while a pointer moves. It follows from the timeline and trace alone, whatever the verdict.</summary>
public sealed record PlanBeside
{
    public required ImmutableArray<ReturnView> Returns { get; init; }

    /// <summary>Where each return time comes nearest to what it is held against.</summary>
    public required ImmutableArray<TightView> Tight { get; init; }

    /// <summary>The closing ceiling: from, to, seconds at both, what binds.</summary>
    public required ImmutableArray<CeilingView> Ceiling { get; init; }

    public required ImmutableArray<GearView> Gear { get; init; }

    public required ImmutableArray<CommandView> Commands { get; init; }

    /// <summary>What is dead, and for how long it may be.</summary>
    public required ImmutableArray<DeadView> Dead { get; init; }

    /// <summary>The steps that ask for something dead, and which switches stand open for them.</summary>
    public required ImmutableArray<InhibitView> Inhibits { get; init; }

    /// <summary>What somebody inside reads or decides.</summary>
    public required ImmutableArray<PlaybackDeed> Inside { get; init; }

    public required ImmutableArray<LeftOutView> LeftOut { get; init; }

    /// <summary>What a walk-through would play, without what is said.</summary>
    public required Playback Playback { get; init; }
}

/// <summary>The strip of a person.</summary>
public sealed record StripView(string Person, string Name, double Top, double Bottom);

/// <summary>A leg on the strip of a person.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">As shown.</param>
/// <param name="Job">Its job's name.</param>
/// <param name="JobTitle">Its job, as shown.</param>
/// <param name="Must">Whether the sortie is for that job.</param>
/// <param name="Person">Who does it.</param>
/// <param name="Place">Where.</param>
/// <param name="From">When it begins.</param>
/// <param name="To">When it ends.</param>
/// <param name="Pinned">What is pinned by hand, in words; null for nothing.</param>
/// <param name="Held">Whether its start is pinned.</param>
public sealed record LegView(string Id, string Title, string Job, string JobTitle, bool Must, string Person, string Place, int From, int To, string? Pinned, bool Held);

/// <summary>A finding, numbered as on the chart.</summary>
public sealed record FindingView(int Number, string Rule, string Severity, bool Otherwise, ImmutableArray<string> Who, int At, string Sentence, string Figures, string Source, string Mend, string? Leg);

/// <summary>A return time: time and seconds, straight in between; minus one for no way.</summary>
public sealed record ReturnView(string Kind, string? Person, ImmutableArray<double[]> Points);

/// <summary>The least margin of a return time, in words.</summary>
public sealed record TightView(string Kind, string? Person, int At, string Words);

/// <summary>A piece of the closing ceiling.</summary>
public sealed record CeilingView(int From, int To, double FromSeconds, double ToSeconds, string Binds);

/// <summary>A thing, and where it is from when on, in words.</summary>
public sealed record GearView(string Name, string Kind, ImmutableArray<PlaybackState> Where);

/// <summary>A command of a console.</summary>
public sealed record CommandView(int From, int To, string Console, string Command, string Makes, string? For);

/// <summary>Something switched off: from the end of one command to that of the other. <paramref name="To"/> is null when it is not turned on again.</summary>
public sealed record DeadView(string Name, int From, int? To, int? Longest);

/// <summary>A step that asks for something dead.</summary>
public sealed record InhibitView(int From, int To, string Who, string Step, string Node, int Asked, ImmutableArray<string> Open);

/// <summary>A job not in the plan.</summary>
public sealed record LeftOutView(string Job, string Title, bool Must, int Value, string Why);
