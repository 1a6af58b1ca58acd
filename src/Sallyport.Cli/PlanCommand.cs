using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Planning;
using Spectre.Console;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>plan</c>: search, expand, prove, write.</summary>
internal static class PlanCommand
{
    public static Command Make()
    {
        Argument<string> scenario = Shared.Scenario();
        Option<int> effort = Shared.Effort("Epochs of search; the same effort and seed give the same plan.", SearchWish.Usual.Effort);
        Option<int?> seconds = new("--seconds") { Description = "End after the epoch in which so many seconds have passed, and keep the best.", HelpName = "N" };
        Option<double?> gap = new("--gap") { Description = "End once neither value nor end can be more than so many per cent better: proven.", HelpName = "PERCENT" };
        Option<int> seed = new("--seed") { Description = "Seed of the search.", DefaultValueFactory = _ => SearchWish.Usual.Seed, HelpName = "N" };
        Option<string?> from = new("--from") { Description = "Go on from an outline, its pins kept.", HelpName = "FILE" };
        Option<int> others = new("--alternatives") { Description = "Search so many further plans that differ in what is done or by whom, and write them too.", HelpName = "N" };
        Option<bool> latest = new("--latest") { Description = "Tell how late each leg can begin, one at a time, in a plan that still plays clean." };
        Option<string> name = new("--name") { Description = "Name of the outline written.", DefaultValueFactory = _ => "plan", HelpName = "NAME" };
        Option<string> output = Shared.Out();
        Option<DateOnly?> date = Shared.Date();
        Option<bool> json = Shared.Json();
        seconds.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, out int number) && number is < 1 or > 86_400) result.AddError("--seconds takes a whole number from 1 to 86400");
        });
        others.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, out int number) && number is < 1 or > 9) result.AddError("--alternatives takes a whole number from 1 to 9");
        });
        gap.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && double.TryParse(result.Tokens[0].Value, CultureInfo.InvariantCulture, out double number) && number is not (>= 0 and < 100)) result.AddError("--gap takes a number from 0 to below 100");
        });
        Command command = new("plan", "Searches a plan, proves it, and writes it with its range chart.") { scenario, effort, seconds, gap, seed, from, others, latest, name, output, date, json };
        command.SetAction(parsed =>
        {
            using Halt halt = new();
            using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(halt.Token);
            if (parsed.GetValue(seconds) is { } clock) stop.CancelAfter(TimeSpan.FromSeconds(clock));
            string file = parsed.GetValue(name)!;
            int epochs = parsed.GetValue(effort), first = parsed.GetValue(seed);
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            double? close = parsed.GetValue(gap);
            string folder = parsed.GetValue(output)!;
            DateOnly? printed = parsed.GetValue(date);
            PlanOutcome outcome;
            int code;
            using (BoundsWatch watch = new(desk.Scenario, ends: close is not null || parsed.GetValue(seconds) is not null))
            {
                outcome = Searching(epochs, () => watch.Now, progress => desk.Plan(file, epochs, first, parsed.GetValue(from), far =>
                {
                    watch.Tell(far);
                    progress(far);
                    if (watch.Now.IsEnough(far, close)) stop.Cancel();
                }, stop.Token));
                // Bounds are proven until the plan is written: a quick search leaves them little time.
                code = Report(desk, outcome, watch, halt.IsAsked, folder, printed, parsed.GetValue(json));
            }
            if (outcome.Plan is not { Verdict.Clean: true } plan || code != ExitCodes.Clean) return code;
            if (parsed.GetValue(others) is > 0 and int wanted && !halt.IsAsked)
                code = Others(desk, plan, Searching(epochs, () => ProvenBounds.None, progress => desk.Alternatives(plan, wanted, epochs, first, progress, halt.Token)), wanted, folder, printed);
            if (parsed.GetValue(latest) && !halt.IsAsked) Console.Out.Write(LatestText.Of(desk.LatestStarts(plan, halt.Token)));
            return code;
        });
        return command;
    }

    /// <summary>Shows progress on a terminal, and nothing in a pipe.</summary>
    private static T Searching<T>(int effort, Func<ProvenBounds> bounds, Func<Action<SearchProgress>, T> run)
    {
        if (Console.IsErrorRedirected) return run(_ => { });
        IAnsiConsole console = AnsiConsole.Create(new() { Out = new AnsiConsoleOutput(Console.Error) });
        return console.Status().Start("searching; Ctrl-C keeps the best so far", status => run(progress =>
            status.Status(progress.End is { } end
                ? $"epoch {progress.Epoch} of {effort} · best so far: {progress.Jobs} jobs, {BoundsText.Short(bounds(), progress.Value, end)} · Ctrl-C keeps it"
                : $"epoch {progress.Epoch} of {effort} · nothing clean yet")));
    }

    /// <summary>Writes further plans and says how they differ; the exit code.</summary>
    private static int Others(SortieDesk desk, ProvenPlan plan, ImmutableArray<ProvenPlan> others, int wanted, string output, DateOnly? date)
    {
        foreach (ProvenPlan other in others)
        {
            (var written, var notes, Problem? problem) = desk.Write(other, output, date, keepsOutline: false);
            if (problem is not null) return Shared.Refuse([problem]);
            foreach (string note in notes) Console.Error.WriteLine(note);
            Console.Error.WriteLine($"Wrote {written[0]} and what is derived from it.");
        }
        if (!others.IsEmpty) Console.Out.Write(AlternativeText.Of(desk.Scenario, [plan, .. others]));
        if (others.Length < wanted) Console.Error.WriteLine($"{others.Length} of {wanted} further plans were found; more effort or another seed may find more.");
        return ExitCodes.Clean;
    }

    private static int Report(SortieDesk desk, PlanOutcome outcome, BoundsWatch bounds, bool stopped, string output, DateOnly? date, bool json)
    {
        if (outcome.Problems.Length > 0) return Shared.Refuse(outcome.Problems);
        SearchResult search = outcome.Search!;
        if (search.Refused.Length > 0)
            Console.Error.WriteLine($"{search.Refused.Length} of the plans tried were refused by the proof and not used: search does not see the rules that the proof alone guards ('rules' names them).");
        if (outcome.Plan is not { } plan)
        {
            Console.Error.WriteLine($"No plan. {search.Why}{(bounds.Now.NoPlan ? BoundsText.NoPlan : "")}");
            foreach (string line in desk.WhyRefused(search.Refused)) Console.Error.WriteLine(line);
            return stopped ? ExitCodes.Stopped : ExitCodes.NoPlan;
        }
        (var written, var notes, Problem? problem) = desk.Write(plan, output, date, keepsOutline: false);
        if (problem is not null) return Shared.Refuse([problem]);
        Shared.Show(desk.Scenario, plan, date, json);
        foreach (string note in notes) Console.Error.WriteLine(note);
        if (BoundsText.Of(bounds.Now, desk.Scenario, plan) is { Length: > 0 } proven) Console.Error.WriteLine(proven);
        Console.Error.WriteLine($"{search.Epochs} epochs, {search.Decodes} candidates tried{(stopped ? ", stopped by hand" : "")}. Wrote:");
        foreach (string file in written) Console.Error.WriteLine($"  {file}");
        return plan.Verdict.Clean ? ExitCodes.Clean : ExitCodes.Broken;
    }
}
