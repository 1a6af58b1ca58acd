using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Who is inside leads no more people at once than the limit of <c>voice.crowded</c> allows.</summary>
internal sealed partial class Decoder
{
    /// <summary>By conversation that may go on at once: what is led in it, in order of time.</summary>
    private readonly (int From, int To, int Unit)[][] talks;

    private readonly int[] talking;

    /// <summary>When somebody inside has time for a unit that would begin at a moment: that moment, or a later one.</summary>
    private int WaitForVoice(SearchCase.Unit unit, int start)
    {
        if (talks.Length == 0 || LedOf(unit, start) is not var (from, to)) return start;
        int wait = int.MaxValue;
        for (int line = 0; line < talks.Length && wait > 0; line++) wait = Math.Min(wait, WaitIn(line, from, to));
        return start + wait;
    }

    /// <summary>Books the conversation of a unit that begins at a moment.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="start">That moment.</param>
    /// <param name="anyway">Whether it was so already: it stands among the conversations even where a leg that may wait inside waited for another.</param>
    private void Lead(SearchCase.Unit unit, int start, bool anyway = false)
    {
        if (talks.Length == 0 || LedOf(unit, start) is not var (from, to)) return;
        for (int line = 0; line < talks.Length; line++)
        {
            if (WaitIn(line, from, to) > 0 && !(anyway && line == talks.Length - 1)) continue;
            (int, int, int)[] own = talks[line];
            int i = talking[line]++;
            for (; i > 0 && talks[line][i - 1].From > from; i--) own[i] = own[i - 1];
            own[i] = (from, to, order[at]);
            return;
        }
    }

    private int WaitIn(int line, int from, int to)
    {
        for (int i = 0; i < talking[line]; i++)
            if (from < talks[line][i].To && to > talks[line][i].From) return talks[line][i].To - from;
        return 0;
    }

    /// <summary>From when until when a unit is led that begins at a moment; null when it never is.</summary>
    private (int From, int To)? LedOf(SearchCase.Unit unit, int start)
    {
        int first = int.MaxValue, last = int.MinValue;
        foreach (int l in unit.Legs)
        {
            LegData leg = all.Data[l];
            if (leg.Voice is not { } voice) continue;
            if (!leg.Leg.MayWait) (first, last) = (Math.Min(first, start + voice.Before), Math.Max(last, start + leg.Length - voice.After));
            else
                for (int i = 0, end = start; i <= voice.Last; i++)
                {
                    int begins = leg.Closed.Any ? leg.Closed.Next(end, leg.Pieces[i]) ?? end : end;
                    end = begins + leg.Pieces[i];
                    if (i >= voice.First) (first, last) = (Math.Min(first, begins), Math.Max(last, end));
                }
        }
        return last == int.MinValue ? null : (first, last);
    }

    /// <summary>The conversations of the last decode, for its outline.</summary>
    public ImmutableArray<VoiceOutline> Voices() =>
    [
        .. talks.Select((line, i) => new VoiceOutline([.. line.Take(talking[i]).Select(talk =>
            all.Legs[all.Units[talk.Unit].Legs.First(l => all.Data[l].Voice is not null)].Id)])).Where(voice => !voice.Legs.IsEmpty),
    ];
}
