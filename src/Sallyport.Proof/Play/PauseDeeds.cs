using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What people do for themselves: they need time, and to be outside.</summary>
internal static class PauseDeeds
{
    public static Deed Check(World world, CheckGloves check) => Outside(world, check, world.Scenario.Checks?.Gloves?.Time.Time, "A check of gloves and helmet");

    public static Deed Rest(World world, Rest rest) => Outside(world, rest, null, "A rest");

    private static Deed Outside(World world, PersonActivity pause, Duration? takes, string what)
    {
        Deed deed = new(pause);
        if (takes is { } least) deed.NeedsTime(least, () => what);
        deed.Needs("way.none", () => world.IsOutside(pause.Person), () => $"{what} of {pause.Person} is planned outside, but {pause.Person} is inside",
            () => $"Plan it while {pause.Person} is outside.");
        return deed;
    }
}
