using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>How the suits of some people use what is aboard, and from when on.</summary>
/// <param name="People">Whose.</param>
/// <param name="OxygenLeak">Oxygen lost while a suit is on its own oxygen, kg/s.</param>
/// <param name="HeatLeak">Heat that comes in from outside in vacuum, W; below zero where the suit loses heat.</param>
/// <param name="FeedwaterKelvin">Temperature of the water that evaporates.</param>
/// <param name="LightsOff">What is drawn by day, W.</param>
/// <param name="LightsOn">What is drawn whenever it is not full day, and while the reserve is used, W.</param>
/// <param name="Helmet">The gas that washes a helmet; null when it is not told.</param>
/// <param name="ReserveWork">The class of work that the reserve is reckoned with.</param>
/// <param name="Purge">From here on the suit is closed and its cartridge takes up carbon dioxide.</param>
/// <param name="OwnOxygen">From here on its own oxygen is breathed.</param>
/// <param name="OwnPower">From here on it is on its battery.</param>
/// <param name="Vacuum">From here on the airlock is in vacuum.</param>
/// <param name="WaterOn">From here on feedwater evaporates.</param>
/// <param name="WaterOff">So long before the start of repress it is shut off.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record SuitInUse(
    ImmutableArray<PersonId> People, Estimate OxygenLeak, Estimate HeatLeak, double FeedwaterKelvin, Estimate LightsOff, Estimate LightsOn,
    HelmetFlow? Helmet, Exertion ReserveWork, Pet Purge, Pet OwnOxygen, Pet OwnPower, Pet Vacuum, Pet WaterOn, Duration WaterOff, string Source);

/// <summary>The gas that washes carbon dioxide out of a helmet.</summary>
/// <param name="CubicMetresPerSecond">What flows through it, at the suit's own pressure and temperature.</param>
/// <param name="Kelvin">Its temperature.</param>
/// <param name="Mixing">The share of what is given off that is breathed in again, above 0 and at most 1.</param>
/// <param name="OutletPascals">Carbon dioxide in what the cartridge gives back while it has room.</param>
public sealed record HelmetFlow(double CubicMetresPerSecond, double Kelvin, double Mixing, double OutletPascals);

/// <summary>A part of a prebreathe, at one pressure with one gas. A change of pressure is told as a part at its higher pressure.</summary>
/// <param name="Pascals">Absolute pressure breathed at.</param>
/// <param name="OxygenShare">Share of oxygen in the dry gas breathed, 0 to 1.</param>
/// <param name="Minutes">How long, above zero.</param>
/// <param name="Exercise">Whether it is part of an exercise protocol: such protocols are approved as whole sequences, and the ratio then is for information only.</param>
/// <param name="IsBreak">Whether it is a break in breathing oxygen, which has to be paid back.</param>
public sealed record PrebreathePart(double Pascals, double OxygenShare, double Minutes, bool Exercise = false, bool IsBreak = false);

/// <summary>The prebreathe of a sortie, in the order of its parts.</summary>
/// <param name="HalfTimeMinutes">Half-time of the compartment that stands for the body.</param>
/// <param name="StartPascals">Inert-gas tension at the start of the first part.</param>
/// <param name="StartIs">What that stands for, in words.</param>
/// <param name="WaterVapourPascals">Water vapour taken off the pressure breathed; zero for dry gas.</param>
/// <param name="SuitPascals">Lowest regulated suit pressure; null for the lowest of the scenario's suits.</param>
/// <param name="WithoutBreaks">How long all of it takes when nothing breaks it; null when it has no break.</param>
/// <param name="Parts">At least one.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record PrebreathePlan(
    double HalfTimeMinutes, double StartPascals, string StartIs, double WaterVapourPascals, double? SuitPascals, Duration? WithoutBreaks,
    ImmutableArray<PrebreathePart> Parts, string Source);
