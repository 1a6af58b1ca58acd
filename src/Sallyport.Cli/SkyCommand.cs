using System.CommandLine;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Model;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>sky</c>: day and night, links and radiation over a sortie; states along an orbit.</summary>
internal static class SkyCommand
{
    private const double LongestSlip = 60 * 86400;

    private const double FarthestMinutes = 60 * 24 * 366 * 100.0;

    public static Command Make()
    {
        Argument<string?> scenario = new("SCENARIO") { Description = "A scenario folder, such as scenarios/skerry.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> draw = new("--draw") { Description = "Write a strip along PET too: a picture as SVG or PNG, by the end of the name.", HelpName = "FILE" };
        Option<Duration?> slip = new("--slip")
        {
            Description = "Compare with the same plan on another date: which windows, thermal clocks and findings change. A time with its unit, negative for earlier, as in --slip=-90min.",
            HelpName = "TIME",
            CustomParser = result =>
            {
                string word = result.Tokens[0].Value;
                if (Quantity.TryParse(word, Dimension.Time, out Quantity by, out _) && Math.Abs(by.Value) is >= 1 and <= LongestSlip) return Duration.FromSeconds((int)Math.Round(by.Value));
                result.AddError($"--slip is '{word}'; expected a time with its unit, at most 60 days, such as 1d, 90min or -2h");
                return null;
            },
        };
        Option<string?> outline = new("--outline") { Description = "With --slip: the outline to compare; without it the one marked current, else the newest, else the sky alone.", HelpName = "FILE" };
        Option<string?> elements = new("--elements") { Description = "Follow the orbit of this file instead: an OMM or a two-line element set.", HelpName = "FILE" };
        Option<double[]> at = new("--at")
        {
            Description = "With --elements: minutes from their epoch, with commas between, negative too, as in --at=0,-360,1440; the epoch alone without it.",
            HelpName = "MIN,MIN,…",
            CustomParser = result =>
            {
                List<double> minutes = [];
                foreach (string word in result.Tokens.SelectMany(token => token.Value.Split(',')))
                {
                    if (double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out double minute) && Math.Abs(minute) <= FarthestMinutes) minutes.Add(minute);
                    else
                    {
                        result.AddError($"--at has '{word}'; expected minutes from the epoch, at most a hundred years, such as --at=0,-360,1440");
                        return [];
                    }
                }
                return [.. minutes];
            },
        };
        Option<bool> json = Shared.Json();
        Command command = new("sky", "Says when it is day and night, who is in sight, and when radiation is high over a sortie, in PET and UTC. With --elements: where an orbit is.")
        {
            scenario, slip, outline, draw, elements, at, json,
        };
        command.Validators.Add(result =>
        {
            bool folder = result.GetValue(scenario) is not null, file = result.GetValue(elements) is not null;
            if (folder == file) result.AddError("give a scenario folder, or --elements FILE, and not both");
            if (result.GetResult(at) is not null && !file) result.AddError("--at goes with --elements");
            if (file && result.GetResult(slip) is not null) result.AddError("--slip goes with a scenario");
            if (result.GetValue(outline) is not null && result.GetResult(slip) is null) result.AddError("--outline goes with --slip");
            if (result.GetValue(draw) is not null && result.GetResult(slip) is not null) result.AddError("--draw and --slip exclude each other");
            if (file && result.GetValue(draw) is not null) result.AddError("--draw goes with a scenario");
            if (result.GetValue(draw) is { } path && !path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase) && !path.EndsWith(".png", StringComparison.OrdinalIgnoreCase))
                result.AddError($"--draw is '{path}'; expected a name that ends in .svg or .png");
        });
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(elements) is { } file) return States(file, parsed.GetValue(at) is { Length: > 0 } minutes ? minutes : [0], parsed.GetValue(json));
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            if (parsed.GetValue(slip) is { } by) return Slip(desk, by, parsed.GetValue(outline), parsed.GetValue(json));
            SkyReport report = desk.Sky();
            if (parsed.GetValue(draw) is { } path)
            {
                if (report.WriteStrip(path) is { } problem) return Shared.Refuse([problem]);
                Console.Error.WriteLine($"Wrote:\n  {path}");
            }
            Shared.Print(parsed.GetValue(json), report.Json, report.Text);
            return ExitCodes.Clean;
        });
        return command;
    }

    private static int Slip(SortieDesk desk, Duration by, string? outline, bool json)
    {
        ReadResult<SlipReport> slip = desk.Slip(by, outline);
        foreach (string note in slip.Notes) Console.Error.WriteLine(note);
        if (slip.Value is not { } report) return Shared.Refuse(slip.Problems);
        Shared.Print(json, report.Json, report.Text);
        return report.Clean == false ? ExitCodes.Broken : ExitCodes.Clean;
    }

    private static int States(string file, double[] minutes, bool json)
    {
        ReadResult<OrbitStates> read = OrbitStates.Of(file, minutes);
        foreach (string note in read.Notes) Console.Error.WriteLine(note);
        if (read.Value is not { } states) return Shared.Refuse(read.Problems);
        Shared.Print(json, states.Json, states.Text);
        return states.Whole ? ExitCodes.Clean : ExitCodes.Input;
    }
}
