using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>The upright ties between strips: where people start something together, and where things change hands.</summary>
internal sealed class Ties
{
    /// <summary>Hand-overs of the same people that lie closer than this are one meeting.</summary>
    private const int OneMeeting = 240;

    private readonly Sheet sheet;
    private readonly ImmutableArray<Strip> strips;
    private readonly ImmutableArray<Tie> ties;

    private sealed record Tie(Strip Upper, Strip Lower, Pet At, ImmutableArray<string> Words, string Title, bool Together, bool Down, bool Up);

    private sealed record Hand(Strip From, Strip To, Give Give);

    public Ties(Sheet sheet, ImmutableArray<Strip> strips)
    {
        (this.sheet, this.strips) = (sheet, strips);
        ties = [.. Meetings().Concat(Gifts()).OrderBy(tie => tie.At)];
    }

    /// <summary>The lines drawn, from person to person.</summary>
    public IEnumerable<(Spot From, Spot To)> Lines => ties.Select(tie => (tie.Upper.SpotAt(tie.At), tie.Lower.SpotAt(tie.At)));

    public IEnumerable<Element> Draw()
    {
        Dictionary<Strip, LabelPlacer> gutters = strips.ToDictionary(strip => strip, strip =>
            new LabelPlacer(new(sheet.Axis.Left - 20, strip.Bottom + 2, sheet.Axis.Right - sheet.Axis.Left + 30, 44)));
        foreach (Tie tie in ties)
            foreach (Strip strip in strips.Where(strip => strip.Top >= tie.Upper.Top && strip.Top < tie.Lower.Top))
                gutters[strip].Avoid([new(sheet.Axis.X(tie.At), strip.Bottom), new(sheet.Axis.X(tie.At), strip.Bottom + 48)], 2.6, true);
        foreach (IGrouping<Strip, Tie> gutter in ties.GroupBy(tie => tie.Upper))
        {
            ImmutableArray<Tie> here = [.. gutter];
            ImmutableArray<PlacedLabel?> labels = gutters[gutter.Key].Place([.. here.Select(Request)]);
            for (int i = 0; i < here.Length; i++)
            {
                List<Element> parts = [.. LinesOf(here[i])];
                if (labels[i] is { } label) parts.AddRange(label.Draw(Palette.Words));
                else sheet.MoveToKey(here[i].Title);
                yield return new Group(sheet.Ids.Take(here[i].Together ? "together" : "hand-over"), here[i].Title, "", [.. parts]);
            }
        }
    }

    private LabelRequest Request(Tie tie)
    {
        double x = sheet.Axis.X(tie.At);
        ImmutableArray<LabelShape>.Builder shapes = ImmutableArray.CreateBuilder<LabelShape>();
        shapes.Add(new([Line(string.Join(", ", tie.Words))], tie.Words.Length > 2 ? 20 : 0));
        if (tie.Words.Length > 1) shapes.Add(new([.. tie.Words.Select(Line)], 8));
        foreach (string words in tie.Words.Take(tie.Words.Length == 1 ? 1 : 0))
            if (Lettering.Halve(words, Face.Regular, 11.5) is { Count: 2 } halves) shapes.Add(new([.. halves.Select(Line)], 12));
        return new(shapes.ToImmutable(), [new(x, tie.Upper.Bottom + 8), new(x, tie.Upper.Bottom + 40)], tie.Together ? 2 : 1, 90);

        static LabelLine Line(string words) => new(Lettering.Shorten(words, Face.Regular, 11.5, 200), Face.Regular, 11.5, Palette.Words);
    }

    private IEnumerable<Element> LinesOf(Tie tie)
    {
        Spot from = tie.Upper.SpotAt(tie.At), to = tie.Lower.SpotAt(tie.At);
        yield return new Line(from, to, tie.Together ? Strokes.Together : Strokes.Gift);
        if (tie.Together)
        {
            foreach (Spot end in new[] { from, to }) yield return new Disc(end, 4.5, new SolidFill(Palette.Words), null);
            yield break;
        }
        yield return End(from, tie.Up ? -1 : 0);
        yield return End(to, tie.Down ? 1 : 0);

        static Element End(Spot at, int pointing) => pointing == 0
            ? new Disc(at, 3, new SolidFill(Palette.Words), null)
            : new Trail([new(at.X, at.Y - pointing * 3), new(at.X - 4, at.Y - pointing * 11), new(at.X + 4, at.Y - pointing * 11)], null, new SolidFill(Palette.Words), true);
    }

    private IEnumerable<Tie> Meetings()
    {
        Dictionary<LegId, Leg> legs = sheet.Scenario.Legs.Where(leg => leg.Together.Length > 0).ToDictionary(leg => leg.Id);
        var starts = sheet.Timeline.Activities.OfType<DoStep>().Where(step => legs.ContainsKey(step.Leg))
            .GroupBy(step => step.Leg).Select(steps => (Leg: legs[steps.Key], First: steps.MinBy(step => step.Start)!));
        foreach (var group in starts.GroupBy(start => (start.Leg.Job, start.Leg.Together)))
        {
            var here = group.Select(start => (Strip: strips.FirstOrDefault(strip => strip.Person.Id == start.First.Person), start.First.Start))
                .Where(start => start.Strip is not null).OrderBy(start => start.Strip!.Top).ToList();
            if (here.Count < 2 || here[0].Strip == here[^1].Strip) continue;
            string words = sheet.Words.Say("drawn.meet", group.Key.Together);
            yield return new(here[0].Strip!, here[^1].Strip!, here[0].Start, [words], sheet.Words.Say("drawn.meeting", here[0].Start, string.Join(", ", here.Select(start => start.Strip!.Person.Id)), words), true, false, false);
        }
    }

    private IEnumerable<Tie> Gifts()
    {
        Dictionary<PersonId, Strip> of = strips.ToDictionary(strip => strip.Person.Id);
        IEnumerable<Hand> hands = sheet.Timeline.Activities.OfType<Give>().OrderBy(give => give.Start)
            .Where(give => of.ContainsKey(give.From) && of.ContainsKey(give.To) && give.From != give.To)
            .Select(give => new Hand(of[give.From], of[give.To], give));
        foreach (var pair in hands.GroupBy(hand => hand.From.Top < hand.To.Top ? (Upper: hand.From, Lower: hand.To) : (Upper: hand.To, Lower: hand.From)))
        {
            List<Hand> meeting = [];
            foreach (Hand hand in pair)
            {
                if (meeting.Count > 0 && hand.Give.Start.Since(meeting[^1].Give.End).Seconds > OneMeeting)
                {
                    yield return TieOf(pair.Key.Upper, pair.Key.Lower, meeting);
                    meeting = [];
                }
                meeting.Add(hand);
            }
            if (meeting.Count > 0) yield return TieOf(pair.Key.Upper, pair.Key.Lower, meeting);
        }
    }

    private Tie TieOf(Strip upper, Strip lower, List<Hand> meeting)
    {
        ImmutableArray<string> words = [.. meeting.Select(hand => sheet.GearName(hand.Give.Gear) + (hand.From == upper ? " ↓" : " ↑"))];
        string title = sheet.Words.Say("drawn.handover", meeting[0].Give.Start, sheet.PlaceName(meeting[0].Give.At),
            string.Join("; ", meeting.Select(hand => sheet.Words.Say("drawn.gives", hand.Give.From, sheet.GearName(hand.Give.Gear), hand.Give.To))));
        return new(upper, lower, meeting[0].Give.Start, words, title, false, meeting.Exists(hand => hand.From == upper), meeting.Exists(hand => hand.From == lower));
    }
}
