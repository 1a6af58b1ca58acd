namespace Sallyport.Desk.Tests;

/// <summary>The referee itself, seen to work on a world of three facts. What is expected is read off Fox and Long (PDDL2.1, JAIR 20, 2003),
/// section 5, and Edelkamp and Hoffmann (PDDL 2.2, 2004).</summary>
public sealed class RefereeTests
{
    private const string Plan = "1.000: (make) [1.999]\n3.000: (use) [1.999]\n";

    [Fact]
    public void Referee_PlanThatKeepsToTheRules_IsAccepted() => Assert.Null(Refuses(Plan));

    [Theory]
    // At its end make adds what use asks for at its start: not at the same moment, and closer than the tolerance is the same.
    [InlineData("1.000: (make) [1.999]\n2.999: (use) [1.999]\n", "^use: at start \\(made\\) fails")]
    [InlineData("1.000: (make) [1.9999]\n3.000: (use) [1.999]\n", "^use: at start \\(made\\) fails")]
    [InlineData("1.000: (make) [1.998]\n3.000: (use) [1.999]\n", "^make: duration")]
    [InlineData("1.000: (make) [1.999]\n3.000: (use) [1.999]\n4.999: (spoil) [1.999]\n", "^use: interferes with spoil over \\(made\\)|^spoil: interferes with use over \\(made\\)")]
    [InlineData("1.000: (make) [1.999]\n3.000: (use) [1.999]\n4.000: (spoil) [1.999]\n", "^use: over all \\(made\\) fails after 4")]
    [InlineData("1.000: (make) [1.999]\n5.000: (use) [1.999]\n", "^use: over all \\(not \\(dark\\)\\) fails after 6")]
    [InlineData("1.000: (make) [1.999]\n2.000: (make) [1.999]\n3.000: (use) [1.999]\n", "^make: overlaps itself")]
    [InlineData("1.000: (make) [1.999]\n", "^goal: \\(used\\)")]
    [InlineData("1.000: (made) [1.999]\n", "^malformed: no action made")]
    [InlineData("1.000 (make) [1.999]\n", "^malformed: ")]
    public void Referee_PlanThatBreaksARule_IsRefusedForThat(string plan, string refusal) => Assert.Matches(refusal, Refuses(plan));

    [Theory]
    [InlineData("(made)\n (dark)", "(made) (made2)\n (dark)", null)]
    [InlineData("at start (made)", "at start (made thing)", "^malformed: \\(made thing\\) has 1 arguments")]
    [InlineData("at start (made)", "at start (found)", "^malformed: \\(found\\) has no declared predicate")]
    [InlineData("at start (made)", "at start (kept place)", "^malformed: place in \\(kept place\\) is not declared")]
    [InlineData("at start (made)", "at start (kept box)", "^malformed: box in \\(kept box\\) is no thing")]
    [InlineData("at start (made)", "at start (kept thing-1)", "^use: at start \\(kept thing-1\\) fails")]
    [InlineData("(at end (used))", "(at end (used)) (when (at end (made)) (at end (not (made))))", null)]
    [InlineData("(at end (used))", "(at end (used)) (when (at start (made)) (at end (not (made))))", "^malformed: .* has its condition at another time")]
    [InlineData("(at end (used))", "(at end (used)) (at end (not (used)))", "^use: \\(used\\) is added and deleted")]
    public void Referee_Domain_IsReadStrictly(string from, string to, string? refusal)
    {
        Assert.Contains(from, Domain);
        string? refused = Refuses(Plan, Domain.Replace(from, to));
        if (refusal is null) Assert.Null(refused);
        else Assert.Matches(refusal, refused);
    }

    [Theory]
    [InlineData(2, null)]
    [InlineData(1, "^use: at start \\(>= \\(pieces thing-1\\) 2\\) fails")]
    public void Referee_Amounts_AreCounted(int pieces, string? refusal)
    {
        string domain = Domain.Replace("(:durative-action make", "(:functions (pieces ?thing - thing))\n(:durative-action make")
            .Replace("at start (made)) (over all (made))", "at start (>= (pieces thing-1) 2)) (over all (made))").Replace("(at end (used))", "(at end (used)) (at end (decrease (pieces thing-1) 2))");
        Assert.Contains("pieces thing-1", domain);
        string? refused = Referee.Refuses(new(domain, Problem.Replace("(:init ", $"(:init (= (pieces thing-1) {pieces}) "), Plan));
        if (refusal is null) Assert.Null(refused);
        else Assert.Matches(refusal, refused);
    }

    private static string? Refuses(string plan, string domain = Domain) => Referee.Refuses(new(domain, Problem, plan));

    private const string Domain = """
        (define (domain small)
        (:requirements :adl :durative-actions :duration-inequalities :timed-initial-literals)
        (:types thing case) ; a comment
        (:constants thing-1 - thing box - case)
        (:predicates (made)
         (dark) (used) (kept ?thing - thing))
        (:durative-action make :parameters () :duration (>= ?duration 1.999)
         :condition (and (at start (not (made)))) :effect (and (at end (made))))
        (:durative-action use :parameters () :duration (>= ?duration 1.999)
         :condition (and (at start (made)) (over all (made)) (over all (not (dark))) (at end (or (made) (used)))) :effect (and (at end (used))))
        (:durative-action spoil :parameters () :duration (>= ?duration 1.999)
         :condition (and (at start (made))) :effect (and (at start (not (made))))))
        """;

    private const string Problem = "(define (problem one) (:domain small) (:init (at 6.0 (dark))) (:goal (and (used))))";
}
