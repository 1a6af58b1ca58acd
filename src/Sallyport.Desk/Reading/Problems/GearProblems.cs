using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems with bags, tools, bolts and the room of airlocks.</summary>
internal static class GearProblems
{
    public static Problem BandCrossed(Place place, Band band) =>
        FileProblems.At(place, "band.order", $"from {band}", "'most' no less than 'least'", "swap or mend the two.");

    public static Problem PitchTooWide(Place place) =>
        FileProblems.At(place, "bolt.pitch", "a pitch as wide as the bolt", "a pitch below the diameter", "check both figures and their units.");

    public static Problem NoTorque(Place place, Bolt bolt) =>
        FileProblems.At(place, "bolt.scatter", $"{bolt.Id}, whose preload no torque keeps from {bolt.Preload!.Force} when it scatters by {bolt.Preload.Scatter.ToString("0.##", CultureInfo.InvariantCulture)} either way",
            "a band of preload wider than its scatter", "widen the band, or state a better known scatter.");

    public static Problem StartsTooFarIn(Place place, Bolt bolt) =>
        FileProblems.At(place, "bolt.start", Invariant($"{bolt.Id}, which is {bolt.Start:0.###} turns in at the start"), $"no more than it is in when closed, {bolt.Closed}", "mend 'start' or 'closed'.");

    public static Problem KeepsTooMuch(Place place, double full, double keep) =>
        FileProblems.At(place, "charge.keep", Invariant($"{keep:0.###} to keep of {full:0.###}"), "'keep' no more than there is", "mend one of the two.");

    public static Problem SpareForItself(Place place, Gear tool) =>
        FileProblems.At(place, "spare.itself", $"{tool.Id} as its own spare", "another tool", "delete the name, or name the tool that it stands in for.");

    public static Problem SizeInBag(Place place, string what, Gear thing, Gear bag) =>
        FileProblems.At(place, "bag.size", $"{what}, where {thing.Id} is {thing.Size}", $"one of what {bag.Id} takes: {string.Join(", ", bag.Holds!.Sizes)}", "use another bag, or say that this one takes it.");

    public static Problem BagInBag(Place place, string what, Gear bag) =>
        FileProblems.At(place, "bag.nested", what, $"things that are no bags, since {bag.Id} does not say 'bags: true'", "use another place, or say that this one takes bags.");

    public static Problem ThreeBags(Place place, Gear outer, Gear inner, Gear innermost) =>
        FileProblems.At(place, "bag.nested", $"{innermost.Id} in {inner.Id} in {outer.Id}", "no bag in a bag in a bag", "let one of them start elsewhere.");

    public static Problem Overfilled(Place place, Gear bag, string holds, string takes) =>
        FileProblems.At(place, "bag.full", $"{bag.Id}, which holds {holds} at the start", $"at most {takes}", "let something start elsewhere, or mend its figures.");

    public static Problem NotThroughHatch(Place place, Airlock airlock, SizeId size) =>
        FileProblems.At(place, "hatch.size", $"{size} before people into {airlock.Id}", "one of the sizes that pass its hatch", "add it to 'hatch', or take it out of 'before_people'.");

    public static Problem NothingToHangAt(Place place, Airlock airlock) =>
        FileProblems.At(place, "hatch.stow", $"{airlock.Id} with things that come in before people, at {airlock.Grip}, where nothing may be hung", "a grip with 'stow: true' at the hatch",
            "add 'stow: true' to the grip, or take 'before_people' out.");

    public static Problem TieTooLong(Place place, string key, Duration time, Duration tie) =>
        FileProblems.At(place, "handling.tie", $"{time} for '{key}', and {tie} for the second tie in it", "times that hold the tie", "lengthen the one, or shorten the other.");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
