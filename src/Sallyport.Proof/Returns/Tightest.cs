using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Where a return time comes nearest to what it is held against.</summary>
/// <param name="Kind">Which return time.</param>
/// <param name="Person">Whose; null for everybody.</param>
/// <param name="At">When.</param>
/// <param name="Seconds">The return time then, s.</param>
/// <param name="CeilingSeconds">What it is held against then, s.</param>
/// <param name="Activity">What goes on then.</param>
public sealed record TightMoment(ReturnKind Kind, PersonId? Person, Pet At, double Seconds, double CeilingSeconds, ActivityId Activity)
{
    /// <summary>What is left, s; negative when it is over.</summary>
    public double MarginSeconds => CeilingSeconds - Seconds;

    /// <summary>Whether there is no way at all then.</summary>
    public bool IsNoWay => Seconds >= ReturnPoint.NoWaySeconds;

    /// <summary>The return time in whole seconds, rounded up: never towards danger.</summary>
    public Duration Takes => Duration.CeilingFromSeconds(Seconds);

    /// <summary>What it is held against in whole seconds, rounded down.</summary>
    public Duration Held => Duration.FromSeconds((int)Math.Floor(CeilingSeconds));

    /// <summary>What is left of that, rounded down.</summary>
    public Duration Left => Duration.FromSeconds(Held.Seconds - Takes.Seconds);
}

/// <summary>Finds the tightest moments of a trace, for people who want the margins of a plan that is clean.</summary>
public static class Tightest
{
    /// <summary>One moment a curve that has something to be held against: the limit of its rule, and for one person the cut-off of the suit.</summary>
    public static ImmutableArray<TightMoment> Of(Scenario scenario, Trace trace)
    {
        ImmutableArray<TightMoment>.Builder found = ImmutableArray.CreateBuilder<TightMoment>();
        foreach (ReturnCurve curve in trace.Returns)
        {
            string rule = curve.Kind switch { ReturnKind.One => "return.one", ReturnKind.Both => "return.both", ReturnKind.Help => "return.help", ReturnKind.HelpArmless => "help.armless", _ => "return.armless" };
            double limit = scenario.LimitOf(rule) is { Value.Dimension: Dimension.Time } given ? given.Value.Value : double.PositiveInfinity;
            // A helper brings somebody in on what everybody's suits still hold.
            Pet? cutOff = curve.Kind is ReturnKind.Help or ReturnKind.HelpArmless ? trace.CutOffs.Select(one => (Pet?)one.At).Min() : trace.CutOffs.FirstOrDefault(one => one.Person == curve.Person)?.At;
            TightMoment? tightest = null;
            foreach (ReturnPoint point in curve.Points.Where(point => point.Seconds > 0))
            {
                // Between two points the return time is straight and the ceiling never rises, so the ends of each piece are enough.
                double ceiling = cutOff is { } last ? Math.Min(limit, last.Since(point.At).Seconds) : limit;
                if (double.IsInfinity(ceiling) || (tightest is not null && ceiling - point.Seconds >= tightest.MarginSeconds)) continue;
                tightest = new(curve.Kind, curve.Person, point.At, point.Seconds, ceiling, point.Activity);
            }
            if (tightest is not null) found.Add(tightest);
        }
        return found.ToImmutable();
    }
}
