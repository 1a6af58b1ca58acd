namespace Sallyport.Model;

/// <summary>A person: outside, inside or at a console.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct PersonId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A point on the structure where a person can be.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct GripId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A worksite: a grip, or an arm's pose, with a name people use.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct SiteId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A socket that takes a foot restraint.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct SocketId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A no-go or time-bound zone.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ZoneId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A named thing with a few states.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct FeatureId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A robotic arm.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ArmId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A place where an arm can hold its rider.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct PoseId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A bag, tool, part, restraint or stock.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct GearId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A place on a suit where gear hangs.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct CarryPointId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A size class of gear.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct SizeId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>Something asked for.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct JobId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A part of a job, written job/leg.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct LegId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A step of a leg, by name.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct StepId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A console that commands power, fluids or radio.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ConsoleId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A command that a console sends.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct CommandId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A pair of commands between which something stays off.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ShutdownId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A point of the power net.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct NodeId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>An airlock.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct AirlockId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>An activity of a timeline.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ActivityId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A rule, two words joined by a dot.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct RuleId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}
