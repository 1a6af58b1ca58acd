using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw.Tests;

/// <summary>
/// Invented walks to draw: any number of people, each with legs at sites some minutes from the hatch, hand-overs, an arm session,
/// a shutdown round the first person's first legs. Return times follow from where people are, so the curves look as real ones do.
/// They are for looking at pictures; nothing here is proven to keep the rules.
/// </summary>
internal sealed class SampleWalk
{
    private static readonly (string Id, string Title, int Minutes)[] Places =
    [
        ("trolley", "Trolley", 7), ("spar-3", "Spar 3", 9), ("spar-5", "Spar 5", 13), ("vane-root", "Vane root", 11),
        ("forge-rim", "Forge's rim", 6), ("quay-ring", "Quay's ring", 8), ("sail-root", "Sail root", 14), ("mast-foot", "Mast's foot", 10),
    ];

    private static readonly string[] Titles =
    [
        "Loosen the gyro box", "Swap the gyro box", "Lay the heater lead", "Mate the heater lead", "Change the coolant filter", "Read the pressure",
        "Fetch the exposure tray", "Patch the shield", "Free the latch", "Photograph the lower vane", "Fit the handrail extension", "Move two bags for next time",
        "Inspect the seam", "Set the thermal cover", "Clear the old ties", "Check the hinge",
    ];

    private readonly Random random;
    private readonly int seed;
    private readonly List<Activity> activities = [];
    private readonly List<Leg> legs = [];
    private readonly List<(PersonId Person, int From, int To, double Start, double End)> pieces = [];
    private readonly List<(PersonId Person, int From, int To, double Seconds)> climbs = [];
    private readonly int[] clock;
    private readonly int[] place;
    private readonly PersonId[] people;
    private readonly int legsEach;
    private readonly bool arm;
    private int next;

    private SampleWalk(int seed, int count, int legsEach, bool arm)
    {
        (random, this.seed, this.legsEach, this.arm) = (new Random(seed), seed, legsEach, arm);
        people = [.. Enumerable.Range(1, count).Select(i => new PersonId($"EV{i}"))];
        (clock, place) = (new int[count], new int[count]);
    }

    public static (Scenario Scenario, ImmutableArray<(Timeline, Trace)> Played, Verdict Verdict, RangeChartOptions Options) Make(int seed, int count, int legsEach, bool arm)
    {
        SampleWalk walk = new(seed, count, legsEach, arm);
        walk.Walk();
        return walk.Finish();
    }

    private void Walk()
    {
        for (int p = 0; p < people.Length; p++)
        {
            Array.Fill(place, -1);
            clock[p] = 300 * p;
            if (p > 0) Add(p, 0, 300 * p, new AirlockPhase { Id = Id(), Start = At(0), End = At(300 * p), Airlock = Lock, Phase = AirlockPhaseKind.WaitInside, Who = [people[p]] }, 0, 0);
            Add(p, clock[p], clock[p] + 300, new AirlockPhase { Id = Id(), Start = At(clock[p]), End = At(clock[p] + 300), Airlock = Lock, Phase = AirlockPhaseKind.Out, Who = [people[p]] }, 0, 180);
            clock[p] += 300;
        }
        for (int k = 0; k < legsEach; k++)
        {
            for (int p = 0; p < people.Length; p++)
            {
                int to = random.Next(Places.Length);
                if (arm && p == 0 && k == legsEach / 3)
                {
                    ArmSession(p);
                    continue;
                }
                Go(p, to);
                if (random.Next(3) == 0) Handle(p, new Take { Id = Id(), Start = At(clock[p]), End = At(clock[p] + 120), Person = people[p], Gear = new("gyro-bag"), At = new(Places[to].Id), Carry = new("waist") });
                Work(p, to, k, LegTime());
            }
            if (people.Length > 1 && k % 4 == 2) Meet(k / 4 % (people.Length - 1), 1 + k / 4 % (people.Length - 1), k);
        }
        for (int p = 0; p < people.Length; p++) Go(p, -1);
        int end = clock.Max();
        for (int p = 0; p < people.Length; p++) Wait(p, end, "everybody at the hatch");
        for (int p = people.Length - 1; p >= 0; p--)
        {
            int order = people.Length - 1 - p;
            if (order > 0) Add(p, end, end + 180 * order, new Await { Id = Id(), Start = At(end), End = At(end + 180 * order), Person = people[p], Until = "turn" }, 180, 180);
            Add(p, end + 180 * order, end + 180 * (order + 1), new AirlockPhase { Id = Id(), Start = At(end + 180 * order), End = At(end + 180 * (order + 1)), Airlock = Lock, Phase = AirlockPhaseKind.In, Who = [people[p]] }, 180, 0);
        }
        int shut = end + 180 * people.Length;
        for (int p = 0; p < people.Length; p++)
        {
            int from = end + 180 * (people.Length - p);
            if (from < shut + 240) Add(p, from, shut + 240, new AirlockPhase { Id = Id(), Start = At(from), End = At(shut + 240), Airlock = Lock, Phase = AirlockPhaseKind.Close, Who = [people[p]] }, 0, 0);
        }
        Command("branch-a off", 1500);
        Command("branch-a on", 4200);
        Command("isolate loop", 9000);
        Command("loop pressure read", 9240);
        Command("open loop", 12600);
    }

    private int LegTime() => 60 * random.Next(Math.Clamp(200 / legsEach, 2, 6), Math.Max(5, 500 / legsEach));

    private void ArmSession(int p)
    {
        Go(p, 1);
        activities.Add(new ArmMove { Id = Id(), Start = At(clock[p] - 300), End = At(clock[p] - 60), Arm = Crane, From = new("stowed"), To = new("spar") });
        Add(p, clock[p], clock[p] + 840, new MountArm { Id = Id(), Start = At(clock[p]), End = At(clock[p] + 840), Person = people[p], Arm = Crane, At = new("spar-3") }, Home(p) + 120, Home(p) + 180);
        clock[p] += 840;
        double spar = Home(p) + 180;
        Ride(p, "spar", "mast-head", 600, spar, 1080);
        if (people.Length > 1)
        {
            const int mastFoot = 7;
            Go(1, mastFoot);
            int start = Math.Max(clock[p], clock[1]);
            Wait(p, start, "the other");
            Wait(1, start, "the other");
            Work(1, mastFoot, 91, 900, "Guide the sensor head");
        }
        Work(p, -2, 90, 2100, "Mate the sensor head");
        Ride(p, "mast-head", "spar", 600, 1080, spar);
        Add(p, clock[p], clock[p] + 600, new DismountArm { Id = Id(), Start = At(clock[p]), End = At(clock[p] + 600), Person = people[p], Arm = Crane, At = new("spar-3") }, spar, Home(p) + 60);
        clock[p] += 600;
        place[p] = 1;
    }

    private void Ride(int p, string from, string to, int seconds, double start, double end)
    {
        climbs.Add((people[p], clock[p], clock[p] + seconds, 420));
        Add(p, clock[p], clock[p] + seconds, new ArmMove { Id = Id(), Start = At(clock[p]), End = At(clock[p] + seconds), Arm = Crane, From = new(from), To = new(to), Rider = people[p] }, start, end);
        clock[p] += seconds;
        if (to == "mast-head") place[p] = -2;
    }

    private double Home(int p) => 180 + (place[p] switch { -1 => 0, -2 => 15 * 60, var at => Places[at].Minutes * 60 });

    private void Go(int p, int to)
    {
        if (place[p] == to) return;
        double before = Home(p);
        int seconds = (int)Math.Max(60, place[p] >= 0 && to >= 0 ? 30 + Math.Abs(Places[place[p]].Minutes - Places[to].Minutes) * 60 : Math.Abs(before - (to < 0 ? 180 : 180 + Places[to].Minutes * 60)));
        GripId Grip(int at) => at < 0 ? new("lock") : new(Places[at].Id);
        GripId from = Grip(place[p]);
        place[p] = to;
        Add(p, clock[p], clock[p] + seconds, new Translate { Id = Id(), Start = At(clock[p]), End = At(clock[p] + seconds), Person = people[p], Spans = [new(from, Grip(to), Duration.FromSeconds(seconds))] }, before, Home(p));
        clock[p] += seconds;
    }

    private void Handle(int p, PersonActivity activity)
    {
        Add(p, activity.Start.Seconds, activity.End.Seconds, activity, Home(p) + 30, Home(p) + 30);
        clock[p] = activity.End.Seconds;
    }

    private void Work(int p, int at, int k, int seconds, string together = "")
    {
        LegId id = together.Length > 0 ? new($"head/{k}") : new($"job-{p + 1}/{k}");
        string title = together.Length > 0 ? together : Titles[(seed + legs.Count) % Titles.Length];
        int first = seconds / 2 / 60 * 60;
        legs.Add(TestScenario.Leg(id, title, at == -2 ? "mast-head" : Places[at].Id, together.Length > 0 ? "mating" : ""));
        if (at == -2) climbs.Add((people[p], clock[p], clock[p] + seconds, 480));
        foreach ((int from, int to, int breakOff, string step) in new[] { (0, first, 60, "one"), (first, seconds, 60 * random.Next(1, 4), "two") })
            Add(p, clock[p] + from, clock[p] + to, new DoStep { Id = Id(), Start = At(clock[p] + from), End = At(clock[p] + to), Person = people[p], Leg = id, Step = new(step), For = id }, Home(p) + breakOff, Home(p) + breakOff);
        clock[p] += seconds;
    }

    private void Meet(int a, int b, int k)
    {
        int at = random.Next(Places.Length);
        Go(a, at);
        Go(b, at);
        int start = Math.Max(clock[a], clock[b]);
        Wait(a, start, "the other");
        Wait(b, start, "the other");
        bool down = random.Next(2) == 0;
        Give give = new()
        {
            Id = Id(),
            Start = At(start),
            End = At(start + 120),
            From = people[down ? a : b],
            To = people[down ? b : a],
            Gear = new(k % 8 == 2 ? "gyro-bag" : "lead-reel"),
            Carry = new("waist"),
            At = new(Places[at].Id),
        };
        activities.Add(give);
        foreach (int p in new[] { a, b })
        {
            pieces.Add((people[p], start, start + 120, Home(p) + 30, Home(p) + 30));
            clock[p] = start + 120;
        }
    }

    private void Wait(int p, int until, string why)
    {
        if (clock[p] >= until) return;
        Add(p, clock[p], until, new Await { Id = Id(), Start = At(clock[p]), End = At(until), Person = people[p], Until = why }, Home(p), Home(p));
        clock[p] = until;
    }

    private void Command(string command, int start) =>
        activities.Add(new SendCommand { Id = Id(), Start = At(start), End = At(start + 180), Console = new("power"), Command = new(command) });

    private void Add(int p, int from, int to, Activity activity, double start, double end)
    {
        activities.Add(activity);
        pieces.Add((people[p], from, to, start, end));
    }

    private (Scenario, ImmutableArray<(Timeline, Trace)>, Verdict, RangeChartOptions) Finish()
    {
        int last = pieces.Max(piece => piece.To);
        string plan = $"sample-{seed}-{people.Length}";
        Scenario scenario = TestScenario.Of(people, [.. legs], Places.Select(place => (place.Id, place.Title)), arm, last);
        List<ReturnCurve> curves = [.. people.Select(person => Curve(ReturnKind.One, person, 0))];
        if (arm) curves.Add(Curve(ReturnKind.Armless, people[0], 1));
        curves.Add(Both(curves.Take(people.Length).ToList()));
        int limit = 1980, cut = last + 600;
        Trace trace = new("skerry/sample", plan, Branch.Likely, At(0), At(last), [], [], [], [], [.. curves],
            [new(At(0), At(cut - limit), limit, limit, "secondary oxygen"), new(At(cut - limit), At(last), limit, cut - last, "cut-off of EV1")]);
        Timeline timeline = new("skerry/sample", plan, Branch.Likely, [.. activities.OrderBy(activity => activity.Start).ThenBy(activity => activity.Id.Value, StringComparer.Ordinal)], []);
        Finding near = new(new("return.armless"), Severity.Near, Branch.Likely, [people[0]], At(last / 3), null,
            "With the arm stopped, EV1 would be inside 27 min after PET 2:11, 3 min under the limit of 30 min.", "27 min", "30 min", "3 min", "scenario figure, unverified", "ride home before the last step");
        Finding note = near with { Rule = new("light.needed"), Severity = Severity.Note, At = At(last / 2), Who = [people[^1]], Sentence = "The photograph starts 2 min after sunrise.", Margin = "", Mend = "" };
        Verdict verdict = new(plan, [near, note], [.. Enumerable.Range(1, 23).Select(i => new RuleId($"rule.{i}"))], ["fluid lines", "carbon dioxide", "touch temperature"]);
        LegId choice = new($"job-1/{legsEach - 2}");
        int threshold = (activities.OfType<DoStep>().Where(step => step.Leg == choice).Select(step => step.End.Seconds).DefaultIfEmpty(last / 2).Max() / 300 + 3) * 300;
        Decision decision = new(choice, At(threshold), [], []);
        Trace otherwise = trace with { Branch = Branch.Otherwise, Returns = [.. trace.Returns.Select(curve => HomeFrom(curve, threshold))] };
        return (scenario, [(timeline, trace), (timeline with { Branch = Branch.Otherwise }, otherwise)], verdict, new("by-hand", new DateOnly(2031, 5, 2), 1600, decision));
    }

    /// <summary>The same curve up to a moment, then straight home.</summary>
    private static ReturnCurve HomeFrom(ReturnCurve curve, int moment)
    {
        ImmutableArray<ReturnPoint> before = [.. curve.Points.Where(point => point.At.Seconds <= moment)];
        double left = before[^1].Seconds;
        return curve with { Points = [.. before, new(At(moment), left, new("a")), new(At(moment + (int)left), 0, new("a"))] };
    }

    private ReturnCurve Curve(ReturnKind kind, PersonId person, int withClimb)
    {
        ImmutableArray<ReturnPoint>.Builder points = ImmutableArray.CreateBuilder<ReturnPoint>();
        foreach (var piece in pieces.Where(piece => piece.Person == person).OrderBy(piece => piece.From))
        {
            double more = withClimb * climbs.Where(climb => climb.Person == person && climb.From <= piece.From && climb.To >= piece.To).Sum(climb => climb.Seconds);
            points.Add(new(At(piece.From), piece.Start + more, new("a")));
            points.Add(new(At(piece.To), piece.End + more, new("a")));
        }
        return new(kind, person, points.ToImmutable());
    }

    private ReturnCurve Both(List<ReturnCurve> one)
    {
        ImmutableArray<ReturnPoint>.Builder points = ImmutableArray.CreateBuilder<ReturnPoint>();
        int extra = 240 + 180 * (people.Length - 1);
        foreach (int moment in one.SelectMany(curve => curve.Points).Select(point => point.At.Seconds).Distinct().Order())
        {
            points.Add(new(At(moment), one.Max(curve => Value(curve, moment, false)) + extra, new("a")));
            points.Add(new(At(moment), one.Max(curve => Value(curve, moment, true)) + extra, new("a")));
        }
        return new(ReturnKind.Both, null, points.ToImmutable());

        static double Value(ReturnCurve curve, int moment, bool after)
        {
            double value = curve.Points[0].Seconds;
            for (int i = 0; i + 1 < curve.Points.Length; i++)
            {
                (ReturnPoint a, ReturnPoint b) = (curve.Points[i], curve.Points[i + 1]);
                if (a.At == b.At) continue;
                if (after ? a.At.Seconds <= moment : a.At.Seconds < moment)
                    value = a.Seconds + (b.Seconds - a.Seconds) * Math.Min(1, (moment - a.At.Seconds) / (double)(b.At.Seconds - a.At.Seconds));
            }
            return value;
        }
    }

    private static AirlockId Lock => new("lock");

    private static ArmId Crane => new("Crane");

    private static Pet At(int seconds) => Pet.FromSeconds(seconds);

    private ActivityId Id() => new($"a{++next:000}");
}
