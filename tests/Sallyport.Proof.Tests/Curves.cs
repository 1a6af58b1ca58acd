using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>Reads a return curve.</summary>
internal static class Curves
{
    /// <summary>The value from a moment on: of two points that share it, the last.</summary>
    public static double At(Trace trace, ReturnKind kind, string? person, Pet moment)
    {
        ReturnCurve curve = trace.Returns.Single(one => one.Kind == kind && one.Person?.Value == person);
        int last = -1;
        for (int i = 0; i < curve.Points.Length && curve.Points[i].At <= moment; i++) last = i;
        ReturnPoint from = curve.Points[last];
        if (from.At == moment || last + 1 == curve.Points.Length) return from.Seconds;
        ReturnPoint to = curve.Points[last + 1];
        return from.Seconds + (to.Seconds - from.Seconds) * (moment.Seconds - from.At.Seconds) / (to.At.Seconds - from.At.Seconds);
    }
}
