using Google.OrTools.Sat;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>The constraint layer against a published job shop and against every order of small ones.</summary>
public class ConstraintModelTests
{
    private static readonly SolverLimits Enough = new(double.PositiveInfinity, 20, 1, CancellationToken.None);

    [Fact]
    [Reference("job-shop-ft06")]
    public void Solve_ThePublishedJobShop_ComesToThePublishedLength()
    {
        SolverAnswer answer = Shortest(JobShop).Solve(Enough);
        Assert.Equal((SolverWord.Closed, 55L, 55L), (answer.Word, answer.Best!.Value, answer.Bound));
    }

    [Theory]
    [Reference("rcpsp-j30")]
    [InlineData("j30_1_1.rcp", 43)]
    [InlineData("j30_1_2.rcp", 47)]
    public void Solve_ThePublishedProjects_ComeToThePublishedLengths(string file, long shortest)
    {
        SolverAnswer answer = Shortest(Project.Read(file)).Solve(Enough);
        Assert.Equal((SolverWord.Closed, shortest, shortest), (answer.Word, answer.Best!.Value, answer.Bound));
    }

    // Some schedule that puts each job, in some order, as early as what is there allows is a shortest one: R. Kolisch, "Serial and parallel
    // resource-constrained project scheduling methods revisited" (1996), from memory, unverified. So trying every order tries enough.
    [Fact]
    public void Solve_SmallProjects_ComeToTheShortestOfEveryOrder()
    {
        int shortened = 0;
        for (int seed = 1; seed <= 150; seed++)
        {
            Project project = Project.Random(seed);
            SolverAnswer answer = Shortest(project).Solve(Enough);
            int shortest = project.ShortestOfAllOrders();
            Assert.Equal((SolverWord.Closed, (long)shortest), (answer.Word, answer.Best!.Value));
            if (shortest > project.LengthWithoutResources()) shortened++;
        }
        Assert.True(shortened > 50, $"resources matter in {shortened} projects only");
    }

    [Fact]
    public void Solve_WhatCannotBe_IsProvenImpossible()
    {
        ConstraintModel model = new();
        IntVar number = model.Number(0, 9, "number");
        model.Holds(number >= 10);
        model.Least(number);
        Assert.Equal(SolverWord.Impossible, model.Solve(Enough).Word);
    }

    [Fact]
    public void Solve_CancelledBefore_ClaimsNothing()
    {
        ConstraintModel least = Shortest(JobShop), most = new();
        most.Most(most.Number(0, 9, "number"));
        SolverLimits cancelled = Enough with { Cancel = new(canceled: true) };
        Assert.Equal((SolverWord.Open, long.MinValue), (least.Solve(cancelled).Word, least.Solve(cancelled).Bound));
        Assert.Equal((SolverWord.Open, long.MaxValue), (most.Solve(cancelled).Word, most.Solve(cancelled).Bound));
    }

    [Fact]
    public void Solve_TheSameWorkOnOneThread_GivesTheSameBound()
    {
        long Bound() => Shortest(Project.Random(3, jobs: 40)).Solve(Enough with { Work = 0.02 }).Bound;
        Assert.Equal(Bound(), Bound());
    }

    [Fact]
    public void RoundTrip_FourStopsOnALine_IsThereAndBack()
    {
        // At 0, 3, 7 and 12 of a line: the shortest round trip is 24.
        int[] at = [0, 3, 7, 12];
        ConstraintModel model = new();
        List<(int, int, ILiteral)> arcs = [];
        List<LinearExpr> lengths = [];
        for (int a = 0; a < 4; a++)
            for (int b = 0; b < 4; b++)
                if (a != b)
                {
                    BoolVar taken = model.Choice("");
                    arcs.Add((a, b, taken));
                    lengths.Add(taken * Math.Abs(at[a] - at[b]));
                }
        model.RoundTrip(arcs);
        model.Least(LinearExpr.Sum(lengths));
        Assert.Equal(24, model.Solve(Enough).Best);
    }

    private static ConstraintModel Shortest(Project project)
    {
        ConstraintModel model = new();
        int longest = project.Lengths.Sum();
        IntVar[] start = [.. project.Lengths.Select((_, i) => model.Number(0, longest, $"job {i}"))];
        foreach ((int before, int after) in project.Order) model.Holds(start[after] >= start[before] + project.Lengths[before]);
        for (int r = 0; r < project.There.Length; r++)
            model.Shares(project.Lengths.Select((length, i) => ((LinearExpr)start[i], (long)length, (ILiteral?)null, (long)project.Asks[i][r])), project.There[r]);
        IntVar end = model.Number(0, longest, "end");
        for (int i = 0; i < start.Length; i++) model.Holds(end >= start[i] + project.Lengths[i]);
        model.Least(end);
        return model;
    }

    private static readonly int[][] Rows =
    [
        [2, 1, 0, 3, 1, 6, 3, 7, 5, 3, 4, 6], [1, 8, 2, 5, 4, 10, 5, 10, 0, 10, 3, 4], [2, 5, 3, 4, 5, 8, 0, 9, 1, 1, 4, 7],
        [1, 5, 0, 5, 2, 5, 3, 3, 4, 8, 5, 9], [2, 9, 1, 3, 4, 5, 5, 4, 0, 3, 3, 1], [1, 3, 3, 3, 5, 9, 0, 10, 4, 4, 2, 1],
    ];

    private static Project JobShop { get; } = new(
        [.. Rows.SelectMany(row => row.Where((_, i) => i % 2 == 1))],
        [.. Rows.SelectMany(row => row.Where((_, i) => i % 2 == 0)).Select(machine => Enumerable.Range(0, 6).Select(r => r == machine ? 1 : 0).ToArray())],
        [1, 1, 1, 1, 1, 1],
        [.. Enumerable.Range(0, 36).Where(i => i % 6 > 0).Select(i => (i - 1, i))]);

    /// <summary>Jobs with lengths, what each asks of each resource, how much there is, and which comes before which.</summary>
    private sealed record Project(int[] Lengths, int[][] Asks, int[] There, (int Before, int After)[] Order)
    {
        public static Project Read(string file)
        {
            int[][] rows = [.. File.ReadLines(RepositoryFolder.Of("tests", "References", "rcpsp-j30", file)).Select(line => line.Split(' ').Select(int.Parse).ToArray())];
            int resources = rows[0][1];
            int[][] jobs = rows[2..];
            return new(
                [.. jobs.Select(row => row[0])],
                [.. jobs.Select(row => row[1..(1 + resources)])],
                rows[1],
                [.. jobs.SelectMany((row, before) => row[(2 + resources)..].Select(after => (before, after - 1)))]);
        }

        public static Project Random(int seed, int jobs = 6)
        {
            Random random = new(seed);
            int[] there = [1 + random.Next(3), 1 + random.Next(2)];
            return new(
                [.. Enumerable.Range(0, jobs).Select(_ => 1 + random.Next(9))],
                [.. Enumerable.Range(0, jobs).Select(_ => there.Select(most => random.Next(most + 1)).ToArray())],
                there,
                [.. Enumerable.Range(0, jobs / 2).Select(_ => (A: random.Next(jobs), B: random.Next(jobs))).Where(pair => pair.A < pair.B).Select(pair => (pair.A, pair.B))]);
        }

        public int LengthWithoutResources() => new Project(Lengths, [.. Lengths.Select(_ => new int[There.Length])], There, Order).ShortestOfAllOrders();

        public int ShortestOfAllOrders() => Try([], Enumerable.Range(0, Lengths.Length).ToHashSet());

        private int Try(List<(int Job, int Start)> placed, HashSet<int> left)
        {
            if (left.Count == 0) return placed.Max(one => one.Start + Lengths[one.Job]);
            int best = int.MaxValue;
            foreach (int job in left.ToList())
            {
                if (Order.Any(pair => pair.After == job && left.Contains(pair.Before))) continue;
                int start = Order.Where(pair => pair.After == job).Select(pair => placed.First(one => one.Job == pair.Before)).Select(one => one.Start + Lengths[one.Job]).DefaultIfEmpty(0).Max();
                while (!Fits(placed, job, start)) start++;
                placed.Add((job, start));
                left.Remove(job);
                best = Math.Min(best, Try(placed, left));
                left.Add(job);
                placed.RemoveAt(placed.Count - 1);
            }
            return best;
        }

        private bool Fits(List<(int Job, int Start)> placed, int job, int start)
        {
            for (int second = start; second < start + Lengths[job]; second++)
                for (int r = 0; r < There.Length; r++)
                    if (Asks[job][r] + placed.Where(one => one.Start <= second && second < one.Start + Lengths[one.Job]).Sum(one => Asks[one.Job][r]) > There[r]) return false;
            return true;
        }
    }
}
