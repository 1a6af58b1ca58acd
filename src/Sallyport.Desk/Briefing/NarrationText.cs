using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The narration as a script for people and as captions in WebVTT.</summary>
public static class NarrationText
{
    /// <summary>The script, in Markdown.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="plan">The plan told.</param>
    /// <param name="cues">What is said.</param>
    /// <param name="words">The words around it.</param>
    public static string Script(Scenario scenario, ProvenPlan plan, ImmutableArray<Cue> cues, WalkthroughWords words)
    {
        StringBuilder text = new();
        text.Append("# ").AppendLine(Plain(words.Say("script.title", ("title", scenario.Sortie.Title)))).AppendLine();
        text.Append("> ").AppendLine(Plain(Caution.Text)).AppendLine();
        if (Draft(plan, words) is { } draft) text.Append("**").Append(Plain(draft)).AppendLine("**").AppendLine();
        text.AppendLine(Plain(words.Say("script.facts", ("outline", plan.Name), ("plan", plan.Verdict.PlanId)))).AppendLine();
        int all = new Telling(scenario, plan, words).Sentences().Count();
        text.AppendLine(Plain(words.Say("script.pace", ("speed", Narration.Speed), ("words", Narration.WordsAMinute), ("told", cues.Length), ("all", all))));
        int? hour = null;
        foreach (Cue cue in cues)
        {
            int now = (int)Math.Floor(cue.From.Seconds / 3600.0);
            if (now != hour) text.AppendLine().Append("## ").AppendLine(Plain(words.Say("script.hour", ("hour", Pet.FromSeconds(now * 3600)))));
            hour = now;
            text.AppendLine().Append("**").Append(cue.From).Append("** ").AppendLine(Plain(cue.Text));
        }
        return text.Replace("\r\n", "\n").ToString();
    }

    /// <summary>The captions. Their zero is the beginning of the trace, and they run at <see cref="Narration.Speed"/>.</summary>
    /// <param name="plan">The plan told.</param>
    /// <param name="cues">What is said.</param>
    /// <param name="words">The words of the note.</param>
    public static string Captions(ProvenPlan plan, ImmutableArray<Cue> cues, WalkthroughWords words)
    {
        Pet zero = plan.Played[0].Trace.From;
        StringBuilder text = new("WEBVTT\n\n");
        text.Append("NOTE\n").Append(Escape(words.Say("vtt.pace", ("speed", Narration.Speed), ("from", zero), ("words", Narration.WordsAMinute)))).Append("\n\n");
        text.Append("NOTE\n").Append(Escape(Caution.Text)).Append('\n');
        for (int i = 0; i < cues.Length; i++)
            text.Append(CultureInfo.InvariantCulture, $"\n{i + 1}\n{Time(cues[i].From.Since(zero))} --> {Time(cues[i].To.Since(zero))}\n{Escape(cues[i].Text)}\n");
        return text.ToString();
    }

    /// <summary>What a plan that is not clean is called; null for a clean one.</summary>
    internal static string? Draft(ProvenPlan plan, WalkthroughWords words) => plan.Verdict.Clean ? null
        : $"{words.Say("draft")} · {words.Say("draft.count", ("count", plan.Verdict.Findings.Count(finding => finding.Severity == Severity.Broken)))}";

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
