using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>A console sends one command at a time, in the order of their planned starts.</summary>
internal sealed partial class Decoder
{
    /// <summary>By window of a shutdown: which, and from when until when it is off.</summary>
    private readonly (int Shutdown, int From, int To)[] window;

    private readonly Sending[] sending;
    private int windows, sendings;

    /// <summary>A command to be sent.</summary>
    /// <param name="Console">From where.</param>
    /// <param name="Shutdown">What it turns off or on; -1 for a GO.</param>
    /// <param name="Window">The window that it begins or ends; -1 for none.</param>
    /// <param name="IsOff">Whether it begins one, or is a GO: it may be sent earlier.</param>
    /// <param name="Planned">When it would start if nothing else were sent.</param>
    /// <param name="Start">When it starts.</param>
    /// <param name="Command">What is sent.</param>
    private record struct Sending(GroundConsole Console, int Shutdown, int Window, bool IsOff, int Planned, int Start, Command Command)
    {
        public readonly int Seconds => Command.Time.Seconds;

        /// <summary>It may not start before this: a GO is read to somebody who is there.</summary>
        public int Earliest { get; init; }

        public readonly int End => Start + Seconds;
    }

    /// <summary>Adds a window and its two commands.</summary>
    private void Plan(int s, int off, int on)
    {
        ShutdownCase shutdown = all.Shutdowns[s];
        Insert(new(shutdown.Console, s, windows, true, off, off, shutdown.Off));
        Insert(new(shutdown.Console, s, windows, false, on, on, shutdown.On));
        window[windows++] = (s, off + shutdown.Off.Time.Seconds, on + shutdown.On.Time.Seconds);
    }

    private void Insert(Sending next)
    {
        int i = sendings++;
        for (; i > 0 && (sending[i - 1].Planned, sending[i - 1].Shutdown).CompareTo((next.Planned, next.Shutdown)) > 0; i--) sending[i] = sending[i - 1];
        sending[i] = next;
    }

    /// <summary>What ends a window waits for the command before it; what begins one is sent earlier, which nobody waits for. Where neither helps, legs would wait.</summary>
    private void SendOneAtATime()
    {
        for (int i = 0; i < sendings; i++)
            if (!sending[i].IsOff && Before(i) is >= 0 and var on && !sending[on].IsOff && sending[on].End > sending[i].Start)
                sending[i].Start = sending[i].Command.NeedsLink ? NextWithLink(sending[on].End, sending[i].Seconds) : sending[on].End;
        for (int i = sendings - 1; i >= 0; i--)
        {
            int before = Before(i);
            if (before >= 0 && sending[before].End > sending[i].Start)
            {
                int latest = sending[i].Start - sending[before].Seconds;
                if (sending[before].IsOff) sending[before].Start = sending[before].Command.NeedsLink ? LastWithLink(latest, sending[before].Seconds) : latest;
                else broken += sending[before].End - sending[i].Start;
            }
            if (sending[i].Start < 0) broken -= sending[i].Start;
            if (sending[i].Start < sending[i].Earliest) broken += sending[i].Earliest - sending[i].Start;
            // A GO begins and ends no window.
            if (sending[i].Window < 0) continue;
            ref (int Shutdown, int From, int To) own = ref window[sending[i].Window];
            if (sending[i].IsOff) own.From = sending[i].End;
            else own.To = sending[i].End;
        }
    }

    /// <summary>The command that the console of another one sends just before it; -1 for none.</summary>
    private int Before(int i)
    {
        int before = i - 1;
        while (before >= 0 && sending[before].Console != sending[i].Console) before--;
        return before;
    }
}
