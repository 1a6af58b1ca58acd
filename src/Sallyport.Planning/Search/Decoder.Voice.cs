using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Who is inside leads no more people at once than the limit of <c>voice.crowded</c> allows.</summary>
internal sealed partial class Decoder
{
    /// <summary>By conversation that may go on at once: what is led in it, in order of time.</summary>
    private readonly (int From, int To, int Unit)[][] talks;

    private readonly int[] talking;

    // One leg that may wait inside: what is led of it begins no sooner.
    private readonly int[] ledFrom;

    /// <summary>
    /// Lets a unit that would begin at a moment wait until somebody inside has time for it: a leg that may wait does so inside, right before what is led, for
    /// what comes before that is begun as soon as it can be; any other one as a whole. Whether anything had to wait.
    /// </summary>
    private bool WaitForVoice(SearchCase.Unit unit, ref int start)
    {
        if (talks.Length == 0 || LedOf(unit, start) is not var (from, to)) return false;
        int wait = int.MaxValue;
        for (int line = 0; line < talks.Length && wait > 0; line++) wait = Math.Min(wait, WaitIn(line, from, to));
        if (wait == 0) return false;
        int began = start;
        foreach (int l in unit.Legs)
        {
            if (LedOf(l, began) is not { } led) continue;
            if (all.Data[l] is { Leg.MayWait: true, Voice.First: > 0 }) ledFrom[l] = Math.Max(ledFrom[l], from + wait);
            else start = Math.Max(start, began + from + wait - led.From);
        }
        return true;
    }

    /// <summary>When a piece of a leg begins that could at a moment: once its site is open, and whoever leads it is free; null if its site never is.</summary>
    private int? Begins(int l, int piece, int from)
    {
        LegData leg = all.Data[l];
        if (leg.Voice is { } voice && voice.First == piece) from = Math.Max(from, ledFrom[l]);
        return leg.Closed.Any ? leg.Closed.Next(from, leg.Pieces[piece]) : from;
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
            own[i] = (from, to, all.UnitOfLeg[unit.Legs[0]]);
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
        (int From, int To)? led = null;
        foreach (int l in unit.Legs)
            if (LedOf(l, start) is var (from, to)) led = led is var (first, last) ? (Math.Min(first, from), Math.Max(last, to)) : (from, to);
        return led;
    }

    private (int From, int To)? LedOf(int l, int start)
    {
        LegData leg = all.Data[l];
        if (leg.Voice is not { } voice) return null;
        if (!leg.Leg.MayWait) return (start + voice.Before, start + leg.Length - voice.After);
        int from = start, end = start;
        for (int i = 0; i <= voice.Last; i++)
        {
            int begins = Begins(l, i, end) ?? end;
            end = begins + leg.Pieces[i];
            if (i == voice.First) from = begins;
        }
        return (from, end);
    }

    /// <summary>The conversations of the last decode, for its outline.</summary>
    public ImmutableArray<VoiceOutline> Voices() =>
    [
        .. talks.Select((line, i) => new VoiceOutline([.. line.Take(talking[i]).Select(talk =>
            all.Legs[all.Units[talk.Unit].Legs.First(l => all.Data[l].Voice is not null)].Id)])).Where(voice => !voice.Legs.IsEmpty),
    ];
}
