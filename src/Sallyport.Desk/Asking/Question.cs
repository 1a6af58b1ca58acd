using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk;

/// <summary>A question about plans of a scenario.</summary>
/// <param name="WhyOut">The job of which is asked why it is left out; null when what if is asked.</param>
/// <param name="Wishes">What is wished for.</param>
public sealed record Question(JobId? WhyOut, ImmutableArray<Wish> Wishes)
{
    private const string Forms = "why-out JOB, or if WISH [and WISH …] with a WISH such as 'JOB first', 'JOB before JOB', 'JOB by PERSON', 'JOB at 3:10' or 'JOB done', or with FILE";

    /// <summary>Reads a question from the words of a call.</summary>
    public static ReadResult<Question> Read(IReadOnlyList<string> words, Scenario scenario)
    {
        Reader reader = new(words, scenario);
        Question? question = reader.Read();
        return question is null ? new(null, [reader.Problem!], []) : new(question, [], []);
    }

    private sealed class Reader(IReadOnlyList<string> words, Scenario scenario)
    {
        private int at;

        public Problem? Problem { get; private set; }

        private string? Next => at < words.Count ? words[at++] : null;

        public Question? Read() => Next switch
        {
            "why-out" => Job() is { } job && Ends() ? new(job, [new DoneWish($"{job} is done", job)]) : null,
            "if" => Wishes() is { } wishes ? new(null, wishes) : null,
            "with" => Next is { } file ? FromFile(file) : Fail(null, "no file", "an outline with pins in it", "name it after 'with'."),
            var other => Fail(null, other is null ? "nothing asked" : $"'{other}'", Forms, "ask in one of these forms.", other, ["why-out", "if", "with"]),
        };

        private ImmutableArray<Wish>? Wishes()
        {
            ImmutableArray<Wish>.Builder wishes = ImmutableArray.CreateBuilder<Wish>();
            do
            {
                if (Wish() is not { } wish) return null;
                wishes.Add(wish);
            }
            while (Next is { } word && (word == "and" || Fail(null, $"'{word}' after a wish", "'and' and another wish, or nothing", "join wishes by 'and'.") is not null));
            return Problem is null ? wishes.ToImmutable() : null;
        }

        private Wish? Wish()
        {
            string? name = Next;
            if (Legs(name) is not { } legs) return null;
            JobId job = scenario.Legs.First(leg => leg.Id == legs[0]).Job;
            switch (Next)
            {
                case "done":
                    return new DoneWish($"{job} is done", job);
                case "first":
                    return new FirstWish($"{job} is what its doer begins with", job);
                case "before":
                    if (Job() is not { } then) return null;
                    return then == job ? Fail<Wish>(null, $"'{job}' before itself", "another job", "name two jobs.") : new BeforeWish($"{job} is done before {then}", job, then);
                case "by":
                    string? person = Next;
                    PersonId[] outside = [.. scenario.Outside.Select(one => one.Id)];
                    if (!outside.Any(one => one.Value == person)) return Fail<Wish>("person", person is null ? "no name after 'by'" : $"'{person}'", "a person who goes outside", $"name one of {string.Join(", ", outside)}.", person, outside.Select(one => one.Value));
                    if (scenario.Legs.Where(leg => legs.Contains(leg.Id)).GroupBy(leg => leg.Together).Any(group => group.Key.Length > 0 && group.Count() > 1))
                        return Fail<Wish>("leg", $"'{name}', of which legs are done together", "one leg, since two people do them", $"name one of {string.Join(", ", legs)}.");
                    return new ByWish($"{person} does {name}", legs, new(person!));
                case "at":
                    string? moment = Next;
                    if (moment is null || !Pet.TryParse(moment, out Pet pet)) return Fail<Wish>("pet", moment is null ? "no time after 'at'" : $"'{moment}'", "a PET such as 3:10", "write hours and minutes.");
                    return new WhenWish($"{legs[0]} begins at {pet}", legs[0], pet, pet);
                case var other:
                    return Fail<Wish>(null, other is null ? $"nothing said of {name}" : $"'{other}'", "first, before JOB, by PERSON, at PET or done", $"say what is wished of {name}.", other, ["first", "before", "by", "at", "done"]);
            }
        }

        /// <summary>The wishes that the pins of an outline are, and that its jobs are done.</summary>
        private Question? FromFile(string file)
        {
            ReadResult<Outline> read = OutlineFile.Read(file, scenario);
            if (read.Value is not { } outline)
            {
                Problem = read.Problems[0];
                return null;
            }
            ImmutableArray<Wish>.Builder wishes = ImmutableArray.CreateBuilder<Wish>();
            foreach (PersonOutline list in outline.People)
                foreach (LegEntry entry in list.Entries.OfType<LegEntry>().Where(entry => entry.Pins != Pins.None))
                {
                    LegId leg = entry.Leg;
                    Pins pins = entry.Pins;
                    JobId job = scenario.Legs.First(one => one.Id == leg).Job;
                    if (pins.At is { } moment) wishes.Add(new WhenWish($"{leg} begins at {moment}", leg, moment, moment));
                    if (pins.NotBefore is { } from) wishes.Add(new WhenWish($"{leg} begins no earlier than {from}", leg, from, null));
                    if (pins.NotAfter is { } to) wishes.Add(new WhenWish($"{leg} begins no later than {to}", leg, null, to));
                    if (pins.Who) wishes.Add(new ByWish($"{list.Person} does {leg}", [leg], list.Person));
                    if (pins.Keep) wishes.Add(new DoneWish($"{job} is done", job));
                }
            if (wishes.Count == 0) return Fail(null, $"no pin in {file}", "legs with pins, such as {leg: …, at: \"3:10\"}", "pin what you wish for.");
            return Ends() ? new(null, wishes.ToImmutable()) : null;
        }

        private JobId? Job()
        {
            string? name = Next;
            if (scenario.Jobs.Any(job => job.Id.Value == name)) return new(name!);
            Fail<Wish>("job", name is null ? "no job named" : $"'{name}'", "a job of the scenario", "name one of its jobs.", name, scenario.Jobs.Select(job => job.Id.Value));
            return null;
        }

        private ImmutableArray<LegId>? Legs(string? name)
        {
            ImmutableArray<LegId> legs = [.. scenario.Legs.Where(leg => leg.Id.Value == name || leg.Job.Value == name).Select(leg => leg.Id)];
            if (legs.Length > 0) return legs;
            Fail<Wish>("job", name is null ? "no job named" : $"'{name}'", "a job or a leg of the scenario", "name one of its jobs or legs.", name, scenario.Jobs.Select(job => job.Id.Value).Concat(scenario.Legs.Select(leg => leg.Id.Value)));
            return null;
        }

        private bool Ends() => Next is not { } more || Fail(null, $"'{more}' after the question", "nothing more", "leave it out.") is not null;

        private Question? Fail(string? what, string found, string expected, string fix, string? near = null, IEnumerable<string>? known = null) => Fail<Question>(what, found, expected, fix, near, known);

        private T? Fail<T>(string? what, string found, string expected, string fix, string? near = null, IEnumerable<string>? known = null) where T : class
        {
            Problem ??= FileProblems.Whole("ask", what is null ? "question.form" : $"question.{what}", found, expected, fix) with { Nearest = near is null || known is null ? null : Nearest.Of(near, [.. known]) };
            return null;
        }
    }
}
