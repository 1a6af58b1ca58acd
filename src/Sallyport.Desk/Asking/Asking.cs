using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk;

/// <summary>An answer, a line each, and whether a plan was found that does as wished.</summary>
public sealed record Answer(ImmutableArray<string> Lines, bool IsFound);

/// <summary>Answers questions by solving: a search with the wish forced, beside one without, and bounds where the search finds none or something dearer.</summary>
internal sealed class Asking(SortieDesk desk, int effort, int seed, CancellationToken cancel)
{
    /// <summary>What each question to the solver may cost, in its own count: about a second on a quiet core. Answers do not depend on the machine.</summary>
    private const double Work = 1;

    private readonly List<string> lines = [];

    private Scenario Scenario => desk.Scenario;

    public Answer Of(Question question)
    {
        PlanOutcome plain = desk.Plan("ask", effort, seed, from: null, _ => { }, cancel);
        if (plain.Plan is { } plan) Say($"Without any wish: {Told(plan)}.");
        else Say($"Without any wish already no plan is found: {plain.Search!.Why}.");
        if (question.WhyOut is { } job && plain.Plan is { } has && Done(has).Contains(job))
        {
            Say($"{job} is in it: nothing leaves it out.");
            return new([.. lines], true);
        }
        if (question.WhyOut is { } left && plain.Plan?.Outline?.LeftOut.FirstOrDefault(one => one.Job == left) is { } reason)
            Say($"{left} is left out of it: {reason.Why}.");

        Wishes wishes = new(Scenario, question.Wishes);
        SortieDesk wished = desk.Over(wishes.Judged);
        Say($"Wished: {string.Join("; ", question.Wishes.Select(wish => wish.Text))}.");
        if (CannotDo(question, wishes.Scenario) is { } cannot)
        {
            Say($"No plan can do so: {cannot}.");
            return new([.. lines], false);
        }
        WishedPlan found = wishes.Search(effort, seed, outline => wished.ProveBriefly(outline), cancel);
        if (found.Outline is { } outline && wished.ProvePlan("ask", outline) is { } with) Price(plain.Plan, with, wishes);
        else WhyNot(question, wishes, wished, found);
        return new([.. lines], found.Outline is not null);
    }

    /// <summary>Somebody wished for who may not do a leg, in words; null when there is none.</summary>
    private string? CannotDo(Question question, Scenario wished)
    {
        foreach (ByWish wish in question.Wishes.OfType<ByWish>())
        {
            Person person = Scenario.People.First(one => one.Id == wish.Person);
            foreach (Leg leg in Scenario.Legs.Where(leg => wish.Legs.Contains(leg.Id)))
            {
                if (!leg.Who.IsEmpty && !leg.Who.Contains(person.Id)) return $"only {string.Join(" or ", leg.Who)} may do {leg.Id}";
                if (leg.Training.FirstOrDefault(training => !person.TrainedFor.Contains(training)) is { } lacks) return $"{leg.Id} asks for training in {lacks}, which {person.Id} has not";
            }
        }
        return wished.Legs.FirstOrDefault(leg => leg.After.Any(before => before.Leg == leg.Id || IsAfter(wished, before.Leg, leg.Id, []))) is { } circle
            ? $"{circle.Id} would have to be done before itself, by what is wished and what the scenario asks for" : null;
    }

    /// <summary>Whether one leg comes after another, over however many between.</summary>
    private static bool IsAfter(Scenario scenario, LegId later, LegId earlier, HashSet<LegId> seen) => seen.Add(later)
        && scenario.Legs.First(leg => leg.Id == later).After.Any(before => before.Leg == earlier || IsAfter(scenario, before.Leg, earlier, seen));

    private void Price(ProvenPlan? plain, ProvenPlan with, Wishes wishes)
    {
        Say($"So it can be: {Told(with)}.");
        if (plain is null) return;
        int before = PlanText.ValueOf(Scenario, plain), value = PlanText.ValueOf(Scenario, with);
        HashSet<JobId> had = Done(plain), has = Done(with);
        if (had.Except(has).ToArray() is { Length: > 0 } lost) Say($"  Left out for it: {string.Join(", ", lost)}.");
        if (has.Except(had).ToArray() is { Length: > 0 } won) Say($"  Taken in: {string.Join(", ", won)}.");
        Duration later = with.End.Since(plain.End);
        string time = later.Seconds == 0 ? "the same end" : later.Seconds > 0 ? $"{later} later" : $"{Duration.FromSeconds(-later.Seconds)} sooner";
        Say($"  The price: {(value < before ? $"{before - value} of value" : value > before ? $"none, it is worth {value - before} more, so search had missed it" : "no value")}, {time}.");
        Bounds bounds = new(wishes.Scenario, new(wishes.Scenario), wishes.All);
        Bound most = bounds.MostValue(double.PositiveInfinity, Work, 1, cancel);
        if (most.Figure < before) Say($"  Proven: no plan that does so is worth more than {most.Figure}, so it costs {before - most.Figure} of value at least.");
        else if (value == before && later.Seconds > 0)
        {
            Bound least = bounds.LeastEnd(before, with.End, double.PositiveInfinity, Work, 1, cancel);
            if (!least.IsImpossible && least.Figure > plain.End.Seconds) Say($"  Proven: no plan that does so and is worth {before} ends before {Pet.FromSeconds((int)least.Figure)}.");
            else Say("  That is the best found, not proven to be the least price.");
        }
        else if (value < before) Say("  That is the best found, not proven to be the least price.");
    }

    private void WhyNot(Question question, Wishes wishes, SortieDesk wished, WishedPlan found)
    {
        // Must-jobs count as wishes of the sortie: with them, what cannot be kept together is told by name.
        Job[] musts = [.. Scenario.Jobs.Where(job => job.Worth == Worth.Must)];
        Scenario free = Scenario with { Jobs = [.. Scenario.Jobs.Select(job => job.Worth == Worth.Must ? job with { Worth = Worth.GetAhead } : job)] };
        if (wishes.CannotBe(Work, cancel))
        {
            ImmutableArray<Wish> conflict = new Wishes(free, [.. question.Wishes, .. musts.Select(job => new DoneWish($"the must-job {job.Id} is done", job.Id))]).InConflict(Work, cancel);
            Say("No plan can do so: proven of the least times alone. These cannot be kept together" + (EndLimit() is { } limit ? $" within the end limit of {limit}:" : ":"));
            foreach (Wish wish in conflict.IsEmpty ? question.Wishes : conflict) Say($"  - {wish.Text}");
            if (conflict.Length > 1) Say("Each of them left out, that proof fails.");
            return;
        }
        Say($"No plan found that does so: {found.Why}. That there is none is not proven.");
        lines.AddRange(wished.WhyRefused(found.Refused));
        foreach (string rule in new[] { "pet.limit", "return.one", "return.both", "return.armless" })
        {
            if (Scenario.LimitOf(rule) is not { } limit || cancel.IsCancellationRequested) continue;
            Wishes lifted = new(Scenario with { Limits = [.. Scenario.Limits.Where(one => one.Rule.Value != rule)] }, question.Wishes);
            SortieDesk over = desk.Over(lifted.Judged);
            if (lifted.Search(Math.Max(1, effort / 2), seed, outline => over.ProveBriefly(outline), cancel).Outline is not { } outline || over.ProvePlan("ask", outline) is not { } plan) continue;
            Say($"  Without the limit of {rule} ({limit.Value.Text}) it can be: {Told(plan)}"
                + (rule == "pet.limit" && plan.End.Seconds > limit.Value.Value ? $", {Duration.FromSeconds(plan.End.Seconds - (int)Math.Floor(limit.Value.Value))} past the limit." : "."));
        }
    }

    private Pet? EndLimit() => Scenario.LimitOf("pet.limit") is { Value.Dimension: Dimension.Time } limit ? Pet.FromSeconds((int)Math.Floor(limit.Value.Value)) : null;

    private string Told(ProvenPlan plan) => PlanText.InShort(Scenario, plan);

    private static HashSet<JobId> Done(ProvenPlan plan) => PlanText.Done(plan);

    private void Say(string line) => lines.Add(line);
}
