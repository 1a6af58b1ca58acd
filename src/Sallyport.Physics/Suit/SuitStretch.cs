using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What of a suit is in use.</summary>
/// <param name="OwnOxygen">Breathing the primary oxygen of the suit, not of an umbilical or the cabin.</param>
/// <param name="Cartridge">The suit is closed and its cartridge takes up carbon dioxide: from purge on.</param>
/// <param name="OwnPower">On the battery of the suit, not on an umbilical.</param>
/// <param name="PowerMode">What is switched on, by the name of a <see cref="PowerMode"/>: its power is drawn from the battery or the
/// umbilical and becomes heat in the suit either way. Empty while the suit is off.</param>
/// <param name="WaterOn">Feedwater evaporates. Only ever in vacuum.</param>
/// <param name="Vacuum">The person is in vacuum.</param>
public sealed record SuitState(bool OwnOxygen, bool Cartridge, bool OwnPower, string PowerMode, bool WaterOn, bool Vacuum)
{
    /// <summary>Nothing in use: before donning, after doffing.</summary>
    public static SuitState OutOfSuit { get; } = new(false, false, false, "", false, false);

    /// <summary>In the closed suit, oxygen, power and cooling from an umbilical.</summary>
    /// <param name="powerMode">What is switched on.</param>
    /// <param name="vacuum">Whether the airlock is in vacuum.</param>
    public static SuitState OnUmbilical(string powerMode, bool vacuum) => new(false, true, false, powerMode, false, vacuum);

    /// <summary>On one's own in vacuum, everything in use.</summary>
    /// <param name="powerMode">What is switched on.</param>
    public static SuitState OnItsOwn(string powerMode) => new(true, true, true, powerMode, true, true);
}

/// <summary>A stretch of the plan in which a person's exertion and suit stay as they are.</summary>
/// <param name="From">Its first second.</param>
/// <param name="To">The first second after it.</param>
/// <param name="Exertion">How hard it is.</param>
/// <param name="State">What of the suit is in use.</param>
public sealed record SuitStretch(Pet From, Pet To, Exertion Exertion, SuitState State);
