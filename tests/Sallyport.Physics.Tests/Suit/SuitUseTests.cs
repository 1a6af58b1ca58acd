using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

public class SuitUseTests
{
    private static readonly ImmutableArray<Consumable> Kinds = [.. Enum.GetValues<Consumable>()];

    [Fact]
    public void Over_AWalk_StartsEachConsumableAtItsOwnMoment()
    {
        SuitUse use = Over(Plain, Walk(Exertion.Light));
        Assert.Equal(At("-1:00"), use.Of(Consumable.CarbonDioxide).Starts);
        Assert.Equal(At("-0:10"), use.Of(Consumable.Oxygen).Starts);
        Assert.Equal(At("0:00"), use.Of(Consumable.Battery).Starts);
        Assert.Equal(At("0:05"), use.Of(Consumable.Feedwater).Starts);
    }

    // By hand from the card: 75.439 g/h of oxygen for 6 h 10 min, 88.194 g/h of carbon dioxide for 7 h 30 min (0.002 g/h for our molar mass),
    // 350 W / 2500.910 kJ/kg = 0.503817 kg/h of water for 5 h 55 min, 50 W for 6 h.
    [Fact, Reference("energetics"), Reference("water")]
    public void Over_AWalkAt300Watts_UsesWhatAHandFinds()
    {
        SuitUse use = Over(Plain, Walk(Exertion.Light));
        double Used(Consumable kind) => use.Of(kind).UsedAt(At("6:30")).Likely;
        Assert.Equal(0.075439 * 370 / 60, Used(Consumable.Oxygen), 0.0000005 * 7);
        Assert.Equal(0.088194 * 7.5, Used(Consumable.CarbonDioxide), 0.000002 * 7.5);
        Assert.Equal(0.503817 * 355 / 60, Used(Consumable.Feedwater), 0.0000005 * 6);
        Assert.Equal(50.0 * 6 * 3600, Used(Consumable.Battery), 1e-6);
    }

    // Of 500 W·h, 25 are kept for half an hour at 50 W: 475 W·h last 9 h 30 min from own power on. Repress at 6:00 leaves 200 W·h, 4 h.
    [Fact]
    public void ReserveReached_OfTheBattery_IsExactToTheSecond()
    {
        ConsumableCurve battery = Over(Plain, Walk(Exertion.Light)).Of(Consumable.Battery);
        Assert.Equal(25.0 * 3600, battery.Reserve, 1e-6);
        Assert.Equal(At("9:30"), battery.ReserveReached(Level.High));
        Assert.Equal(Duration.FromMinutes(60 * 4), battery.LastsFrom(At("6:00")));
        Assert.Equal(Duration.FromMinutes(210), battery.TimeToReserve(At("6:00"), Level.High));
    }

    // Exactly half an hour is left, one joule less is not: the last second moves by one.
    [Fact]
    public void ReserveReached_AtTheLimit_IsTheSecondItself()
    {
        Pet? With(double joules) => Over(Plain with { Aboard = Plain.Aboard with { Battery = joules } }, Walk(Exertion.Light)).Of(Consumable.Battery).ReserveReached(Level.High);
        double enough = 50 * (6 * 3600 + 1800);
        Assert.Equal(At("6:00"), With(enough));
        Assert.Equal(At("5:59:59"), With(enough - 1));
        Assert.Equal(At("6:00:01"), With(enough + 50));
    }

    // What follows repress uses little; the cut-off must not profit from it.
    [Fact]
    public void ReserveReached_WhateverFollowsRepress_IsTheSame()
    {
        ImmutableArray<SuitStretch> walk = Walk(Exertion.Light);
        Pet? cutOff = Over(Plain, walk).Of(Consumable.Oxygen).ReserveReached(Level.High);
        ImmutableArray<SuitStretch> longer = walk.Add(new(At("6:30"), At("20:00"), Exertion.Rest, SuitState.OutOfSuit));
        Assert.Equal(cutOff, Over(Plain, longer).Of(Consumable.Oxygen).ReserveReached(Level.High));
        Assert.True(cutOff > At("6:00"));
    }

    // Wherever repress starts, in the middle of a stretch too: as if the plan ended there.
    [Fact]
    public void ReserveReached_WhereverRepressStarts_IsThatOfThePlanCutThere() =>
        Gen.Select(AnyPlan, Gen.Double[0, 1], Gen.Enum<Level>()).Sample((plan, share, level) =>
        {
            Pet from = plan[0].From, to = plan[^1].To;
            Pet repress = Pet.FromSeconds(from.Seconds + 1 + (int)(share * (to.Seconds - from.Seconds - 1)));
            ImmutableArray<SuitStretch> cut = [.. plan.Where(stretch => stretch.From < repress).Select(stretch => stretch.To <= repress ? stretch : stretch with { To = repress })];
            // Little aboard, so that reserves are reached before and after repress.
            SuitProfile scant = Spread with { Aboard = new(0.2, 0.22, 0.8, 300_000) };
            SuitUse whole = Over(scant, plan, repress), part = Over(scant, cut, repress);
            foreach (Consumable kind in Kinds)
                Assert.InRange(whole.Of(kind).ReserveReached(level)!.Value.Seconds - part.Of(kind).ReserveReached(level)!.Value.Seconds, -1, 1);
        });

    [Fact]
    public void LastsFrom_ASpread_IsReckonedWithTheHighUseAndTheHighRate()
    {
        ConsumableCurve oxygen = Over(Spread, Walk(Exertion.Rest)).Of(Consumable.Oxygen);
        double left = 0.6 - oxygen.UsedAt(At("3:00")).High;
        Assert.Equal((int)Math.Floor(left / SuitRates.OnReserve(Spread).Oxygen.High), oxygen.LastsFrom(At("3:00"))!.Value.Seconds);
        Assert.Equal(Duration.FromSeconds(0), Over(Spread, Walk(Exertion.Heavy)).Of(Consumable.Oxygen).LastsFrom(At("6:00")));
    }

    [Fact]
    public void ReserveReached_BrokenBeforeTheStart_IsTheStart()
    {
        SuitUse use = SuitUse.Over(Plain, Walk(Exertion.Light), At("6:00"), SuitAmounts.None with { Oxygen = 0.59 });
        Assert.Equal(At("-2:00"), use.Of(Consumable.Oxygen).ReserveReached(Level.High));
    }

    // The referee counts second by second, with the rates it is given and no straight lines.
    [Fact]
    public void ReserveReached_OfAnyPlan_IsWhereCountingSecondsEnds() =>
        Gen.Select(AnyPlan, Gen.Double[0.02, 1], Gen.Enum<Level>()).Sample((plan, share, level) =>
        {
            SuitAmounts all = Spread.Aboard;
            SuitProfile profile = Spread with
            {
                Aboard = new(0.15 + all.Oxygen * share, 0.15 + all.CarbonDioxide * share, 0.6 + all.Feedwater * share, 200_000 + all.Battery * share),
            };
            SuitUse use = Over(profile, plan, plan[^1].To);
            SuitRates reserve = SuitRates.OnReserve(profile);
            foreach (Consumable kind in Kinds)
            {
                double left = profile.Aboard.Of(kind) - reserve.Of(kind).High * profile.Reserve.Length.Seconds;
                Pet? reached = use.Of(kind).ReserveReached(level);
                int second = plan[0].From.Seconds;
                for (int i = 0; left >= 0 && second < 200_000; second++)
                {
                    while (i < plan.Length && second >= plan[i].To.Seconds) i++;
                    left -= (i < plan.Length ? SuitRates.Of(profile, plan[i].Exertion, plan[i].State) : reserve).Of(kind)[level];
                }
                // The second in which it goes below is the first that cannot be had whole; sums of many seconds may differ in their last bits.
                if (left < 0) Assert.InRange(reached!.Value.Seconds, second - 2, second);
                else Assert.True(reached is null || reached.Value.Seconds >= second - 1);
            }
        }, iter: 60);

    [Fact]
    public void Over_AnyPlan_RisesAndKeepsItsOrder() =>
        AnyPlan.Sample(plan =>
        {
            SuitUse use = Over(Spread, plan, plan[^1].To);
            foreach (ConsumableCurve curve in use.Curves)
                for (int i = 1; i < curve.Points.Length; i++)
                {
                    Estimate before = curve.Points[i - 1].Used, after = curve.Points[i].Used;
                    Assert.True(after.Low >= before.Low && after.Likely >= before.Likely && after.High >= before.High);
                    Estimate middle = curve.UsedAt(Pet.FromSeconds((curve.Points[i - 1].At.Seconds + curve.Points[i].At.Seconds) / 2));
                    Assert.InRange(middle.High, before.High, after.High);
                }
        });

    // Nothing gets safer by more use: never a later cut-off.
    [Fact]
    public void CutOff_OfHarderWorkOrAStrongerPersonOrAHigherLevel_IsNeverLater() =>
        Gen.Select(AnyPlan, Gen.Double[1, 1.5], Gen.Double[0, 2e-6]).Sample((plan, stronger, leak) =>
        {
            int CutOff(SuitProfile profile, ImmutableArray<SuitStretch> stretches, Level level) =>
                Over(profile, stretches, stretches[^1].To).CutOff(level)?.At.Seconds ?? int.MaxValue;
            SuitProfile spread = Spread with { HeatLeakWatts = default };
            int cutOff = CutOff(spread, plan, Level.High);
            Assert.True(CutOff(spread with { PersonFactor = spread.PersonFactor.Times(stronger) }, plan, Level.High) <= cutOff);
            Assert.True(CutOff(spread with { OxygenLeakKilogramsPerSecond = spread.OxygenLeakKilogramsPerSecond.Plus(Exactly(leak)) }, plan, Level.High) <= cutOff);
            Assert.True(CutOff(spread, [.. plan.Select(stretch => stretch with { Exertion = Exertion.Heavy })], Level.High) <= cutOff);
            Assert.True(cutOff <= CutOff(spread, plan, Level.Likely));
            Assert.True(CutOff(spread, plan, Level.Likely) <= CutOff(spread, plan, Level.Low));
        });

    // EV1: 600 g less 30 min at 75.439 g/h last 7 h 27 min from own oxygen at -0:10. EV2: 350 W·h less 25 last 6 h 30 min from 0:00.
    [Fact]
    public void CutOff_OfSeveralPeople_IsTheWorstOnesAndSaysWhatBinds()
    {
        SuitUse first = Over(Plain, Walk(Exertion.Light));
        SuitUse second = Over(Plain with { Person = new("EV2"), Aboard = Plain.Aboard with { Battery = 350 * 3600 } }, Walk(Exertion.Light));
        Assert.Equal(new(new("EV1"), Consumable.Oxygen, At("7:17:12")), first.CutOff(Level.High));
        Assert.Equal(new(new("EV2"), Consumable.Battery, At("6:30")), second.CutOff(Level.High));
        Assert.Equal(second.CutOff(Level.High), SuitUse.CutOff([first, second], Level.High));
        Assert.Throws<ArgumentException>(() => SuitUse.CutOff([], Level.High));
    }

    // The plan goes on from what was read as from what was reckoned.
    [Fact]
    public void Over_FromWhatWasUsedInTheMiddle_EndsTheSame()
    {
        ImmutableArray<SuitStretch> walk = Walk(Exertion.Moderate);
        SuitUse whole = Over(Plain, walk);
        Pet middle = walk[4].From;
        double Used(Consumable kind) => whole.Of(kind).UsedAt(middle).Likely;
        SuitAmounts used = new(Used(Consumable.Oxygen), Used(Consumable.CarbonDioxide), Used(Consumable.Feedwater), Used(Consumable.Battery));
        Assert.Equal(whole.CutOff(Level.High), SuitUse.Over(Plain, [.. walk.Skip(4)], At("6:00"), used).CutOff(Level.High));
    }

    [Fact]
    public void NotReckoned_WithoutCoolingOrUse_SaysSo()
    {
        Assert.Equal(["heat: nothing is told to carry it off from 0:00 to 0:05; what the body stores is not reckoned"], Over(Plain, Walk(Exertion.Light)).NotReckoned);
        SuitUse inside = SuitUse.Over(Plain, [Walk(Exertion.Light)[0]], At("-1:00"), SuitAmounts.None);
        Assert.Equal(
            ["primary oxygen: not used in this plan", "carbon dioxide cartridge: not used in this plan", "feedwater: not used in this plan", "battery: not used in this plan"],
            inside.NotReckoned);
    }

    [Fact]
    public void UsedAt_OutsideThePlan_IsRefused()
    {
        ConsumableCurve curve = Over(Plain, Walk(Exertion.Light)).Of(Consumable.Oxygen);
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.UsedAt(At("-2:00:01")));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.UsedAt(At("6:30:01")));
        Assert.Equal(0, curve.UsedAt(At("-2:00")).High);
    }

    private static SuitUse Over(SuitProfile profile, ImmutableArray<SuitStretch> stretches, Pet? repress = null) =>
        SuitUse.Over(profile, stretches, repress ?? At("6:00"), SuitAmounts.None);
}
