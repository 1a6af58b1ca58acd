using System.Collections.Immutable;
using System.Runtime.InteropServices;

namespace Sallyport.Draw;

/// <summary>One line of a label.</summary>
internal sealed record LabelLine(string Words, Face Face, double Size, Ink Ink);

/// <summary>One way to set a label; what it costs is what it says less well than another way, in pixels of distance.</summary>
internal sealed record LabelShape(ImmutableArray<LabelLine> Lines, double Cost)
{
    public double Width { get; } = Lines.Max(line => Lettering.Measure(line.Words, line.Face, line.Size));

    public double Height { get; } = Lines.Sum(line => LineHeight(line));

    public static double LineHeight(LabelLine line) => line.Size * 1.12;
}

/// <summary>A label wanted near a stretch of a line.</summary>
/// <param name="Shapes">The ways to set it.</param>
/// <param name="Anchor">The stretch that it names.</param>
/// <param name="Priority">The higher goes first.</param>
/// <param name="Farthest">How far from the stretch it may stand, with a leader.</param>
internal sealed record LabelRequest(ImmutableArray<LabelShape> Shapes, ImmutableArray<Spot> Anchor, double Priority, double Farthest);

/// <summary>Where a label stands, and the leader from it to what it names.</summary>
internal sealed record PlacedLabel(LabelShape Shape, Area Area, (Spot From, Spot To)? Leader)
{
    public IEnumerable<Element> Draw(Ink leader)
    {
        if (Leader is { } line)
        {
            yield return new Line(line.From, line.To, new(leader, 0.8));
            yield return new Disc(line.To, 1.8, new SolidFill(leader), null);
        }
        double top = Area.Top;
        foreach (LabelLine words in Shape.Lines)
        {
            double height = LabelShape.LineHeight(words);
            yield return new Text(new(Area.Centre.X, top + height - words.Size * (Lettering.Descent + 0.05)), words.Words, words.Face, words.Size, words.Ink, Anchor.Middle);
            top += height;
        }
    }
}

/// <summary>
/// Places labels inside a region so that none overlaps another and none lies on a line: all places on a fine grid are tried,
/// the cheapest first; labels that found none go first in the next round. What finds none at last is given back unplaced.
/// </summary>
internal sealed class LabelPlacer(Area region)
{
    private const double Clearance = 2.5;
    private const double TouchingDistance = 10;
    private const int Rounds = 12;
    private const int CandidatesKept = 200;
    private const double StepDown = 4;
    private const double StepAside = 8;
    private const double SideGap = 4;
    private const double NearBy = 48;

    /// <summary>Farther apart than this no rounding makes two lines meet.</summary>
    private const double Rounding = 1e-6;

    /// <summary>Half of the widest stroke that is kept off.</summary>
    private const double WidestHalf = 4;

    private readonly List<Area> boxes = [];
    private readonly List<Obstacle> lines = [];
    private readonly Dictionary<int, List<Obstacle>> columns = [];
    private Blots? blots;

    private sealed record Obstacle(Spot From, Spot To, double HalfWidth, bool LeaderMayCross)
    {
        public double Left { get; } = Math.Min(From.X, To.X);

        public double Right { get; } = Math.Max(From.X, To.X);

        public double Top { get; } = Math.Min(From.Y, To.Y);

        public double Bottom { get; } = Math.Max(From.Y, To.Y);
    }

    private readonly record struct Candidate(LabelShape Shape, Area Area, (Spot From, Spot To)? Leader, double Cost)
    {
        /// <summary>With the room that it keeps around itself.</summary>
        public Area Kept { get; } = Area.Grown(Clearance);
    }

    /// <summary>Keeps labels off a rectangle.</summary>
    public void Avoid(Area area) => boxes.Add(area);

    /// <summary>Keeps labels off a line. Leaders keep off it too, unless they may cross it at a price.</summary>
    public void Avoid(ImmutableArray<Spot> trail, double width, bool leaderMayCross)
    {
        for (int i = 1; i < trail.Length; i++) Add(new(trail[i - 1], trail[i], width / 2, leaderMayCross));
    }

    /// <summary>Places what can be placed; null where nothing is free. What is placed is avoided from then on.</summary>
    public ImmutableArray<PlacedLabel?> Place(IReadOnlyList<LabelRequest> requests)
    {
        if (requests.Count == 0) return [];
        blots = new(region, lines.SelectMany(line => Blots.Along(line.From, line.To)).Concat(boxes.SelectMany(Blots.Over)));
        // Most find room near by; only those that do not are looked for farther out.
        Candidates[] candidates = [.. requests.Select(request => CandidatesFor(request, Math.Min(request.Farthest, NearBy)))];
        Candidate?[] best = Choose(requests, candidates);
        if (best.Contains(null))
        {
            for (int i = 0; i < best.Length; i++)
                if (best[i] is null && requests[i].Farthest > NearBy) candidates[i] = CandidatesFor(requests[i], requests[i].Farthest);
            best = Choose(requests, candidates);
        }
        foreach (Candidate candidate in best.OfType<Candidate>())
        {
            boxes.Add(candidate.Area);
            if (candidate.Leader is { } leader) Add(new(leader.From, leader.To, 0.5, false));
        }
        return [.. best.Select(candidate => candidate is { } found ? new PlacedLabel(found.Shape, found.Area, found.Leader) : null)];
    }

    private static Candidate?[] Choose(IReadOnlyList<LabelRequest> requests, Candidates[] candidates)
    {
        List<int> order = [.. Enumerable.Range(0, requests.Count).OrderByDescending(i => requests[i].Priority).ThenBy(i => i)];
        Candidate?[] best = new Candidate?[requests.Count];
        (int Missing, double Cost) bestScore = (int.MaxValue, 0);
        for (int round = 0; round < Rounds; round++)
        {
            Candidate?[] chosen = new Candidate?[requests.Count];
            List<Candidate> placed = [];
            foreach (int i in order)
            {
                for (int k = 0; candidates[i].Has(k); k++)
                {
                    Candidate candidate = candidates[i][k];
                    if (CollidesWithAny(candidate, placed)) continue;
                    chosen[i] = candidate;
                    placed.Add(candidate);
                    break;
                }
            }
            (int Missing, double Cost) score = (chosen.Count(candidate => candidate is null), chosen.Sum(candidate => candidate?.Cost ?? 0));
            if (score.CompareTo(bestScore) < 0) (best, bestScore) = (chosen, score);
            // Nothing more to gain when all are placed, or when those without a place were the first to choose.
            if (score.Missing == 0 || order.TakeWhile(i => chosen[i] is null).Count() == score.Missing) break;
            order = [.. order.OrderBy(i => chosen[i] is null ? 0 : 1)];
        }
        return best;
    }

    private static bool CollidesWithAny(in Candidate candidate, List<Candidate> placed)
    {
        foreach (ref readonly Candidate other in CollectionsMarshal.AsSpan(placed))
            if (Collide(candidate, other)) return true;
        return false;
    }

    private static bool Collide(in Candidate a, in Candidate b) =>
        a.Kept.Overlaps(b.Kept)
        || (a.Leader is { } first && b.Kept.Meets(first.From, first.To))
        || (b.Leader is { } second && a.Kept.Meets(second.From, second.To))
        || (a.Leader is { } one && b.Leader is { } two && Cross(one.From, one.To, two.From, two.To));

    private Candidates CandidatesFor(LabelRequest request, double farthest)
    {
        ImmutableArray<Spot> samples = Sample(request.Anchor);
        double left = request.Anchor.Min(spot => spot.X), right = request.Anchor.Max(spot => spot.X), middle = (left + right) / 2;
        double low = request.Anchor.Min(spot => spot.Y) - farthest, high = request.Anchor.Max(spot => spot.Y) + farthest;
        Anchorage anchorage = new(samples, left, right, request.Anchor.Min(spot => spot.Y), request.Anchor.Max(spot => spot.Y), farthest);
        List<(LabelShape Shape, double Centre, double Top)> places = [];
        List<(int Place, double Least)> least = [];
        foreach (LabelShape shape in request.Shapes)
        {
            double first = Math.Max(region.Top, low - shape.Height), last = Math.Min(region.Bottom - shape.Height, high);
            double reach = farthest + (right - left + shape.Width) / 2;
            // Right beside the stretch, level with it: where the steps of the grid might jump over.
            double level = (anchorage.Top + anchorage.Bottom - shape.Height) / 2;
            Blots.Band beside = blots!.Between(level - Clearance, level + shape.Height + Clearance);
            Try(shape, right + SideGap + shape.Width / 2, level, beside);
            Try(shape, left - SideGap - shape.Width / 2, level, beside);
            for (double top = first; top <= last; top += StepDown)
            {
                Blots.Band band = blots.Between(top - Clearance, top + shape.Height + Clearance);
                Try(shape, middle, top, band);
                for (double aside = StepAside; aside <= reach; aside += StepAside)
                {
                    Try(shape, middle + aside, top, band);
                    Try(shape, middle - aside, top, band);
                }
            }
        }
        return new(this, anchorage, places, least);

        void Try(LabelShape shape, double centre, double top, Blots.Band band)
        {
            Area area = new(centre - shape.Width / 2, top, shape.Width, shape.Height);
            if (!region.Contains(area) || area.Left - right > farthest || left - area.Right > farthest || band.AnyIn(area.Left - Clearance, area.Right + Clearance)) return;
            least.Add((places.Count, LeastCost(shape, area, anchorage)));
            places.Add((shape, centre, top));
        }
    }

    /// <summary>No more than what a label costs at a place: from the bounds of what it is placed near alone.</summary>
    private static double LeastCost(LabelShape shape, Area area, Anchorage near)
    {
        double beside = Math.Max(area.Left - near.Right, near.Left - area.Right), distance = Math.Max(0, Math.Max(beside, Math.Max(near.Top - area.Bottom, area.Top - near.Bottom)));
        // Less by what rounding might make of it.
        return shape.Cost + distance + Aside(area, near) + (distance > TouchingDistance ? 10 : 0) - 1e-6;
    }

    private static double Aside(Area area, Anchorage near)
    {
        double beside = Math.Max(area.Left - near.Right, near.Left - area.Right);
        return beside > 0 ? 6 + 0.25 * beside : 0.25 * Math.Abs(area.Centre.X - (near.Left + near.Right) / 2);
    }

    /// <summary>What a label is placed near: points of it, and its bounds.</summary>
    private sealed record Anchorage(ImmutableArray<Spot> Samples, double Left, double Right, double Top, double Bottom, double Farthest);

    /// <summary>
    /// The free places of a label, the cheapest first, and of two as cheap the one found first. There are hundreds of thousands of places in a chart and few are needed: each is looked at
    /// when no cheaper one is left, by the least that it may cost, then by what it costs, then by what it costs with the lines that its leader crosses.
    /// </summary>
    private sealed class Candidates(LabelPlacer placer, Anchorage anchorage, List<(LabelShape Shape, double Centre, double Top)> places, List<(int Place, double Least)> least)
    {
        private readonly PriorityQueue<int, double> unseen = new(least);
        private readonly PriorityQueue<Candidate, (double Cost, int)> seen = new();
        private readonly PriorityQueue<Candidate, (double Cost, int)> free = new();
        private readonly List<Candidate> known = [];
        private int looked;

        public Candidate this[int index] => known[index];

        /// <summary>Whether there are more places than so many.</summary>
        public bool Has(int index)
        {
            while (known.Count <= index)
            {
                while (unseen.TryPeek(out int place, out double atLeast) && !(seen.TryPeek(out _, out (double Cost, int) best) && best.Cost < atLeast))
                {
                    unseen.Dequeue();
                    (LabelShape shape, double centre, double top) = places[place];
                    if (placer.CandidateAt(shape, centre, top, anchorage) is { } one) seen.Enqueue(one, (one.Cost, place));
                }
                bool more = looked < CandidatesKept && seen.Count > 0;
                if (free.TryPeek(out Candidate candidate, out (double Cost, int) rank) && !(more && seen.TryPeek(out _, out (double Cost, int) next) && next.Cost < rank.Cost))
                {
                    known.Add(candidate);
                    free.Dequeue();
                }
                else if (more) Look(seen.Dequeue());
                else return false;
            }
            return true;
        }

        private void Look(in Candidate candidate)
        {
            if (placer.IsBlocked(candidate)) return;
            double cost = candidate.Cost + placer.CrossingCost(candidate);
            free.Enqueue(candidate with { Cost = cost }, (cost, looked++));
        }
    }

    private Candidate? CandidateAt(LabelShape shape, double centre, double top, Anchorage anchorage)
    {
        Area area = new(centre - shape.Width / 2, top, shape.Width, shape.Height);
        (double best, double distance, Spot at) = (double.PositiveInfinity, 0, default);
        foreach (Spot sample in anchorage.Samples)
        {
            Spot corner = area.Nearest(sample);
            double across = corner.X - sample.X, down = corner.Y - sample.Y;
            // No nearer than along one of the axes: most samples are out by that.
            if (Math.Abs(across) >= best || Math.Abs(down) >= best) continue;
            double length = Math.Sqrt(across * across + down * down);
            // Of points as near, the one by the middle of the label makes the calmest leader.
            double pull = length + 0.05 * Math.Abs(sample.X - centre);
            if (pull < best) (best, distance, at) = (pull, length, sample);
        }
        if (distance > anchorage.Farthest) return null;
        double cost = shape.Cost + distance + Aside(area, anchorage) + (area.Centre.Y > at.Y ? 3 : 0);
        if (distance <= TouchingDistance) return new(shape, area, null, cost);
        // From above or below the words, not from their corner; level with them, from their side.
        bool level = at.Y > area.Top && at.Y < area.Bottom;
        Spot from = level
            ? new(at.X < area.Left ? area.Left - 2 : area.Right + 2, at.Y)
            : area.Nearest(new(Math.Clamp(at.X, Math.Min(area.Left + 6, area.Centre.X), Math.Max(area.Right - 6, area.Centre.X)), at.Y));
        return new(shape, area, (from, at), cost + 10 + 0.4 * Math.Abs(from.X - at.X));
    }

    private bool IsBlocked(in Candidate candidate)
    {
        Area near = candidate.Kept;
        foreach (Area box in boxes)
            if (box.Overlaps(near)) return true;
        int last = Column(near.Right + WidestHalf);
        for (int column = Column(near.Left - WidestHalf); column <= last; column++)
        {
            if (!columns.TryGetValue(column, out List<Obstacle>? here)) continue;
            foreach (Obstacle line in here)
                if (line.Bottom + line.HalfWidth >= near.Top && line.Top - line.HalfWidth <= near.Bottom && candidate.Area.Grown(Clearance + line.HalfWidth).Meets(line.From, line.To)) return true;
        }
        if (candidate.Leader is not { } leader) return false;
        // The leader's own end lies on a line or bar: what counts is whether it gets there without crossing anything before.
        Spot nearBox = ShortOf(leader, 9), nearLine = ShortOf(leader, 5);
        foreach (Area box in boxes)
            if (box.Grown(1).Meets(leader.From, nearBox)) return true;
        foreach (Obstacle line in LinesBetween(Math.Min(leader.From.X, leader.To.X), Math.Max(leader.From.X, leader.To.X)))
            if (!line.LeaderMayCross && Cross(leader.From, nearLine, line.From, line.To)) return true;
        return false;
    }

    private double CrossingCost(in Candidate candidate)
    {
        if (candidate.Leader is not { } leader) return 0;
        double cost = 0, left = Math.Min(leader.From.X, leader.To.X), right = Math.Max(leader.From.X, leader.To.X);
        double top = Math.Min(leader.From.Y, leader.To.Y), bottom = Math.Max(leader.From.Y, leader.To.Y);
        int first = Column(left - Rounding), last = Column(right + Rounding);
        for (int column = first; column <= last; column++)
        {
            if (!columns.TryGetValue(column, out List<Obstacle>? here)) continue;
            foreach (Obstacle line in here)
                // A line stands in every column that it reaches: it is looked at in the first of them.
                if (line.LeaderMayCross && line.Bottom >= top - Rounding && line.Top <= bottom + Rounding && column == Math.Max(first, Column(line.Left))
                    && Cross(leader.From, leader.To, line.From, line.To)) cost += 8;
        }
        return cost;
    }

    /// <summary>The lines that may reach into a stretch of the width: by columns, so that few have to be looked at.</summary>
    private IEnumerable<Obstacle> LinesBetween(double left, double right)
    {
        int last = Column(right);
        for (int column = Column(left); column <= last; column++)
            if (columns.TryGetValue(column, out List<Obstacle>? here))
                foreach (Obstacle line in here) yield return line;
    }

    private void Add(Obstacle line)
    {
        lines.Add(line);
        int last = Column(line.Right);
        for (int column = Column(line.Left); column <= last; column++)
        {
            if (!columns.TryGetValue(column, out List<Obstacle>? here)) columns[column] = here = [];
            here.Add(line);
        }
    }

    private static int Column(double x) => (int)Math.Floor(x / 32);

    private static Spot ShortOf((Spot From, Spot To) leader, double by)
    {
        double across = leader.To.X - leader.From.X, down = leader.To.Y - leader.From.Y;
        double length = Math.Sqrt(across * across + down * down), part = Math.Max(0, (length - by) / length);
        return new(leader.From.X + across * part, leader.From.Y + down * part);
    }

    private static ImmutableArray<Spot> Sample(ImmutableArray<Spot> trail)
    {
        if (trail.Length == 1) return trail;
        double length = 0;
        for (int i = 1; i < trail.Length; i++) length += Math.Abs(trail[i].X - trail[i - 1].X) + Math.Abs(trail[i].Y - trail[i - 1].Y);
        double step = Math.Max(6, length / 24);
        ImmutableArray<Spot>.Builder samples = ImmutableArray.CreateBuilder<Spot>();
        for (int i = 1; i < trail.Length; i++)
        {
            Spot from = trail[i - 1], to = trail[i];
            int parts = Math.Max(1, (int)((Math.Abs(to.X - from.X) + Math.Abs(to.Y - from.Y)) / step));
            for (int k = 0; k <= parts; k++) samples.Add(new(from.X + (to.X - from.X) * k / parts, from.Y + (to.Y - from.Y) * k / parts));
        }
        return samples.ToImmutable();
    }

    private static bool Cross(Spot a, Spot b, Spot c, Spot d)
    {
        return Side(a, b, c) * Side(a, b, d) <= 0 && Side(c, d, a) * Side(c, d, b) <= 0 && new Area(
            Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Abs(a.X - b.X), Math.Abs(a.Y - b.Y)).Meets(c, d);

        static int Side(Spot from, Spot to, Spot point)
        {
            double side = (to.X - from.X) * (point.Y - from.Y) - (to.Y - from.Y) * (point.X - from.X);
            return side > 0 ? 1 : side < 0 ? -1 : 0;
        }
    }
}
