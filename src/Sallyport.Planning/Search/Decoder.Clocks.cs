namespace Sallyport.Planning;

/// <summary>Thermal clocks at the rates of their states, over the steps, windows and nights of a decoded plan.</summary>
internal sealed partial class Decoder
{
    private const int StillRunning = 600;

    /// <summary>What changes for one clock, in order of time.</summary>
    private readonly (int At, ulong Bits, bool Holds)[] turn;

    private int turns;

    /// <summary>Counts what clocks run over their time.</summary>
    private void RunClocks(int end)
    {
        foreach (ClockCase clock in all.Clocks)
        {
            SetTurns(clock, -1, 0);
            broken += Beyond(clock, end, stops: false);
        }
    }

    /// <summary>Sets what changes for a clock, with one window ended at another moment than planned; -1 for none.</summary>
    private void SetTurns(ClockCase clock, int late, int until)
    {
        turns = 0;
        foreach ((int at, ulong bits, bool holds) in clock.LightTurns) Turn(at, bits, holds);
        foreach ((int l, int step, ulong bit, bool holds) in clock.Changes)
            if (legIn[l]) Turn(StepEnd(l, step), bit, holds);
        foreach ((int shutdown, ulong bit) in clock.Shutdowns)
            for (int w = 0; w < windows; w++)
                if (window[w].Shutdown == shutdown)
                {
                    Turn(window[w].From, bit, true);
                    Turn(w == late ? until : window[w].To, bit, false);
                }
    }

    /// <summary>Seconds by which a clock runs over its time until a moment; <paramref name="stops"/> when it is stopped then.</summary>
    private long Beyond(ClockCase clock, int end, bool stops)
    {
        ulong holds = clock.Start | clock.Day;
        double used = 0;
        long beyond = 0;
        int at = 0, lasts = 0;
        bool runs = false;
        for (int i = 0; i <= turns; i++)
        {
            int until = i < turns ? Math.Min(turn[i].At, end) : end;
            if (until > at)
            {
                int now = LastsIn(clock, holds);
                runs = now > 0;
                if (!runs) Stop();
                else
                {
                    lasts = now;
                    used += (until - at) / (double)lasts;
                }
                at = until;
            }
            if (i < turns) holds = turn[i].Holds ? holds | turn[i].Bits : holds & ~turn[i].Bits;
        }
        if (runs && !stops && !clock.MayRunOn) beyond += StillRunning;
        Stop();
        return beyond;

        void Stop()
        {
            if (used > 1 + 1e-9) beyond += (long)Math.Ceiling((used - 1) * lasts);
            used = 0;
        }
    }

    /// <summary>How long a clock lasts from fresh; zero when it does not run. In twilight as by day or as by night, whichever is worse.</summary>
    private static int LastsIn(ClockCase clock, ulong holds)
    {
        if ((holds & ClockCase.Twilight) == 0) return LastsInLight(clock, holds);
        int byDay = LastsInLight(clock, holds | clock.Day), byNight = LastsInLight(clock, holds | clock.Night);
        return byDay == 0 ? byNight : byNight == 0 ? byDay : Math.Min(byDay, byNight);
    }

    private static int LastsInLight(ClockCase clock, ulong holds)
    {
        if ((holds & clock.While) != clock.While) return 0;
        foreach ((ulong when, int lasts) in clock.Rates)
            if ((holds & when) == when) return lasts;
        return SearchCase.Never;
    }

    private void Turn(int at, ulong bits, bool holds)
    {
        int i = turns++;
        for (; i > 0 && turn[i - 1].At > at; i--) turn[i] = turn[i - 1];
        turn[i] = (at, bits, holds);
    }

    private int StepEnd(int l, int step)
    {
        LegData leg = all.Data[l];
        int end = legStart[l];
        if (!leg.Leg.MayWait) return end + leg.StepEnds[step];
        for (int i = 0; i <= step; i++) end = (Begins(l, i, end) ?? end) + leg.Pieces[i];
        return end;
    }
}
