using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Everybody outside is always tied to something.</summary>
internal sealed class TetherNone : FactRule
{
    public override RuleCard Card { get; } = new(new("tether.none"),
        "a person adrift",
        "hooks on the structure or on an arm's restraint, from leaving the hatch to coming in: at least one at every moment",
        RuleCard.NoFigure,
        Guard.Expansion("everybody goes out on a reel, and each change of tie is an activity that makes before it breaks"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (PersonId person in given.People)
        {
            var untied = given.History.Stretches(given.History[$"person {person} hooks"]).Where(one => one.Value < 1).Select(one => new PetInterval(one.From, one.To));
            foreach (PetInterval adrift in Intervals.Common(given.Outside(person), Intervals.Join(untied)))
            {
                // Where play has said already how the tie was lost, it is not said again.
                if (given.Trace.Facts.Any(fact => fact.Rule == Card.Id && fact.Who.Contains(person) && fact.At <= adrift.From)) continue;
                yield return Broken(given, adrift.From, [person], $"{person} is outside until {adrift.To} with no hook on anything.",
                    $"Let {person} go out through the hatch on a reel.") with
                {
                    Measured = "0 hooks",
                    Limit = "1 hook",
                    Margin = "-1 hook",
                };
            }
        }
    }
}

/// <summary>No reel is paid out beyond its length.</summary>
internal sealed class TetherReach : FactRule
{
    public override RuleCard Card { get; } = new(new("tether.reach"),
        "a line that ends before the person is there",
        "the length paid out of the reel in use along the way walked, where stepping back winds in, against the reel; spans rounded up to the millimetre",
        "the lengths of the person's reels; a margin to hear of may be given as a limit's near",
        Guard.Expansion("a way beyond the reel is refused; ways of the search never reach beyond it"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        double near = given.Scenario.LimitOf(Card.Id.Value)?.Near is { Dimension: Dimension.Length } wanted ? wanted.Value : 0;
        foreach (PersonId person in given.People)
        {
            var reels = given.Scenario.People.First(one => one.Id == person).Reels;
            int tether = given.History[$"person {person} tether"], count = given.History[$"person {person} reels"];
            bool over = false;
            Finding? closest = null;
            double least = double.MaxValue;
            // What a last arrival pays out in the last instant is seen too.
            foreach ((Pet from, Pet _, int millimetres) in given.History.Stretches(tether).Append((given.Trace.To, given.Trace.To, given.History.Last(tether))))
            {
                int inUse = given.History.At(count, from);
                if (inUse < 1 || inUse > reels.Length) continue;
                double margin = reels[inUse - 1] - millimetres / 1000.0;
                bool wasOver = over;
                over = margin < -1e-9;
                if (over ? wasOver : margin >= near || margin >= least) continue;
                Finding finding = Broken(given, from, [person],
                    $"{person} has {millimetres / 1000.0:0.0##} m of reel {inUse} paid out, and it is {reels[inUse - 1]:0.0##} m long.",
                    $"Change to the next reel at an anchor on the way, or take a shorter way.") with
                {
                    Measured = $"{millimetres / 1000.0:0.0##} m",
                    Limit = $"{reels[inUse - 1]:0.0##} m",
                    Margin = $"{margin:0.0##} m",
                    Source = "the scenario's reels",
                };
                if (over) yield return finding;
                else (least, closest) = (margin, finding with { Severity = Severity.Near });
            }
            if (closest is not null) yield return closest;
        }
    }
}

/// <summary>Everybody comes home the way the line lies.</summary>
internal sealed class TetherWrap : FactRule
{
    public override RuleCard Card { get; } = new(new("tether.wrap"),
        "a line that lies round the structure, and holds the person back at the hatch",
        "at the hatch and at each change back to an earlier reel: what is still paid out, and how many reels are still hooked",
        RuleCard.NoFigure,
        Guard.Expansion("every way leads back along the own line first"));
}

/// <summary>Nobody rides while tied to the structure.</summary>
internal sealed class TetherRider : FactRule
{
    public override RuleCard Card { get; } = new(new("tether.rider"),
        "an arm that drags its rider against a line",
        "what the rider is tied to while the arm moves: the arm and nothing else",
        RuleCard.NoFigure,
        Guard.Expansion("nobody rides without having got onto the arm, which leaves the reel at the grip"));
}
