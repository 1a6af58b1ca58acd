using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The narration as a script for people and as captions in WebVTT.</summary>
internal static class NarrationText
{
    /// <summary>The script, in Markdown: the likely branch, and behind it the other one from where it leaves it.</summary>
    /// <param name="plan">The plan told.</param>
    /// <param name="told">What is said.</param>
    public static string Script(BriefedPlan plan, Told told)
    {
        Wording words = plan.Words;
        StringBuilder text = new();
        text.Append("# ").AppendLine(Plain(words.Say("script.title", plan.Scenario.Sortie.Title))).AppendLine();
        text.Append("> ").AppendLine(Plain(Caution.Text)).AppendLine();
        if (Draft(plan) is { } draft) text.Append("**").Append(Plain(draft)).AppendLine("**").AppendLine();
        text.AppendLine(Plain(words.Say(plan.Other is null ? "script.facts" : "script.factsboth", plan.Plan.Name, plan.Plan.Verdict.PlanId))).AppendLine();
        int all = new Telling(plan).Sentences().Count();
        text.AppendLine(Plain(words.Say("script.pace", Narration.Speed, Narration.WordsAMinute, told.Likely.Length, all)));
        Cues(told.Likely);
        if (plan.Other is { PartsAt: var parts, DecisionTaken: { } taken })
        {
            text.AppendLine().Append("## ").AppendLine(Plain(words.Say("script.other", parts, plan.Leg(taken.Decision.After).Title, taken.Decision.IfBefore)));
            Cues(told.Other.Where(cue => cue.From >= parts));
        }
        return text.Replace("\r\n", "\n").ToString();

        void Cues(IEnumerable<Cue> cues)
        {
            int? hour = null;
            foreach (Cue cue in cues)
            {
                int now = (int)Math.Floor(cue.From.Seconds / 3600.0);
                if (now != hour) text.AppendLine().Append("### ").AppendLine(Plain(words.Say("script.hour", Pet.FromSeconds(now * 3600))));
                hour = now;
                text.AppendLine().Append("**").Append(cue.From).Append("** ").AppendLine(Plain(cue.Text));
            }
        }
    }

    /// <summary>The captions. Their zero is the beginning of the trace, and they run at <see cref="Narration.Speed"/>.</summary>
    /// <param name="plan">The plan told.</param>
    /// <param name="cues">What is said.</param>
    public static string Captions(BriefedPlan plan, ImmutableArray<Cue> cues)
    {
        Wording words = plan.Words;
        Pet zero = plan.Trace.From;
        StringBuilder text = new("WEBVTT\n\n");
        text.Append("NOTE\n").Append(Escape(words.Say("vtt.pace", Narration.Speed, zero, Narration.WordsAMinute))).Append("\n\n");
        text.Append("NOTE\n").Append(Escape(Caution.Text)).Append('\n');
        for (int i = 0; i < cues.Length; i++)
            text.Append(CultureInfo.InvariantCulture, $"\n{i + 1}\n{Time(cues[i].From.Since(zero))} --> {Time(cues[i].To.Since(zero))}\n{Escape(cues[i].Text)}\n");
        return text.ToString();
    }

    /// <summary>What a plan that is not clean is called; null for a clean one.</summary>
    public static string? Draft(BriefedPlan plan) => !plan.IsDraft ? null
        : $"{plan.Words["draft"]} · {plan.Words.Say("draft.count", plan.Plan.Verdict.Findings.Count(finding => finding.Severity == Severity.Broken))}";

    /// <summary>A moment of play, <c>hh:mm:ss.ttt</c>.</summary>
    private static string Time(Duration since)
    {
        long milliseconds = (long)Math.Round(since.Seconds * 1000.0 / Narration.Speed, MidpointRounding.AwayFromZero);
        return string.Create(CultureInfo.InvariantCulture, $"{milliseconds / 3_600_000:00}:{milliseconds / 60_000 % 60:00}:{milliseconds / 1000 % 60:00}.{milliseconds % 1000:000}");
    }

    /// <summary>Text in which nothing is markup: the three signs that WebVTT gives a meaning to. With <c>&gt;</c> escaped no arrow is left either.</summary>
    private static string Escape(string text) => text.Replace("&", "&amp;").Replace("<", "&lt;").Replace(">", "&gt;");

    /// <summary>Text in which nothing is markup in Markdown, nor in the HTML that it may hold.</summary>
    private static string Plain(string text)
    {
        StringBuilder plain = new(text.Length);
        foreach (char letter in text)
        {
            if (letter is '\\' or '`' or '*' or '_' or '[' or ']' or '#' or '|' or '~' or '!') plain.Append('\\');
            plain.Append(letter switch { '&' => "&amp;", '<' => "&lt;", '>' => "&gt;", _ => letter.ToString() });
        }
        return plain.ToString();
    }
}
