using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>How long it takes to come in, every ten minutes, and by which way.</summary>
internal static class ReturnChapter
{
    private const int EverySeconds = 600;

    public static Chapter Of(BriefedPlan plan)
    {
        Wording words = plan.Words;
        Table table = Every(plan);
        return new(words["returns.title"],
        [
            new Paragraph(words["returns.about"], Setting.Small),
            table with { Rows = [.. table.Rows, .. OtherBranch.Band(plan, branch => Every(branch).Rows)] },
        ])
        { Wide = true };
    }

    private static Table Every(BriefedPlan plan)
    {
        Wording words = plan.Words;
        // The same columns on either branch.
        bool Any(ReturnKind kind, PersonId person) => plan.Plan.Played.Any(one => one.Trace.Returns.Any(curve => curve.Kind == kind && curve.Person == person && !curve.Points.IsEmpty));
        ReturnCurve? both = plan.Curve(ReturnKind.Both, null);
        List<(Column Column, Func<Pet, Cell> At)> columns = [(new(words["col.pet"], 8), at => Phrase.Strong(at.ToString()))];
        foreach (Person person in plan.People)
        {
            ReturnCurve? one = plan.Curve(ReturnKind.One, person.Id), armless = plan.Curve(ReturnKind.Armless, person.Id), help = plan.Curve(ReturnKind.Help, person.Id);
            columns.Add((new(words.Say("col.home", person.Id), 9, true), at => Minutes(words, one, at)));
            if (Any(ReturnKind.Armless, person.Id)) columns.Add((new(words.Say("col.armless", person.Id), 9, true), at => Minutes(words, armless, at)));
            if (Any(ReturnKind.Help, person.Id)) columns.Add((new(words.Say("col.helped", person.Id), 9, true), at => Minutes(words, help, at)));
            columns.Add((new(words.Say("col.way", person.Id), 44), at => Way(plan, person.Id, one, at)));
        }
        columns.Add((new(words["col.allin"], 9, true), at => Minutes(words, both, at)));
        columns.Add((new(words["col.ceiling"], 18), at => Ceiling(plan, at)));
        int first = (int)Math.Ceiling(plan.Trace.From.Seconds / (double)EverySeconds) * EverySeconds;
        ImmutableArray<Row>.Builder rows = ImmutableArray.CreateBuilder<Row>();
        for (int seconds = first; seconds <= plan.Trace.To.Seconds; seconds += EverySeconds)
        {
            Pet at = Pet.FromSeconds(seconds);
            rows.Add(new([.. columns.Select(column => column.At(at))]));
        }
        return new([.. columns.Select(column => column.Column)], rows.ToImmutable());
    }

    private static Cell Minutes(Wording words, ReturnCurve? curve, Pet at) => (curve is null ? null : BriefedPlan.ReturnAt(curve, at)) switch
    {
        null => "–",
        >= ReturnPoint.NoWaySeconds => Phrase.Strong(words["returns.none"]),
        double seconds => BriefedPlan.MinutesUp(seconds).ToString(CultureInfo.InvariantCulture),
    };

    /// <summary>Back along the line as it lies then, and what is closed on it.</summary>
    private static Cell Way(BriefedPlan plan, PersonId person, ReturnCurve? curve, Pet at)
    {
        string place = plan.Place(person, at);
        if (plan.IsInside(person, at)) return plan.Words["place.inside"];
        LineLaid? line = plan.Trace.Lines.LastOrDefault(one => one.Person == person && one.At <= at);
        string way = line is { Grips.IsEmpty: false } ? string.Join(" → ", line.Grips.Reverse().Select(grip => grip.Value)) : place;
        string from = line is { Grips.IsEmpty: false } && line.Grips[^1].Value != place ? plan.Words.Say("returns.from", place) : "";
        ReturnPoint last = curve?.Points.LastOrDefault(point => point.At <= at) ?? default;
        return new([from, way, last.Closed is { } closed ? Phrase.Strong(plan.Words.Say("returns.closed", closed)) : ""]);
    }

    private static Cell Ceiling(BriefedPlan plan, Pet at)
    {
        foreach (CeilingPiece piece in plan.Trace.Ceiling)
            if (piece.From <= at && (at < piece.To || piece.To == plan.Trace.To) && piece.To > piece.From)
            {
                double seconds = piece.FromSeconds + (piece.ToSeconds - piece.FromSeconds) * at.Since(piece.From).Seconds / piece.To.Since(piece.From).Seconds;
                return plan.Words.Say("returns.ceiling", BriefedPlan.MinutesDown(seconds), piece.Binds);
            }
        return "–";
    }
}
