using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What suits use, in words, as JSON and as a picture. What is used is rounded up, what is left down.</summary>
public static class SuitText
{
    /// <summary>The sheet for the screen.</summary>
    public static string Screen(Scenario scenario, SuitSheet sheet)
    {
        StringBuilder text = new();
        text.AppendLine($"{scenario.Sortie.Title} · suits over outline {sheet.Outline} · plan {sheet.PlanId}");
        text.AppendLine(Caution.Text);
        text.AppendLine("Low / likely / high use. Safety is reckoned with high use; used is rounded up, left is rounded down.");
        text.AppendLine();
        text.AppendLine(sheet.CutOff is { } cutOff
            ? $"First reserve reached: PET {cutOff.At} at high use, {cutOff.Person}'s {cutOff.Binds.InWords()}. Repress must have started by then."
            : "No reserve is ever reached, at high use.");
        foreach (SuitWalk walk in sheet.People) Person(text, scenario, sheet, walk);
        text.AppendLine();
        text.AppendLine("Not reckoned, so not proven");
        foreach (string words in sheet.NotReckoned) text.AppendLine($"  {words}");
        return text.ToString().ReplaceLineEndings("\n");
    }

    private static void Person(StringBuilder text, Scenario scenario, SuitSheet sheet, SuitWalk walk)
    {
        SuitProfile profile = walk.Profile;
        string name = scenario.People.First(person => person.Id == profile.Person).Name;
        text.AppendLine();
        text.AppendLine($"{profile.Person} · {name} · factor {Three(profile.PersonFactor, "0.##")} · repress starts at {walk.RepressStart}");
        text.AppendLine($"  {"",-26} {"starts",-8} {"aboard",10} {"used when repress starts",-26} {"left",10} {"reserve",10} {"lasts",8}   reserve reached at");
        foreach (ConsumableCurve curve in walk.Use.Curves)
        {
            Estimate used = curve.UsedAt(walk.RepressStart);
            Consumable kind = curve.Kind;
            text.AppendLine(
                $"  {kind.InWords(),-26} {curve.Starts?.ToString() ?? "never",-8} {Amount(kind, curve.Aboard, up: false),10} "
                + $"{Figure(kind, used.Low, up: true)} / {Figure(kind, used.Likely, up: true)} / {Amount(kind, used.High, up: true),-8} "
                + $"{Amount(kind, curve.LeftAt(walk.RepressStart, Level.High), up: false),10} {Amount(kind, curve.Reserve, up: true),10} {curve.LastsFrom(walk.RepressStart)?.ToString() ?? "always",8}   "
                + string.Join(" / ", new[] { Level.Low, Level.Likely, Level.High }.Select(level => curve.ReserveReached(level)?.ToString() ?? "never")));
        }
        if (walk.Use.CutOff(Level.High) is { } binds) text.AppendLine($"  binds: {binds.Binds.InWords()}, PET {binds.At}; {Left(binds.At.Since(walk.RepressStart))} the start of repress");
        text.AppendLine($"  greatest mean metabolic rate: over {sheet.Window} {Mean(walk, sheet.Window)}; over {SuitWalk.LongWindow} {Mean(walk, SuitWalk.LongWindow)}");
        if (Inspired(walk) is { } breathed)
            text.AppendLine(string.Create(CultureInfo.InvariantCulture, $"  greatest mean of carbon dioxide breathed in, over {SuitWalk.LongWindow}: {Ceil(breathed.Mean / Units.FactorOf("mmHg"), 2):0.00} mmHg up to PET {breathed.To}"));
        text.AppendLine();
        text.AppendLine($"  {"from",-8} {"to",-8} {"work",-10} {"metabolic W",-16} {"oxygen",10} {"cartridge",10} {"water",10} {"battery",10}   left at its end, high use");
        foreach ((Pet from, Pet to, Exertion exertion, Estimate watts) in Rows(walk))
        {
            text.Append($"  {from.ToString(),-8} {to.ToString(),-8} {exertion.ToString().ToLowerInvariant(),-10} {Three(watts, "0"),-16}");
            foreach (ConsumableCurve curve in walk.Use.Curves) text.Append($" {Amount(curve.Kind, curve.LeftAt(to, Level.High), up: false),10}");
            text.AppendLine();
        }
    }

    /// <summary>For each suit described, the supply that lasts least when repress starts, a line each; none where nothing limits it.</summary>
    internal static IEnumerable<string> Margins(Scenario scenario, Timeline timeline, Trace trace)
    {
        if (scenario.LimitOf("suit.reserve") is not { Value.Dimension: Dimension.Time } limit) yield break;
        int held = (int)Math.Ceiling(limit.Value.Value);
        foreach (SuitWalk walk in SuitWalk.Of(scenario, timeline, trace))
            if (walk.Use.Curves.Where(curve => curve.LastsFrom(walk.RepressStart) is not null).MinBy(curve => curve.LastsFrom(walk.RepressStart)!.Value.Seconds) is { } least
                && least.LastsFrom(walk.RepressStart) is { } lasts)
                yield return $"{walk.Profile.Person}'s {least.Kind.InWords()}: lasts {lasts} when repress starts at PET {walk.RepressStart}; held against {Duration.FromSeconds(held)}; margin {Duration.FromSeconds(lasts.Seconds - held)}";
    }

    /// <summary>The sheet as JSON: kilograms, joules, watts, pascals.</summary>
    public static byte[] Json(Scenario scenario, SuitSheet sheet)
    {
        JsonObject json = new()
        {
            ["caution"] = Caution.Text,
            ["scenario"] = scenario.Id,
            ["outline"] = sheet.Outline,
            ["planId"] = sheet.PlanId,
            ["cutOff"] = sheet.CutOff is { } cutOff ? new JsonObject { ["person"] = cutOff.Person.Value, ["binds"] = cutOff.Binds.InWords(), ["at"] = cutOff.At.ToString() } : null,
            ["people"] = new JsonArray([.. sheet.People.Select(walk => PersonJson(sheet, walk))]),
            ["notReckoned"] = Texts(sheet.NotReckoned),
        };
        return [.. JsonSerializer.SerializeToUtf8Bytes(json, PlanJson.Options), (byte)'\n'];
    }

    private static JsonNode PersonJson(SuitSheet sheet, SuitWalk walk) => new JsonObject
    {
        ["person"] = walk.Profile.Person.Value,
        ["factor"] = Json(walk.Profile.PersonFactor),
        ["repressStart"] = walk.RepressStart.ToString(),
        ["binds"] = walk.Use.CutOff(Level.High) is { } binds ? new JsonObject { ["consumable"] = binds.Binds.InWords(), ["at"] = binds.At.ToString() } : null,
        ["greatestMeanWatts"] = new JsonObject
        {
            [$"over{sheet.Window.Seconds / 60}Min"] = RollingMean.Greatest(walk.Use.Metabolic(Level.High), sheet.Window).Mean,
            [$"over{SuitWalk.LongWindow.Seconds / 60}Min"] = RollingMean.Greatest(walk.Use.Metabolic(Level.High), SuitWalk.LongWindow).Mean,
        },
        ["greatestMeanInspiredPascals"] = Inspired(walk)?.Mean,
        ["consumables"] = new JsonArray([.. walk.Use.Curves.Select(curve => (JsonNode)new JsonObject
        {
            ["name"] = curve.Kind.InWords(),
            ["unit"] = curve.Kind.Unit(),
            ["starts"] = curve.Starts?.ToString(),
            ["aboard"] = curve.Aboard,
            ["reserve"] = curve.Reserve,
            ["usedAtRepress"] = Json(curve.UsedAt(walk.RepressStart)),
            ["leftAtRepress"] = curve.LeftAt(walk.RepressStart, Level.High),
            ["lastsAtRepress"] = curve.LastsFrom(walk.RepressStart) is { } lasts ? $"{lasts.Seconds} s" : null,
            ["reserveReached"] = new JsonObject
            {
                ["low"] = curve.ReserveReached(Level.Low)?.ToString(),
                ["likely"] = curve.ReserveReached(Level.Likely)?.ToString(),
                ["high"] = curve.ReserveReached(Level.High)?.ToString(),
            },
        })]),
        ["stretches"] = new JsonArray([.. Rows(walk).Select(row => (JsonNode)new JsonObject
        {
            ["from"] = row.From.ToString(),
            ["to"] = row.To.ToString(),
            ["work"] = row.Exertion.ToString().ToLowerInvariant(),
            ["metabolicWatts"] = Json(row.Watts),
            ["usedAtEnd"] = new JsonArray([.. walk.Use.Curves.Select(curve => (JsonNode)Json(curve.UsedAt(row.To)))]),
        })]),
    };

    /// <summary>The sheet as a picture.</summary>
    public static Picture Picture(Scenario scenario, SuitSheet sheet, Wording words) => SuitChart.Draw(
        scenario, words.Say("drawn.facts", sheet.Outline, sheet.PlanId, scenario.Id), sheet.NotReckoned,
        [
            .. sheet.People.Select(walk => new SuitStrip(
                $"{walk.Profile.Person} · {scenario.People.First(person => person.Id == walk.Profile.Person).Name}",
                [
                    .. walk.Use.Stretches.Select((stretch, i) => Point(stretch.From, walk.Use.Rates[i].MetabolicWatts)),
                    Point(walk.Use.Stretches[^1].To, walk.Use.Rates[^1].MetabolicWatts),
                ],
                [
                    .. walk.Use.Curves.Select(curve => new SuitLeft(
                        curve.Kind.InWords(),
                        curve.ReserveReached(Level.High) is { } at ? words.Say("curves.left", Amount(curve.Kind, curve.LeftAt(walk.RepressStart, Level.High), up: false), at) : words["curves.never"],
                        curve.Reserve / curve.Aboard,
                        [.. curve.Points.Select(point => new SuitPoint(point.At, 1 - point.Used.Low / curve.Aboard, 1 - point.Used.Likely / curve.Aboard, 1 - point.Used.High / curve.Aboard))])),
                ])),
        ],
        words);

    private static SuitPoint Point(Pet at, Estimate watts) => new(at, watts.Low, watts.Likely, watts.High);

    /// <summary>Stretches of one class of work, joined whatever else changes.</summary>
    private static IEnumerable<(Pet From, Pet To, Exertion Exertion, Estimate Watts)> Rows(SuitWalk walk)
    {
        ImmutableArray<SuitStretch> all = walk.Use.Stretches;
        for (int i = 0, next; i < all.Length; i = next)
        {
            next = i + 1;
            while (next < all.Length && all[next].Exertion == all[i].Exertion) next++;
            yield return (all[i].From, all[next - 1].To, all[i].Exertion, walk.Use.Rates[i].MetabolicWatts);
        }
    }

    private static MeanPoint? Inspired(SuitWalk walk) => walk.Told.Helmet is { } helmet && walk.Use.Of(Consumable.CarbonDioxide).Starts is not null
        ? Ventilation.Of(helmet).MeansOver(walk.Use, SuitWalk.LongWindow, Level.High).Means.MaxBy(point => point.Mean)
        : null;

    private static string Mean(SuitWalk walk, Duration window)
    {
        MeanPoint greatest = RollingMean.Greatest(walk.Use.Metabolic(Level.High), window);
        return string.Create(CultureInfo.InvariantCulture, $"{Ceil(greatest.Mean, 0):0} W ({Ceil(greatest.Mean / Units.FactorOf("Btu/h"), 0):0} Btu/h) up to PET {greatest.To}");
    }

    private static string Left(Duration time) => time.Seconds >= 0 ? $"{time} after" : $"{Duration.FromSeconds(-time.Seconds)} before";

    private static string Amount(Consumable kind, double amount, bool up) => $"{Figure(kind, amount, up)} {(kind == Consumable.Battery ? "Wh" : "kg")}";

    private static string Figure(Consumable kind, double amount, bool up)
    {
        (double figure, int digits) = kind == Consumable.Battery ? (amount / 3600, 0) : (amount, 3);
        return (up ? Ceil(figure, digits) : -Ceil(-figure, digits)).ToString(digits == 0 ? "0" : "0.000", CultureInfo.InvariantCulture);
    }

    /// <summary>Rounds up, forgiving the last bits of a quotient.</summary>
    private static double Ceil(double figure, int digits)
    {
        double scale = Math.Pow(10, digits);
        return Math.Ceiling(figure * scale - 1e-9) / scale + 0.0;
    }

    private static string Three(Estimate estimate, string format) =>
        string.Join(" / ", new[] { estimate.Low, estimate.Likely, estimate.High }.Select(figure => figure.ToString(format, CultureInfo.InvariantCulture)));

    private static JsonObject Json(Estimate estimate) => new() { ["low"] = estimate.Low, ["likely"] = estimate.Likely, ["high"] = estimate.High };

    private static JsonArray Texts(IEnumerable<string> texts) => [.. texts.Select(text => (JsonNode)text)];
}
