namespace Sallyport.Cli;

/// <summary>What the program ends with.</summary>
internal static class ExitCodes
{
    /// <summary>Clean: no rule that was checked is broken.</summary>
    public const int Clean = 0;

    /// <summary>A rule is broken.</summary>
    public const int Broken = 1;

    /// <summary>Wrong input or usage.</summary>
    public const int Input = 2;

    /// <summary>No plan was found.</summary>
    public const int NoPlan = 3;

    /// <summary>Stopped by the user before there was a plan.</summary>
    public const int Stopped = 130;
}
