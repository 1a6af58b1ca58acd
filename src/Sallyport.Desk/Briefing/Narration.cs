using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What is said, and when: the same for the script, the captions and the voice.</summary>
/// <param name="From">From this moment of the walk.</param>
/// <param name="To">Until before this one.</param>
/// <param name="Text">One or more whole sentences.</param>
internal sealed record Cue(Pet From, Pet To, string Text);

/// <summary>What is said of each branch, in order, not overlapping, within the walk but for the last, which may be said out; of the other branch none where there is none.</summary>
internal sealed record Told(ImmutableArray<Cue> Likely, ImmutableArray<Cue> Other);

/// <summary>The story of a plan as it is told beside the pictures: who goes where, with what, to do what, and what it is for.</summary>
/// <remarks>
/// There is less time to speak than there is to tell. The most important sentence takes its place first; a sentence for which there is no room
/// while what it tells of goes on is left out whole. Nothing is told before it happens.
/// </remarks>
internal static class Narration
{
    /// <summary>How fast the walk is played, seconds of the walk in one second: a minute outside is two seconds on the screen.</summary>
    public const int Speed = 30;

    /// <summary>
    /// Words a minute. The regulator of broadcasting in the United Kingdom wants no more than 160 to 180 in subtitles, as BBC Research and Development
    /// tells it ("How fast should subtitles be?", 11 September 2015); this stays below, for names and figures take longer.
    /// </summary>
    public const int WordsAMinute = 150;

    /// <summary>The shortest time for any sentence, seconds of play: from memory, unverified.</summary>
    private const double LeastSeconds = 1.5;

    /// <summary>What is said.</summary>
    /// <param name="plan">The plan, its words closing what they are filled with.</param>
    internal static Told Of(BriefedPlan plan)
    {
        List<Placed> likely = Placing([], new Telling(plan).Sentences());
        if (plan.Other is not { } other) return new(Woven(likely, plan.Words), []);
        // Until the branches part the same is told of both.
        Pet parts = other.PartsAt;
        List<Placed> otherwise = Placing([.. likely.Where(one => one.From < parts.Seconds)], new Telling(other).Sentences().Where(sentence => sentence.From >= parts));
        return new(Woven(likely, plan.Words), Woven(otherwise, plan.Words));

        List<Placed> Placing(List<Placed> placed, IEnumerable<Sentence> sentences)
        {
            foreach (Sentence sentence in sentences.OrderByDescending(sentence => sentence.Weight).ThenBy(sentence => sentence.From.Seconds))
            {
                int length = SecondsOf(plan.Words.Say("told.meanwhile", sentence.Text));
                if (Room(placed, sentence.From.Seconds, sentence.LastStart.Seconds, length) is { } start) placed.Add(new(start, start + length, sentence));
            }
            placed.Sort((one, other) => one.From.CompareTo(other.From));
            return placed;
        }
    }

    private static ImmutableArray<Cue> Woven(List<Placed> placed, Wording words) =>
        [.. placed.Select((one, i) => new Cue(Pet.FromSeconds(one.From), Pet.FromSeconds(one.To), Woven(i == 0 ? null : placed[i - 1], one, words)))];

    /// <summary>How long a text takes to say, in seconds of the walk.</summary>
    internal static int SecondsOf(string text)
    {
        int count = text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length;
        return (int)Math.Ceiling(Math.Max(LeastSeconds, count * 60.0 / WordsAMinute) * Speed);
    }

    /// <summary>The first second at which something so long finds room; null when that is after the last at which it may begin.</summary>
    private static int? Room(List<Placed> placed, int from, int last, int length)
    {
        int start = from;
        foreach (Placed other in placed.OrderBy(one => one.From))
            if (other.To > start && other.From < start + length) start = other.To;
        return start <= last ? start : null;
    }

    /// <summary>A sentence in its place: where the eye has to go to somebody else while the one before is still at it, that is said.</summary>
    private static string Woven(Placed? before, Placed now, Wording words) =>
        before is { Sentence: { Who: { } other, Until: var until } } && now.Sentence.Who is { } who && other != who && until.Seconds > now.From && now.From - before.To < 20 * Speed
            ? words.Say("told.meanwhile", now.Sentence.Text)
            : now.Sentence.Text;

    private sealed record Placed(int From, int To, Sentence Sentence);
}

/// <summary>A sentence that could be told.</summary>
/// <param name="From">Not before this.</param>
/// <param name="LastStart">It begins no later than this.</param>
/// <param name="Until">What it tells of goes on until then.</param>
/// <param name="Weight">How much is lost without it; the more, the sooner it takes its place.</param>
/// <param name="Who">The person it is about; null for nobody or several.</param>
/// <param name="Text">The sentence.</param>
internal sealed record Sentence(Pet From, Pet LastStart, Pet Until, int Weight, PersonId? Who, string Text);
