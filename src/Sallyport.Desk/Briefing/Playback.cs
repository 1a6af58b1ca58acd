using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Sallyport.Desk;

/// <summary>
/// Everything that a walk-through draws and writes, from the trace; docs/playback.md tells the form. Times are seconds of PET, places are metres in
/// station axes. A list of moments is in order, and each entry holds until the next.
/// </summary>
public sealed record Playback
{
    /// <summary>The version of this form; it changes when a reader of the form before would draw something wrong.</summary>
    public const int FormatVersion = 2;

    /// <summary>The version.</summary>
    [JsonPropertyName("playback")]
    public int Version => FormatVersion;

    public required string Caution { get; init; }

    /// <summary>What a plan that is not clean is called; null for a clean one.</summary>
    public required string? Draft { get; init; }

    public required string Title { get; init; }

    public required string Outline { get; init; }

    public required string Plan { get; init; }

    /// <summary>The instant of PET 0:00, UTC, ISO 8601.</summary>
    public required string PetZero { get; init; }

    public required int From { get; init; }

    /// <summary>Seconds of the walk in one second of play, as captions and voice have it.</summary>
    public required int Speed { get; init; }

    public required PlaybackStation Station { get; init; }

    /// <summary>The station's model, a whole binary glTF file, drawn in place of the bodies; null for none.</summary>
    public byte[]? Model { get; init; }

    /// <summary>The likely branch, and behind it the other one where the plan has a decision.</summary>
    public required ImmutableArray<PlaybackBranch> Branches { get; init; }

    /// <summary>Time and direction to the Sun, length one, straight in between; null where no attitude is known.</summary>
    public required ImmutableArray<double[]>? Sun { get; init; }

    /// <summary>The direction to the middle of the Earth, and half the angle that it fills, degrees; null where no orbit is known.</summary>
    public required double[]? Earth { get; init; }

    public required PlaybackChart Chart { get; init; }

    /// <summary>The words of the page, by key.</summary>
    public required ImmutableSortedDictionary<string, string> Words { get; init; }

    /// <summary>As JSON in which nothing can end the element of a page that holds it: <c>&lt;</c>, <c>&gt;</c> and <c>&amp;</c> are escaped.</summary>
    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Options);

    private static readonly JsonSerializerOptions Options = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };
}

/// <summary>A branch of the plan, from its beginning to its end. People, arms and things have the same places in their lists on every branch.</summary>
/// <param name="Name">Which branch it is; empty where there is only one.</param>
/// <param name="To">When it ends.</param>
/// <param name="People">Everybody outside.</param>
/// <param name="Arms">Every arm.</param>
/// <param name="Things">What lies, hangs or is carried outside, bags and what is in none.</param>
/// <param name="Ground">What consoles send.</param>
/// <param name="Light"><c>day</c>, <c>twilight</c>, <c>night</c> or <c>unknown</c>.</param>
/// <param name="Sky">Sky, link and voice in the words of the trace, each by its aspect.</param>
/// <param name="Cues">What is said.</param>
public sealed record PlaybackBranch(
    string Name, int To, ImmutableArray<PlaybackPerson> People, ImmutableArray<PlaybackArm> Arms, ImmutableArray<PlaybackThing> Things, ImmutableArray<PlaybackDeed> Ground,
    ImmutableArray<PlaybackState> Light, ImmutableSortedDictionary<string, ImmutableArray<PlaybackState>> Sky, ImmutableArray<PlaybackCue> Cues);

/// <summary>The structure.</summary>
/// <param name="Name">The station's name.</param>
/// <param name="Bodies">What is drawn of it.</param>
/// <param name="Rails">Two grips and the class of the way between: 0 easy, 1 careful, 2 a gap.</param>
/// <param name="Grips">Where each grip is; lines, rails and things name them by number.</param>
/// <param name="Sites">Named places: those of this plan first.</param>
public sealed record PlaybackStation(
    string Name, ImmutableArray<PlaybackBody> Bodies, ImmutableArray<int[]> Rails, ImmutableArray<double[]> Grips, ImmutableArray<PlaybackSite> Sites);

/// <summary>A body between two points: <c>round</c>, <c>square</c> or, when it casts no shadow, <c>thin</c>.</summary>
public sealed record PlaybackBody(string Name, string Shape, double[] From, double[] To, double Width);

/// <summary>A named place, and whether this plan works there.</summary>
public sealed record PlaybackSite(string Name, double[] At, bool Used);

/// <summary>Somebody outside.</summary>
/// <param name="Id">The short name.</param>
/// <param name="Name">The full name.</param>
/// <param name="Path">Time and place, straight in between; time alone from when on nobody is to be seen. Two of one time are a jump.</param>
/// <param name="Lines">How the tether lies.</param>
/// <param name="Where">The place in words.</param>
/// <param name="Carries">What hangs on the suit, in words.</param>
/// <param name="Paid">Metres of tether out.</param>
/// <param name="Home">Time, seconds until safe inside: straight in between; minus one for no way.</param>
/// <param name="Does">One thing after another.</param>
public sealed record PlaybackPerson(
    string Id, string Name, ImmutableArray<double[]> Path, ImmutableArray<PlaybackLine> Lines, ImmutableArray<PlaybackState> Where,
    ImmutableArray<PlaybackState> Carries, ImmutableArray<double[]> Paid, ImmutableArray<double[]> Home, ImmutableArray<PlaybackDeed> Does);

/// <summary>From a moment on a tether lies along these grips and, when it is held, on to the person.</summary>
public sealed record PlaybackLine(int At, int[] Grips, bool Held);

/// <summary>From a moment on this is so.</summary>
public sealed record PlaybackState(int At, string Is);

/// <summary>What somebody does over a time. A step that may be jumped to has the title of its leg.</summary>
public sealed record PlaybackDeed(int From, int To, string Text, string? Leg);

/// <summary>An arm: where its end is over time, and where it is drawn from, the grip under its first pose.</summary>
public sealed record PlaybackArm(string Id, double[] Base, double Reach, ImmutableArray<double[]> Path, ImmutableArray<PlaybackDeed> Does);

/// <summary>A thing outside.</summary>
/// <param name="Name">Its title.</param>
/// <param name="Kind"><c>bag</c>, <c>part</c>, <c>tool</c>, <c>restraint</c> or <c>stock</c>.</param>
/// <param name="Size">The edge of a cube of its volume, m.</param>
/// <param name="Spots">Where it is.</param>
public sealed record PlaybackThing(string Name, string Kind, double Size, ImmutableArray<PlaybackSpot> Spots);

/// <summary>From a moment on a thing is at a place, on a person, on an arm, or, with none of them, not to be seen.</summary>
public sealed record PlaybackSpot(int Time, double[]? At, int? Person, int? Arm);

/// <summary>What is said.</summary>
public sealed record PlaybackCue(int From, int To, string Text);

/// <summary>Where the range chart has its time axis, in the units of the picture, and where its strips begin.</summary>
public sealed record PlaybackChart(double Left, double Right, int From, int To, double Top)
{
    internal static PlaybackChart Of(Draw.ChartFrame frame) => new(PlaybackBuilder.Round(frame.Left), PlaybackBuilder.Round(frame.Right), frame.From.Seconds, frame.To.Seconds, PlaybackBuilder.Round(frame.Top));
}
