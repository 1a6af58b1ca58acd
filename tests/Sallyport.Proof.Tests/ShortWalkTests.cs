using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>
/// The short walk worked by hand. Out 5 min each, bags 3, check 4: EV1 out 0:00–0:05, bags to 0:08, EV2 out 0:08–0:13, check to 0:17.
/// EV1 takes the bag to 0:19; 6 m at 6 m/min is 60 s, 4.5 m at 3 m/min is 90 s: at quay-1 0:20, at quay-2 0:21:30. Loosen 4 min to
/// 0:25:30, grease 6 min to 0:31:30, back at quay-1 0:33, at the lock 0:34. EV2 at the rim 0:18, waits for the latch to be free at
/// 0:31:30, looks to 0:34:30, at the lock 0:35:30. Inventory 8 min to 0:43:30, bags 3 to 0:46:30, EV2 in to 0:49:30, EV1 to 0:52:30,
/// hatch closed 4 min later, 0:56:30.
/// </summary>
public sealed class ShortWalkTests
{
    private static readonly Trace Trace = Player.Play(Skerry, Plan.ShortWalk());
    private static readonly History History = new(Trace);

    [Fact]
    public void Trace_OfTheShortWalk_RunsFromHatchToHatch()
    {
        Assert.Equal(At("0:00"), Trace.From);
        Assert.Equal(At("0:56:30"), Trace.To);
        Assert.Empty(Trace.Facts);
    }

    [Theory]
    [InlineData("0:00", "inside", "inside")]
    [InlineData("0:05", "lock", "inside")]
    [InlineData("0:13", "lock", "lock")]
    [InlineData("0:18", "lock", "quay-1")]
    [InlineData("0:19:59", "lock", "quay-1")]
    [InlineData("0:20", "quay-1", "quay-1")]
    [InlineData("0:21:29", "quay-1", "quay-1")]
    [InlineData("0:21:30", "quay-2", "quay-1")]
    [InlineData("0:32:59", "quay-2", "quay-1")]
    [InlineData("0:33", "quay-1", "quay-1")]
    [InlineData("0:34", "lock", "quay-1")]
    [InlineData("0:35:30", "lock", "lock")]
    [InlineData("0:49:30", "lock", "inside")]
    [InlineData("0:52:30", "inside", "inside")]
    public void Place_AtEachMoment_IsWhereTheSpansLead(string pet, string first, string second)
    {
        Assert.Equal(first, History.StateAt(History["person EV1 place"], At(pet)));
        Assert.Equal(second, History.StateAt(History["person EV2 place"], At(pet)));
    }

    [Theory]
    [InlineData("0:04:59", "none", 0, 0)]
    [InlineData("0:05", "lock", 0, 1)]
    [InlineData("0:20", "lock", 6000, 1)]
    [InlineData("0:21:30", "lock", 10500, 1)]
    [InlineData("0:33", "lock", 6000, 1)]
    [InlineData("0:34", "lock", 0, 1)]
    [InlineData("0:52:30", "none", 0, 0)]
    public void Tether_AlongTheWay_PaysOutAndWindsIn(string pet, string anchor, int millimetres, int hooks)
    {
        Assert.Equal(anchor, History.StateAt(History["person EV1 anchor"], At(pet)));
        Assert.Equal(millimetres, History.At(History["person EV1 tether"], At(pet)));
        Assert.Equal(hooks, History.At(History["person EV1 hooks"], At(pet)));
    }

    [Theory]
    [InlineData("0:16:59", "inside", "none", 2)]
    [InlineData("0:17", "hands EV1", "none", 2)]
    [InlineData("0:19", "person EV1 waist", "latch-bag", 2)]
    [InlineData("0:31:29", "person EV1 waist", "latch-bag", 2)]
    [InlineData("0:31:30", "person EV1 waist", "latch-bag", 1)]
    [InlineData("0:52:30", "inside", "none", 1)]
    public void Gear_ThroughTheWalk_IsAlwaysSomewhere(string pet, string bag, string waist, int cartridges)
    {
        Assert.Equal(bag, History.StateAt(History["gear latch-bag place"], At(pet)));
        Assert.Equal(waist, History.StateAt(History["person EV1 carry waist"], At(pet)));
        Assert.Equal(cartridges, History.At(History["gear grease count"], At(pet)));
        Assert.Equal("bag latch-bag", History.StateAt(History["gear driver place"], At(pet)));
    }

    [Fact]
    public void Sky_DuringTheWalk_ChangesWhenGiven()
    {
        Assert.Equal([At("0:12"), At("0:48")], History.Changes(History["sky light"]).Select(change => change.At));
        Assert.Equal([At("0:06"), At("0:11")], History.Changes(History["sky link"]).Select(change => change.At));
        Assert.Equal("night", History.StateAt(History["sky light"], At("0:12")));
        Assert.Equal("link", History.StateAt(History["sky link"], At("0:11")));
    }

    [Fact]
    public void Features_LegsAndHatch_FollowTheWork()
    {
        Assert.Equal([(At("0:31:30"), "free")], Changes("feature latch state"));
        Assert.Equal([(At("0:21:30"), "under way"), (At("0:31:30"), "done")], Changes("leg latch/free progress"));
        Assert.Equal([(At("0:31:30"), "under way"), (At("0:34:30"), "done")], Changes("leg latch/look progress"));
        Assert.Equal([(At("0:00"), "open"), (At("0:56:30"), "closed")], Changes("airlock lock hatch"));
        Assert.Equal([(At("0:21:30"), "body tether"), (At("0:31:30"), "free")], Changes("person EV1 footing"));
    }

    private static IEnumerable<(Pet, string)> Changes(string name) =>
        History.Changes(History[name]).Select(change => (change.At, Trace.Variables[change.Variable].States[change.Value]));

    // By hand: entry 180 s. Way home 60 s from quay-1, 150 s from quay-2. Take 30 s and the steps 30 s (look: 10 s) to break off.
    [Theory]
    [InlineData("0:00", 180)]
    [InlineData("0:04:59", 180)]
    [InlineData("0:10", 180)]
    [InlineData("0:17", 210)] // 30 break-off + 180
    [InlineData("0:18:59", 210)]
    [InlineData("0:19", 180)]
    [InlineData("0:19:30", 210)] // 30 s out
    [InlineData("0:20", 240)]
    [InlineData("0:20:45", 285)] // 60 + 45 + 180
    [InlineData("0:21:30", 360)] // 30 + 150 + 180
    [InlineData("0:27", 360)]
    [InlineData("0:31:30", 330)]
    [InlineData("0:32", 300)] // 60 left of the span + 60 + 180
    [InlineData("0:33:30", 210)]
    [InlineData("0:34", 180)]
    [InlineData("0:49", 180)]
    [InlineData("0:49:30", 180)] // in the hatch, 3 min left
    [InlineData("0:51", 90)]
    [InlineData("0:52:30", 0)]
    [InlineData("0:56", 0)]
    public void ReturnOne_OfEv1_IsWhatTheHandGives(string pet, double seconds) => Assert.Equal(seconds, Read(ReturnKind.One, "EV1", pet), 9);

    [Theory]
    [InlineData("0:07:59", 0)] // inside
    [InlineData("0:08", 180)]
    [InlineData("0:17:30", 210)]
    [InlineData("0:20", 240)] // waits at quay-1: 60 + 180
    [InlineData("0:31:30", 250)] // looks: 10 + 60 + 180
    [InlineData("0:34:30", 240)]
    [InlineData("0:47:30", 120)]
    [InlineData("0:49:30", 0)]
    public void ReturnOne_OfEv2_IsWhatTheHandGives(string pet, double seconds) => Assert.Equal(seconds, Read(ReturnKind.One, "EV2", pet), 9);

    // Both: arrivals at the hatch, then 180 s each in order of arrival, then 240 s to close.
    [Theory]
    [InlineData("0:00", 420)] // only EV1 is out: 0 + 180 + 240
    [InlineData("0:13", 600)] // 0, 0: 180 + 180 + 240
    [InlineData("0:20", 660)] // EV1 60, EV2 60: in at 240 and 420, closed 660
    [InlineData("0:25", 660)] // EV2 arrives at 60, is in at 240; EV1 arrives at 180, waits, is in at 420
    [InlineData("0:31:30", 670)] // EV2 breaks off 10 and walks 60: in at 250; EV1 150 away: in at 430
    [InlineData("0:47:30", 540)] // EV2 120 left in the hatch, EV1 waits: 120 + 180 + 240
    [InlineData("0:49:30", 420)]
    [InlineData("0:52:30", 240)]
    [InlineData("0:54:30", 120)]
    public void ReturnBoth_IsWhatTheHandGives(string pet, double seconds) => Assert.Equal(seconds, Read(ReturnKind.Both, null, pet), 9);

    [Fact]
    public void ReturnArmless_WhereNobodyRides_IsNotDrawn() => Assert.DoesNotContain(Trace.Returns, curve => curve.Kind == ReturnKind.Armless);

    [Fact]
    public void Ceiling_OfAShortWalk_IsTheLimit()
    {
        CeilingPiece piece = Assert.Single(Trace.Ceiling);
        Assert.Equal((1800, 1800), (piece.FromSeconds, piece.ToSeconds));
        Assert.Equal((At("0:00"), At("0:56:30")), (piece.From, piece.To));
    }

    [Fact]
    public void Ceiling_NearTheCutOff_FallsBySecond()
    {
        // Cut-off 1:00 and limit 30 min: level to 0:30, then a second a second, 210 s left at 0:56:30.
        Scenario scenario = Skerry.WithPeople(person => person with { Suit = person.Suit! with { CutOff = At("1:00") } });
        Trace trace = Player.Play(scenario, Plan.ShortWalk());
        Assert.Equal(
            [(At("0:00"), At("0:30"), 1800, 1800), (At("0:30"), At("0:56:30"), 1800, 210)],
            trace.Ceiling.Select(piece => (piece.From, piece.To, piece.FromSeconds, piece.ToSeconds)));
        Assert.Contains("cut-off", trace.Ceiling[1].Binds);
    }

    [Fact]
    public void Verdict_OfTheShortWalk_IsCleanAndSaysWhatWasNotChecked()
    {
        Timeline timeline = Plan.ShortWalk();
        Verdict verdict = Judge.Of(Skerry, [(timeline, Player.Play(Skerry, timeline))]);
        Assert.Empty(verdict.Findings);
        Assert.True(verdict.Clean);
        Assert.Equal(RuleBook.All.Count(rule => rule.Missing(Skerry) is null), verdict.Checked.Length);
        Assert.Contains(verdict.NotChecked, words => words.StartsWith("return.help"));
    }

    private static double Read(ReturnKind kind, string? person, string pet) => Curves.At(Trace, kind, person, At(pet));
}
