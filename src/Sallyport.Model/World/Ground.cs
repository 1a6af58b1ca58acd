using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A console and the commands it can send.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Commands">What it can send, one at a time.</param>
/// <param name="Shutdowns">Pairs of commands between which something stays off.</param>
public sealed record GroundConsole(ConsoleId Id, ImmutableArray<Command> Commands, ImmutableArray<Shutdown> Shutdowns);

/// <summary>A command: sent, seen in telemetry, read to the crew.</summary>
/// <param name="Id">Its name, such as <c>branch-a off</c>.</param>
/// <param name="Time">From sending to the GO.</param>
/// <param name="NeedsLink">Whether a link is needed throughout, to see the telemetry.</param>
/// <param name="Makes">States that hold once it ends.</param>
public sealed record Command(CommandId Id, Duration Time, bool NeedsLink, ImmutableArray<FeatureState> Makes)
{
    /// <summary>The last part of the command's time, in which its GO is read to the crew; null when no GO is read for it.</summary>
    public Duration? Go { get; init; }

    /// <summary>Whether its effect is seen on board, so that no link is needed to see it.</summary>
    public bool SeenAboard { get; init; }

    /// <summary>What its GO is about: a change of one of these makes the GO void.</summary>
    public ImmutableArray<FeatureId> Covers { get; init; } = [];
}

/// <summary>One state of one feature.</summary>
/// <param name="Feature">Which.</param>
/// <param name="State">The state.</param>
public sealed record FeatureState(FeatureId Feature, string State);

/// <summary>Something that a console turns off before certain legs and on again after them.</summary>
/// <param name="Id">Its name; legs ask for it.</param>
/// <param name="Off">The command that begins it.</param>
/// <param name="On">The command that ends it.</param>
/// <param name="Longest">The most from the end of <paramref name="Off"/> to the end of <paramref name="On"/>: the thermal clock of what is left cold. Null when nothing limits it.</param>
/// <param name="CutsLink">Whether the link is lost meanwhile.</param>
/// <param name="Source">Where the limit comes from.</param>
public sealed record Shutdown(ShutdownId Id, CommandId Off, CommandId On, Duration? Longest, bool CutsLink, string Source);
