using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>A plan that is damaged in the finite world is refused by the referee, and for the reason that the damage gives.</summary>
public sealed class PddlDamageTests
{
    // Each damage, and what the refusal must speak of.
    private static readonly Dictionary<string, (Func<PddlImage> Damaged, string Refusal)> Damages = new()
    {
        ["take dropped"] = (() => Drop(Short(), "take-"), @"^step-latch-free-loosen: at start .*gear-latch-bag"),
        ["two steps exchanged"] = (() => Exchange(Short(), "step-latch-free-loosen", "step-latch-free-grease"), @"^step-latch-free-grease: at start \(due leg-latch-free step-grease\)"),
        ["step a second before what it waits for"] = (
            () => Shift(Shift(Short(), "wait-ev2-w02", 0, -1), "step-latch-look-look", -1, 0), @"^step-latch-look-look: at start \(done leg-latch-free\)"),
        ["taken at another place"] = (() => Short(activity: one => one is Take take ? take with { At = new("quay-1") } : one), @"^take-.*: at start \(stands person-ev1 grip-quay-1\)"),
        ["onto a carry point that does not take it"] = (() => Short(activity: one => one is Take take ? take with { Carry = new("chest") } : one), @"^take-.*fits size-bag carry-ev1-chest"),
        ["span skipped"] = (() => Drop(Short(), "walk-ev1-005-go:"), @"^walk-ev1-005-go-2: at start \(stands person-ev1 grip-quay-1\)"),
        ["spans that do not exist"] = (() => Short(scenario: told => told with { Station = told.Station with { Spans = told.Station.Spans.RemoveAt(0) } }), @"^walk-.*: at start \(span grip-lock grip-quay-1\)"),
        ["feature not as needed"] = (() => Short(scenario: told => Feature(told, "latch", feature => feature with { Start = "free" })), @"^step-latch-free-loosen: at start \(is feature-latch state-sticky\)"),
        ["not trained"] = (() => Short(scenario: told => told with { People = [.. told.People.Select(person => person with { TrainedFor = [] })] }), @"^step-latch-free-loosen: at start \(trained person-ev1"),
        ["stock used up"] = (() => Short(scenario: told => Gear(told, "grease", gear => gear with { Count = 0 })), @"^step-latch-free-grease: at end \(or\)"),
        ["a second too short"] = (() => Shift(Short(), "step-latch-free-loosen", 0, -1), @"^step-latch-free-loosen: duration"),
        ["a person in two activities"] = (() => Shift(Short(), "wait-ev1-w01", 0, 1), @"^check-.*: at start \(idle person-ev1\)"),
        ["out against the order of the airlock"] = (() => Short(scenario: Reversed), @"^out-ev1-.*: at start \(not \(stands person-ev2 indoors\)\)"),
        ["hatch closed with somebody outside"] = (() => Drop(Short(), "in-ev1-"), @"^close-.*: at start \(stands person-ev1 indoors\)"),
        ["hatch left open"] = (() => Drop(Short(), "close-"), @"^goal: \(not \(opened hatch-lock\)\)"),
        ["job left half done"] = (() => Drop(Short(), "step-latch-look-look"), @"^goal: \(or \(and \(done leg-latch-free\)"),
        ["thing not where it belongs"] = (() => Short(scenario: told => Gear(told, "latch-bag", gear => gear with { End = new(LocationKind.Grip, "lock") })), @"^goal: \(lies gear-latch-bag hook-lock\)"),
        ["station not given back"] = (() => Short(scenario: told => Feature(told, "jets", feature => feature with { Back = "armed" })), @"^goal: \(is feature-jets state-armed\)"),
        ["station not ready"] = (() => Short(scenario: told => Feature(told, "jets", feature => feature with { Start = "armed", Back = null })), @"^out-ev1-.*: at start \(is feature-jets state-held\)"),
        ["zone closed on the way"] = (() => Short(scenario: told => told with { Station = told.Station with { Zones = [ClosedAt("quay-2", 0, 1201)] } }), @"^walk-ev1-005-go-2: over all"),
        ["handed over by who has it not"] = (() => Handed(new("EV2"), new("EV1")), @"^give-.*: at start .*lies gear-latch-bag carry-ev2-waist"),
        ["restraint not plugged"] = (() => Drop(Skerry(), "plug-"), @"^enter-.*: at start \(not \(clear socket"),
        ["restraint set otherwise"] = (() => Skerry(activity: one => one is Plug plug ? plug with { Setting = plug.Setting + "0" } : one), @"^step-.*: at start \(fixed gear-restraint"),
        ["restraint not entered"] = (() => Drop(Skerry(), "enter-"), @"^step-.*: at start \(held-at "),
        ["command to turn off dropped"] = (() => WithoutCommand(shutdown => shutdown.Off), @"^step-.*: at start \((off shutdown-|and \(wired |is feature-)"),
        ["shutdown not ended"] = (() => WithoutCommand(shutdown => shutdown.On), @"^(goal: \((on shutdown-|is feature-)|clock-branch-.*: at end \(or \(not \(runs )"),
        ["command without a link"] = (() => Skerry(scenario: WithoutLinkForCommands), @"^command-.*: at start .*\(not \(silence\)\)"),
        ["arm not moved"] = (() => Drop(Skerry(), "move-"), @": at start \(posed arm-crane"),
        ["nobody got onto the arm"] = (() => Drop(Skerry(), "mount-"), @"^move-.*: at start \(rides person-"),
        ["power not dead behind a closed tie"] = (
            () => Skerry(scenario: told => Feature(told, "tie", feature => feature with { Start = "closed", Ready = null, Back = null })), @"^step-gyro-swap-unplug: at start \(and \(wired node-gyro-plug\)"),
        ["joint loose"] = (() => Short(scenario: told => told with { Station = told.Station with { Joints = [new(new("hinge"), new("jets"), ["locked"], [new("quay-2")])] } }), @"^walk-ev1-005-go-2: over all \(is feature-jets state-locked\)"),
        ["jets armed"] = (() => Short(scenario: told => BesideJets(told, 0.2)), @"^walk-ev1-005-go-2: over all \(is feature-jets state-dismantled\)"),
        ["ride through a live beam"] = (() => Skerry(scenario: told => told with { Station = told.Station with { Beams = [.. told.Station.Beams.Select(beam => beam with { Safe = ["dismantled"] })] } }), @"^move-.*: over all \(is feature-transmitter state-dismantled\)"),
        ["clock that may not run on"] = (() => Skerry(scenario: told => told with { Clocks = [Endless] }), @"^goal: \(not .*\(lies gear-gyro-new site-gyro-cabinet\)"),
        ["switch nobody looked at"] = (() => Skerry(scenario: told => Feature(told, "tie", feature => feature with { Ready = null })), @"^step-gyro-swap-unplug: at start \(and \(wired node-gyro-plug\).*\(known feature-tie\)"),
        ["switch of which no GO was read"] = (() => Skerry(scenario: told => Commands(told, command => IsSwitching(told, command) ? command with { Go = null } : command)), @"^step-.*: at start \(and \(wired node-[a-z-]+\).*\(known feature-"),
        ["legs together, one dropped"] = (() => Drop(Tern(), Name(Tern(), "step-", name => Together().Any(name.StartsWith))), @"^step-.*: over all \(begun leg-"),
    };

    public static TheoryData<string> Names => [.. Damages.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Pddl_DamagedPlan_IsRefusedForThat(string damage)
    {
        (Func<PddlImage> damaged, string refusal) = Damages[damage];
        string? refused = Referee.Refuses(damaged());
        Assert.NotNull(refused);
        Assert.Matches(refusal, refused);
    }

    [Theory]
    [InlineData(0, null)]
    [InlineData(-1, @"^step-.*: over all \(not \(night\)\) fails")]
    public void Pddl_NightAroundTheEndOfAStepByDay_IsRefusedFromOneSecondOn(int after, string? refusal)
    {
        (Scenario skerry, ProvenPlan plan) = PddlPlans.Of("skerry");
        HashSet<LegId> byDay = [.. skerry.Legs.Where(leg => leg.Light == LightCondition.Day).Select(leg => leg.Id)];
        Pet end = plan.Likely.Activities.OfType<DoStep>().Where(step => byDay.Contains(step.Leg)).Max(step => step.End);
        PetInterval night = new(end.Plus(Duration.FromSeconds(after)), end.Plus(Duration.FromSeconds(after + 1)));
        string? refused = Referee.Refuses(Skerry(scenario: told => told with { Sky = told.Sky with { Night = [.. told.Sky.Night, night] } }));
        if (refusal is null) Assert.Null(refused);
        else Assert.Matches(refusal, refused);
    }

    [Theory]
    [InlineData(0, null)]
    [InlineData(-1, @"^clock-gyro-heaters-\d+: at end \(or \(not \(runs clock-1 rate-\d+\)\) \(>= \(heat-left clock-1\) \d+\)\)")]
    public void Pddl_ClockThatLastsJustAsLongAsItRuns_IsRefusedFromOneSecondLessOn(int more, string? refusal)
    {
        (Scenario skerry, ProvenPlan plan) = PddlPlans.Of("skerry");
        Shutdown cold = skerry.Consoles.SelectMany(console => console.Shutdowns).Single(shutdown => shutdown.Id.Value == "branch-a");
        Pet[] EndsOf(CommandId command) => [.. plan.Likely.Activities.OfType<SendCommand>().Where(send => send.Command == command).Select(send => send.End).Order()];
        int longest = EndsOf(cold.Off).Zip(EndsOf(cold.On)).Max(pair => pair.Second.Since(pair.First).Seconds);
        HeatClock clock = skerry.Clocks.Single(one => one.Id.Value == "gyro heaters") with { Lasts = [new([], Duration.FromSeconds(longest + more))] };
        string? refused = Referee.Refuses(Skerry(scenario: told => told with { Clocks = [clock] }));
        if (refusal is null) Assert.Null(refused);
        else Assert.Matches(refusal, refused);
    }

    [Fact]
    public void Pddl_ClockWithSeveralRates_CountsWithoutRounding()
    {
        (Scenario skerry, ProvenPlan plan) = PddlPlans.Of("skerry");
        PddlImage image = PddlImage.Of(skerry, plan.Likely);
        // 60, 70 and 75 min: 126000 is the least number that 3600, 4200 and 4500 divide; a second costs 35, 30 or 28 of it.
        Assert.Contains("\n  (= (heat-left clock-1) 126000)\n", image.Problem);
        Assert.All(new[] { (3600, 35), (4200, 30), (4500, 28) }, rate =>
        {
            MatchCollection pieces = Regex.Matches(image.Domain, $@"\(:durative-action clock-gyro-heaters-\d+\n :parameters \(\)\n :duration \(>= \?duration (?<length>[\d.]+)\)[^:]*?:condition[^:]*?:effect[^:]*?\(when \(at end \(runs clock-1 rate-{rate.Item1}\)\) \(at end \(decrease \(heat-left clock-1\) (?<takes>\d+)\)\)\)");
            Assert.NotEmpty(pieces);
            Assert.All(pieces, piece => Assert.Equal(
                (decimal.Parse(piece.Groups["length"].Value, CultureInfo.InvariantCulture) + 0.0015m) * rate.Item2, decimal.Parse(piece.Groups["takes"].Value, CultureInfo.InvariantCulture)));
        });
    }

    [Theory]
    [InlineData(-1, 0, null)]
    [InlineData(-1, 1, "known feature-")]
    [InlineData(60, 61, "known feature-")]
    public void Pddl_CommandThatCanDoWithoutALink_IsKnownOnlyIfThereWasOneThroughout(int from, int to, string? refusal)
    {
        (Scenario skerry, ProvenPlan plan) = PddlPlans.Of("skerry");
        Scenario without = Commands(skerry, command => IsSwitching(skerry, command) ? command with { NeedsLink = false } : command);
        CommandId dead = skerry.Consoles.SelectMany(console => console.Shutdowns).Single(shutdown => shutdown.Id.Value == "branch-a").Off;
        SendCommand off = plan.Likely.Activities.OfType<SendCommand>().Where(send => send.Command == dead).MinBy(send => send.Start)!;
        PetInterval none = new(off.Start.Plus(Duration.FromSeconds(from)), off.Start.Plus(Duration.FromSeconds(to)));
        string? refused = Referee.Refuses(Skerry(scenario: _ => without with { Sky = without.Sky with { NoLink = [none] } }));
        if (refusal is null) Assert.Null(refused);
        else Assert.Matches(refusal, refused);
    }

    // What nothing rests on in the finite world (at the end of the shortest of these plans no bag hangs at the hatch); that a person outside has nothing to do is a matter of time, and not in the image.
    private static readonly string[] NothingRestsOn = ["bagsin-", "bagsout-", "check-", "inventory-", "rest-", "swap-", "wait-", "waitinside-", "safeinside-"];

    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Pddl_AnyOneActionDropped_IsRefusedUnlessNothingRestsOnIt(string scenario)
    {
        PddlImage image = PddlPlans.Image(scenario);
        RefereeDomain domain = new(Term.Parse(image.Domain));
        // A job of one step is not begun without it, and that is allowed.
        IEnumerable<string> whole = PddlPlans.Of(scenario).Scenario.Jobs.Where(job => job.Legs is [{ Steps.Length: 1 }]).Select(job => $"step-{job.Legs[0].Id}-".Replace('/', '-'));
        string[] lines = image.Plan.Split('\n'), free = [.. NothingRestsOn, .. whole];
        string[] dropped = [.. lines.Where(line => line.Contains('(') && !free.Any(kind => line.Contains($"({kind}", StringComparison.Ordinal)))];
        Assert.NotEmpty(dropped);
        // Of the many spans of a long plan one in eight.
        Assert.All(dropped.Where((line, number) => !line.Contains("(walk-", StringComparison.Ordinal) || number % 8 == 0),
            line => Assert.NotNull(Referee.Refuses(domain, image with { Plan = string.Join('\n', lines.Except([line])) })));
    }

    // The same without the damage: the referee does not refuse handing over, a last piece or an open zone as such.
    [Fact]
    public void Pddl_HandedOverAndBack_IsAccepted() => Assert.Null(Referee.Refuses(Handed(new("EV1"), new("EV2"))));

    [Fact]
    public void Pddl_LastPieceUsed_IsAccepted() => Assert.Null(Referee.Refuses(Short(scenario: told => Gear(told, "grease", gear => gear with { Count = 1 }))));

    [Fact]
    public void Pddl_ZoneOpenAgainInTime_IsAccepted() =>
        Assert.Null(Referee.Refuses(Short(scenario: told => told with { Station = told.Station with { Zones = [ClosedAt("quay-2", 0, 1200)] } })));

    [Fact]
    public void Pddl_JetsJustSoFarAwayAsTheLimitSays_AreAccepted() => Assert.Null(Referee.Refuses(Short(scenario: told => BesideJets(told, 0.3 + 1e-9))));

    [Fact]
    public void Pddl_NamesThatDifferByCaseAlone_StayTwo()
    {
        ImageNames names = new();
        string[] given = [names.Of("gear", "gear", "Bag 1"), names.Of("gear", "gear", "bag-1"), names.Of("gear", "gear", "Bag 1")];
        Assert.Equal(["gear-bag-1", "gear-bag-1-2", "gear-bag-1"], given);
    }

    private static PddlImage Short(Func<Scenario, Scenario>? scenario = null, Func<Activity, Activity?>? activity = null) => PddlPlans.Image("skerry-short", scenario, activity);

    private static PddlImage Skerry(Func<Scenario, Scenario>? scenario = null, Func<Activity, Activity?>? activity = null) => PddlPlans.Image("skerry", scenario, activity);

    private static PddlImage Tern() => PddlPlans.Image("tern");

    /// <summary>The names of the first steps of Tern's legs that begin together.</summary>
    private static IEnumerable<string> Together() => PddlPlans.Of("tern").Scenario.Legs.Where(leg => leg.Together.Length > 0)
        .Select(leg => $"step-{leg.Id}-{leg.Steps[0].Id}".Replace('/', '-'));

    /// <summary>The name of the first action of a plan that begins like this and is one of those asked for.</summary>
    private static string Name(PddlImage image, string begin, Func<string, bool> wanted) =>
        Regex.Matches(image.Plan, @"\((?<name>[a-z0-9-]+)\)").Select(match => match.Groups["name"].Value)
            .First(name => name.StartsWith(begin, StringComparison.Ordinal) && wanted(name)) + ":";

    private static PddlImage Drop(PddlImage image, string name) => Edit(image, name, (_, _) => null);

    private static PddlImage Shift(PddlImage image, string name, int later, int longer) => Edit(image, name, (start, length) => (start + later, length + longer));

    private static PddlImage Exchange(PddlImage image, string first, string second)
    {
        decimal at = 0, firstLength = 0, secondLength = 0;
        Edit(image, first, (start, length) => ((at, firstLength) = (start, length)));
        Edit(image, second, (start, length) => (start, secondLength = length));
        image = Edit(image, second, (_, length) => (at, length));
        return Edit(image, first, (_, length) => (at + secondLength + PddlImage.Epsilon, length));
    }

    /// <summary>Changes the first line whose action begins like this; with a colon, whose action is called so.</summary>
    private static PddlImage Edit(PddlImage image, string name, Func<decimal, decimal, (decimal, decimal)?> change)
    {
        Regex line = new($@"^(?<start>[\d.]+): \((?<name>{name.TrimEnd(':')}{(name.EndsWith(':') ? "" : "[a-z0-9-]*")})\) \[(?<length>[\d.]+)\]\n", RegexOptions.Multiline);
        Match match = line.Match(image.Plan);
        Assert.True(match.Success, $"no {name} in\n{image.Plan}");
        decimal Figure(string group) => decimal.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);
        string changed = change(Figure("start"), Figure("length")) is (decimal start, decimal length)
            ? string.Create(CultureInfo.InvariantCulture, $"{start:0.000}: ({match.Groups["name"].Value}) [{length:0.000}]\n")
            : "";
        return image with { Plan = image.Plan[..match.Index] + changed + image.Plan[(match.Index + match.Length)..] };
    }

    /// <summary>Jets that are never safe, so far above a grip of the short walk.</summary>
    private static Scenario BesideJets(Scenario scenario, double metres)
    {
        Point grip = scenario.Station.Grips.Single(one => one.Id.Value == "quay-2").At;
        Emitter jets = new(new("jets"), new("jets"), ["dismantled"], grip with { Z = grip.Z - metres }, 0, null);
        return scenario with { Station = scenario.Station with { Jets = [jets] }, Limits = [.. scenario.Limits, new(new("jets.armed"), new(Dimension.Length, 0.3, "0.3 m"), null, "invented", Verified: false)] };
    }

    /// <summary>Runs for as long as the new box is at its place, so also at the end.</summary>
    private static HeatClock Endless => new(new("box"), ClockKind.Cold, [new GearIsIn(new("gyro-new"), new(LocationKind.Site, "gyro-cabinet"))], [new([], Duration.FromMinutes(24 * 60))], MayRunOn: false, "invented");

    private static bool IsSwitching(Scenario scenario, Command command) =>
        command.Makes.Any(make => scenario.Station.PowerLines.Any(line => line.Controller is not null && line.Closed?.Feature == make.Feature));

    private static Scenario Commands(Scenario scenario, Func<Command, Command> change) =>
        scenario with { Consoles = [.. scenario.Consoles.Select(console => console with { Commands = [.. console.Commands.Select(change)] })] };

    private static Scenario Feature(Scenario scenario, string id, Func<Feature, Feature> change) => scenario with
    {
        Station = scenario.Station with { Features = [.. scenario.Station.Features.Select(feature => feature.Id.Value == id ? change(feature) : feature)] },
    };

    private static Scenario Gear(Scenario scenario, string id, Func<Gear, Gear> change) =>
        scenario with { Gear = [.. scenario.Gear.Select(gear => gear.Id.Value == id ? change(gear) : gear)] };

    private static Scenario Reversed(Scenario scenario) => scenario with
    {
        Station = scenario.Station with { Airlocks = [.. scenario.Station.Airlocks.Select(airlock => airlock with { Order = [.. airlock.Order.Reverse()] })] },
    };

    private static Zone ClosedAt(string grip, int from, int to) =>
        new(new("cone"), "hot gas", [new(grip)], [new(Pet.FromSeconds(from), Pet.FromSeconds(to))], null, []);

    /// <summary>Without the last command that turns something off, or on again.</summary>
    private static PddlImage WithoutCommand(Func<Shutdown, CommandId> which)
    {
        (Scenario skerry, ProvenPlan plan) = PddlPlans.Of("skerry");
        HashSet<CommandId> such = [.. skerry.Consoles.SelectMany(console => console.Shutdowns).Select(which)];
        SendCommand last = plan.Likely.Activities.OfType<SendCommand>().Where(send => such.Contains(send.Command)).MaxBy(send => send.Start)!;
        return Skerry(activity: one => one.Id == last.Id ? null : one);
    }

    private static Scenario WithoutLinkForCommands(Scenario scenario)
    {
        SendCommand first = PddlPlans.Of("skerry").Plan.Likely.Activities.OfType<SendCommand>().OrderBy(send => send.Start)
            .First(send => scenario.Consoles.SelectMany(console => console.Commands).Single(command => command.Id == send.Command).NeedsLink);
        return scenario with { Sky = scenario.Sky with { NoLink = [.. scenario.Sky.NoLink, new PetInterval(first.Start, first.End)] } };
    }

    /// <summary>The short walk with the bag handed over and back at the lock, once EV1 has taken it; everything after that is six minutes later.</summary>
    private static PddlImage Handed(PersonId from, PersonId to)
    {
        Timeline timeline = PddlPlans.Of("skerry-short").Plan.Likely;
        Take take = timeline.Activities.OfType<Take>().Single();
        Duration minutes = Duration.FromMinutes(2), later = Duration.FromMinutes(6);
        Give Give(string id, PersonId giver, PersonId taker, Pet start) => new()
        { Id = new(id), Start = start, End = start.Plus(minutes), From = giver, To = taker, Gear = take.Gear, Carry = take.Carry, At = take.At };
        IEnumerable<Activity> moved = timeline.Activities.Select(one => one.Start < take.Start || one == take ? one : one with { Start = one.Start.Plus(later), End = one.End.Plus(later) });
        ImmutableArray<Activity> activities = [.. moved, Give("give", from, to, take.End), Give("give-back", to, from, take.End.Plus(minutes))];
        return PddlImage.Of(PddlPlans.Of("skerry-short").Scenario, timeline with { Activities = activities });
    }
}
