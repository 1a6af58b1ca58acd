using System.Globalization;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What the ground must know, as a calendar (RFC 5545): commands, the walk itself, the decision, and when there is no link.</summary>
internal static class BriefingCalendar
{
    private const int LongestLine = 75;

    public static byte[] Of(BriefedPlan plan, DateOnly? printed)
    {
        Wording words = plan.Words;
        StringBuilder text = new();
        void Line(string line) => Fold(text, line);
        // The stamp says when the calendar was made; without a date to print it is that of PET zero, so that the same plan gives the same bytes.
        string stamp = Stamp(printed?.ToDateTime(TimeOnly.MinValue) ?? plan.Scenario.Sortie.PetZero);
        string draft = plan.IsDraft ? plan.Words["draft"] + ": " : "";
        int number = 0;
        Line("BEGIN:VCALENDAR");
        Line("VERSION:2.0");
        Line("PRODID:-//Sallyport//Briefing//EN");
        Line("CALSCALE:GREGORIAN");
        Line("METHOD:PUBLISH");
        Line($"X-WR-CALNAME:{Escape(Draw.LineBreaks.Plain(words.Say("calendar.name", plan.Scenario.Sortie.Title)))}");
        Line($"X-WR-CALDESC:{Escape(Caution.Text)}");
        void Event(Pet from, Pet to, string summary, string about)
        {
            Line("BEGIN:VEVENT");
            Line(string.Create(CultureInfo.InvariantCulture, $"UID:{plan.Plan.Verdict.PlanId}-{number++}@sallyport.invalid"));
            Line($"DTSTAMP:{stamp}");
            Line($"DTSTART:{Stamp(plan.UtcTime(from))}");
            Line($"DTEND:{Stamp(plan.UtcTime(to))}");
            Line($"SUMMARY:{Escape(draft + Draw.LineBreaks.Plain(summary))}");
            Line($"DESCRIPTION:{Escape($"{words.Say("calendar.pet", from, to)} {Draw.LineBreaks.Plain(about)}\n{Draw.LineBreaks.Plain(BriefingBook.Running(plan, printed).Head)}\n{Caution.Text}")}");
            Line(plan.IsDraft ? "STATUS:TENTATIVE" : "STATUS:CONFIRMED");
            Line("END:VEVENT");
        }
        // What both branches of a decision have alike stands once; the rest says on which of them it holds.
        void Branches(Func<BriefedPlan, IEnumerable<(Pet From, Pet To, string Summary, string About)>> eventsOf)
        {
            (Pet, Pet, string, string)[] likely = [.. eventsOf(plan)], other = plan.Other is null ? likely : [.. eventsOf(plan.Other)];
            foreach ((Pet from, Pet to, string summary, string about) in likely) Event(from, to, other.Contains((from, to, summary, about)) ? summary : words.Say("calendar.likely", summary), about);
            foreach ((Pet from, Pet to, string summary, string about) in other.Except(likely)) Event(from, to, words.Say("calendar.other", summary), $"{OtherBranch.Title(plan.Other!)}. {about}");
        }
        Branches(branch => [(branch.Trace.From, branch.Trace.To, plan.Scenario.Sortie.Title, FrontChapters.Standing(plan))]);
        Branches(branch => branch.Timeline.Activities.OfType<SendCommand>().Select(sent => (sent.Start, sent.End, $"{sent.Console}: {sent.Command}",
                (plan.CommandOf(sent).Go is { } go ? words.Say("go.read", sent.End.Plus(Duration.FromSeconds(-go.Seconds)), sent.End) + ". " : "")
                + (sent.For is { } leg ? $"[{leg}] {plan.Leg(leg).Title}. " : "") + string.Join("; ", sent.After.Select(after => words.Say("mind.until", after.Why))))));
        if (plan.DecisionTaken is { } taken) Event(taken.At, taken.Decision.IfBefore > taken.At ? taken.Decision.IfBefore : taken.At.Plus(Duration.FromSeconds(60)), words["decision.title"], words.Say("iv.decide", taken.Decision.After, taken.Decision.IfBefore));
        foreach (PetInterval gap in plan.Scenario.Sky.NoLink)
            if (gap.From < plan.Plan.End && gap.To > plan.Trace.From) Event(gap.From, gap.To, words["sky.los"], "");
        Line("END:VCALENDAR");
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string Stamp(DateTime utc) => utc.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);

    /// <summary>TEXT of RFC 5545, 3.3.11.</summary>
    private static string Escape(string words) => string.Join("\\n", words.Split('\n').Select(line => Draw.LineBreaks.Plain(line).Replace("\\", "\\\\").Replace(";", "\\;").Replace(",", "\\,")));

    /// <summary>Lines no longer than 75 octets, the further ones begun by a blank; no letter is parted (RFC 5545, 3.1).</summary>
    private static void Fold(StringBuilder text, string line)
    {
        int octets = 0;
        foreach (Rune rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                text.Append("\r\n ");
                octets = 1;
            }
            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }
        text.Append("\r\n");
    }
}
