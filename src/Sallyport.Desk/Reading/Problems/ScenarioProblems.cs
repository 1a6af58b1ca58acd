using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems that show only when parts of a scenario are seen together.</summary>
internal static class ScenarioProblems
{
    public static Problem BackwardInterval(Place place, PetInterval interval) =>
        FileProblems.At(place, "time.backward", $"from {interval.From} to {interval.To}", "an end after the start", "swap or mend the two.");

    public static Problem OverlappingInterval(Place place, PetInterval before, PetInterval after) =>
        FileProblems.At(place, "time.overlap", $"from {after.From}, while the stretch before lasts until {before.To}", "stretches in order, not overlapping", "sort them, and join those that overlap.");

    public static Problem Location(TextNode node, string key, bool inStep) =>
        FileProblems.At(node.Place, "place.form", $"{node.Shown} for '{key}'",
            "inside, spent, or one of grip, bag, person, socket, site, arm and a name" + (inStep ? "; person or site alone for this step's" : ""),
            "write it like this: bag latch-bag.");

    public static Problem LagsCrossed(Place place, Duration least, Duration most) =>
        FileProblems.At(place, "time.order", $"at least {least} and at most {most}", "'most' no less than 'least'", "swap or mend the two.");

    public static Problem SafeAnyway(Place place, FeatureId feature, string state) =>
        FileProblems.At(place, "state.twice", $"{feature} {state} both under 'in' and under 'after_abort'", "a state in one of the two", "keep it under 'in' if it is safe to leave, else under 'after_abort'.");

    public static Problem NoSource(Place place, StepId step) =>
        FileProblems.At(place, "key.missing", $"the step '{step}' without a source for its times", "'source' at the job, or at the step",
            "say where the figures come from, such as 'source: common practice, no source'.");

    public static Problem SpanTooShort(Place place, Span span, double straight) =>
        FileProblems.At(place, "span.short", Invariant($"{span.Length:0.###} m from {span.A} to {span.B}"),
            Invariant($"at least the straight distance between the two, {Math.Ceiling(straight * 1000) / 1000:0.###} m"),
            "measure the way along the structure, or mend the points of the grips.");

    public static Problem SpanTooSlow(Place place, Person person, Span span) =>
        FileProblems.At(place, "span.slow", Invariant($"{person.Id}, whom the span from {span.A} to {span.B} ({span.Length:0.###} m) takes more than 24 h with the slowest thing carried"),
            "a span that can be walked in one walk", "check the pace, the length of the span, and what 'slower' says of the size classes.");

    public static Problem NoReel(Place place, Person person) =>
        FileProblems.At(place, "reel.none", $"{person.Id} without a reel, where the tether protocol is reel", "at least one reel for everybody outside",
            "add 'reels: [26 m]' with the lengths there are, or change the protocol.");

    public static Problem ReelsTooShort(Place place, Person person, GripId nearest, double away) =>
        FileProblems.At(place, "reel.short", Invariant($"{person.Id}, whose reels reach no site; the nearest way to one, at {nearest}, is {Math.Ceiling(away * 1000) / 1000:0.###} m from the hatch"),
            "reels that reach a site, changed at anchors", "check the lengths of reels and spans, or give grips on the way 'anchor: true'.");

    public static Problem SpanToItself(Place place, Span span) =>
        FileProblems.At(place, "span.loop", $"a span from {span.A} to itself", "two different grips", "name the other end.");

    public static Problem NoWay(Place place, Site site, string where, IEnumerable<string> airlocks) =>
        FileProblems.At(place, "site.unreachable", $"no way over spans to {site.Id} ({where})", $"a way from an airlock: {NameProblems.Some(airlocks)}",
            "add the missing span, or move the site.");

    public static Problem NoRide(Place place, Site site, Arm arm) =>
        FileProblems.At(place, "site.unreachable", $"no ride of {arm.Id} to the pose {site.Pose} from a place where one can get on",
            "rides that join its start, a mount that can be walked to, and this pose", "add the missing ride or mount.");

    public static Problem Circle(Place place, IReadOnlyList<(LegId Leg, LegId For)> links)
    {
        IEnumerable<string> told = links.Select((link, i) =>
        {
            LegId next = links[(i + 1) % links.Count].Leg;
            return $"{link.Leg} waits for {link.For}{(link.For == next ? "" : $", which starts together with {next}")}";
        });
        return FileProblems.At(place, "precedence.circle", $"a circle: {string.Join("; ", told)}", "an order in which each leg can come", "take out one 'after' or one 'together' of the circle.");
    }

    public static Problem TimesCrossed(TextNode node) =>
        FileProblems.At(node.Place, "time.order", $"{node.Shown}", "low, likely and high, none below the one before", "write them in rising order.");

    public static Problem BagCircle(Place place, IReadOnlyList<GearId> bags) =>
        FileProblems.At(place, "bag.circle", $"a circle: {string.Join(" starts in ", bags.Append(bags[0]))}", "bags that start somewhere", "let one of them start elsewhere.");

    public static Problem NobodyCan(Place place, Job job, Leg leg, IEnumerable<string> reasons) =>
        FileProblems.At(place, "job.undoable", $"nobody who can do {leg.Id} of the must-job '{job.Title}': {string.Join("; ", reasons)}",
            "at least one person outside who can", "change what the leg asks for, or who is trained and equipped for it, or the worth of the job.");

    public static Problem TooFewPeople(Place place, Job job, IEnumerable<Leg> legs, string word) =>
        FileProblems.At(place, "job.undoable", $"too few people for the legs of the must-job '{job.Title}' that start together as '{word}': {string.Join(", ", legs.Select(leg => leg.Id))}",
            "a different person outside for each of them", "take 'together' out, or change what the legs ask for.");

    public static Problem NoCarryPoint(Place place, Leg leg, Gear gear) =>
        FileProblems.At(place, "gear.uncarried", Invariant($"{gear.Id} (size {gear.Size}, {gear.Mass:0.###} kg) to be carried for {leg.Id}"),
            "a carry point of somebody outside that takes this size and mass", "change the size class or mass, or add a carry point.");

    public static Problem CheckShort(Place place, Step step, Duration takes) =>
        FileProblems.At(place, "check.short", $"the step '{step.Id}', a check of gloves of {step.Time.Likely}", $"at least {takes}, as 'checks: gloves' says",
            "give the step its time, or take 'checks: gloves' out of it.");

    public static Problem NoTimeBetween(Place place, string what, Duration takes, string rule, string limit) =>
        FileProblems.At(place, "check.endless", $"{what} of {takes}, due every {limit} by the limit of {rule}", "time for something else in between", "check the figure here, and the limit.");

    public static Problem NotInOrder(Place place, Person person) =>
        FileProblems.At(place, "person.shut-in", $"{person.Id}, who is outside but in no airlock's order", "everybody outside in the order of an airlock", "add the name to 'order' of the airlock.");

    public static Problem InTwoOrders(Place place, PersonId person, AirlockId first) =>
        FileProblems.At(place, "person.twice", $"{person}, who goes out by {first} already", "each person in the order of one airlock", "delete the name from one of the orders.");

    public static Problem NeedsArm(Place place, Leg leg, Site site) =>
        FileProblems.At(place, "footing.site", $"{leg.Id} on the arm at {site.Id}, which is on a grip", "a site on an arm", "change the footing or the site.");

    public static Problem NeedsGrip(Place place, Leg leg, Site site) =>
        FileProblems.At(place, "footing.site", $"{leg.Id} at {site.Id}, which is on an arm, with another footing", "footing: arm", "change the footing or the site.");

    public static Problem SocketElsewhere(Place place, Leg leg, Socket socket, Site site) =>
        FileProblems.At(place, "socket.elsewhere", $"{leg.Id} at {site.Id} (grip {site.Grip}) with the socket {socket.Id} at {socket.Grip}", "a socket at the grip of the site", "name a socket there, or move the site.");

    public static Problem NotCarried(Place place, Leg leg, GearId gear) =>
        FileProblems.At(place, "gear.uncarried", $"{gear} left behind by {leg.Id}, which has not brought it", "gear named in 'with'", "add it to 'with', or take it out of 'leaves_behind'.");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
