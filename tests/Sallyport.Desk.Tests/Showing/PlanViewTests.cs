using System.Xml.Linq;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk.Tests;

public sealed class PlanViewTests
{
    private static PlanView View(Walk walk) => walk.Desk.ViewOf(walk.Plan, true, 1200, 140, "c-");

    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Legs_OfAPlan_StandWhereTheTimelineHasThem(string name)
    {
        Walk walk = Walks.Named(name);
        PlanView view = View(walk);
        Assert.NotEmpty(view.Legs);
        foreach (DoStep step in walk.Plan.Likely.Activities.OfType<DoStep>())
        {
            LegView leg = Assert.Single(view.Legs, one => one.Id == step.Leg.Value && one.Person == step.Person.Value);
            Assert.InRange(step.Start.Seconds, leg.From, leg.To);
            Assert.InRange(step.End.Seconds, leg.From, leg.To);
        }
        Assert.Equal(view.Legs.OrderBy(leg => leg.From).Select(leg => leg.From), view.Legs.Select(leg => leg.From));
    }

    [Fact]
    public void Svg_EveryLegAndFinding_IsNamedOnTheChart()
    {
        PlanView view = View(Walks.Skerry);
        XElement svg = XElement.Parse(view.Svg);
        foreach (LegView leg in view.Legs)
            Assert.Contains(svg.Descendants(), one => one.Attribute("data-leg")?.Value == leg.Id && one.Attribute("data-person")?.Value == leg.Person);
        Assert.True(view.Findings.Length > 6, "Skerry has more findings than a document numbers");
        foreach (FindingView finding in view.Findings) Assert.Contains(svg.Descendants(), one => one.Attribute("data-finding")?.Value == $"{finding.Number}");
    }

    [Fact]
    public void Svg_OfAVerdictThatIsNotWhole_NowhereSaysClean()
    {
        Walk walk = Walks.Skerry;
        Assert.True(walk.Plan.Verdict.Clean);
        Assert.Contains("Clean", View(walk).Svg, StringComparison.Ordinal);
        string quick = walk.Desk.ViewOf(walk.Plan, false, 1200, 140, "c-").Svg;
        Assert.DoesNotContain("clean", quick, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Not proven yet", quick, StringComparison.Ordinal);
    }

    [Fact]
    public void Gear_AtEveryChange_IsWhereTheTraceHasIt()
    {
        Walk walk = Walks.Skerry;
        PlanBeside view = walk.Desk.BesideOf(walk.Plan);
        History history = new(walk.Trace);
        foreach ((Gear gear, GearView shown) in walk.Scenario.Gear.Zip(view.Gear))
        {
            int variable = history.Find($"gear {gear.Id} place")!.Value;
            Assert.Equal(gear.Title, shown.Name);
            // On somebody is said so, by name; the bag that it lies in too.
            foreach (PlaybackState place in shown.Where)
                if (history.StateAt(variable, Pet.FromSeconds(place.At)).Split(' ') is ["person", var who, ..]) Assert.Contains(who, place.Is, StringComparison.Ordinal);
        }
    }
}
