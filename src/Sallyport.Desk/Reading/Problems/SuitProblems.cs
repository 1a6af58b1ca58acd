using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>The texts of problems with bodies, suits and the prebreathe.</summary>
internal static class SuitProblems
{
    public static Problem Crossed(TextNode node) =>
        FileProblems.At(node.Place, "estimate.order", node.Shown, "low, likely, high, none below the one before", "write the least first and the greatest last.");

    public static Problem NoFactor(Place place, PersonId person) =>
        FileProblems.At(place, "body.factor", $"no factor for {person}, who goes outside", "one for everybody outside", $"add '- {{person: {person}, factor: 0.9 / 1 / 1.15}}' to 'factors'.");

    public static Problem NoBody(Place place) =>
        FileProblems.At(place, "suit.body", "a suit in use, in a scenario that does not say what bodies burn", "the section 'body'", "add 'body: {rates: …, quotient: …, factors: …, source: …}'.");

    public static Problem ReserveAboveAboard(Place place, PersonId person, Consumable kind, double reserve, double aboard, Duration length) => FileProblems.At(
        place, "suit.reserve", Invariant($"a reserve of {length} of {kind.InWords()} for {person}, {Amount(kind, reserve)}, in a suit that holds {Amount(kind, aboard)}"),
        "a reserve that is less than what is aboard", "mend what the suit holds, the rates, or the limit of suit.reserve.");

    public static Problem Order(Place place, string first, Pet at, string then, Pet before) =>
        FileProblems.At(place, "suit.order", $"'{then}' at {before}, before '{first}' at {at}", $"'{first}' no later than '{then}'", "mend one of the two.");

    public static Problem BreakFirst(Place place) =>
        FileProblems.At(place, "prebreathe.order", "a break with nothing before it to break", "the parts in the order in which they are breathed", "put a part with oxygen before it, or take 'break: true' out.");

    public static Problem BreakAlone(Place place) =>
        FileProblems.At(place, "prebreathe.break", "a break, and no 'without_breaks'", "how long all of it takes when nothing breaks it", "add 'without_breaks: 4 h' beside 'parts'.");

    public static Problem Vapour(Place place) =>
        FileProblems.At(place, "prebreathe.vapour", "a pressure that is not above the water vapour taken off it", "more than 'water_vapour'", "check both figures and their units.");

    public static Problem PaidBack(Place place, string text) =>
        FileProblems.At(place, "prebreathe.paid", $"'{text}' as the limit of prebreathe.break", "the time that a minute of break costs: 1 min or more", "write such as '2 min'.");

    public static Problem DayBackwards(Place place, Pet waking) =>
        FileProblems.At(place, "day.order", $"waking at {waking}", "before the walk begins, at 0:00", "write it with a minus, such as \"-5:30\".");

    public static Problem NothingToHold(string file, string what, string fix) => FileProblems.Whole(file, "prebreathe.alone", $"no {what}, and no scenario to take it from", $"a {what}", fix);

    private static string Amount(Consumable kind, double amount) => kind == Consumable.Battery ? Invariant($"{amount / 3600:0.#} Wh") : Invariant($"{amount:0.###} kg");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
