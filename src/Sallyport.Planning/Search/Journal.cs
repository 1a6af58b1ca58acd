namespace Sallyport.Planning;

/// <summary>What a decoded plan does, as its outline will say it.</summary>
internal enum Did
{
    Take, Put, Plug, Unplug, Give, Mount, Ride, Dismount, Check, Rest, Leg,
}

/// <summary>One thing done in a decoded plan.</summary>
/// <param name="What">What.</param>
/// <param name="Person">Who, by index.</param>
/// <param name="Parcel">Which parcel, or which arm for mount and dismount; -1 for none.</param>
/// <param name="Mooring">Where the person is then, for what is done at a place; -1 on an arm.</param>
/// <param name="Point">The carry point it hangs on then; -1 for none.</param>
/// <param name="Other">To whom it is given, the pose ridden to, or the socket unplugged from; -1 for none.</param>
/// <param name="For">The leg it serves; -1 for none.</param>
/// <param name="Start">When it starts, s of PET.</param>
internal readonly record struct Deed(Did What, int Person, int Parcel, int Mooring, int Point, int Other, int For, int Start)
{
    /// <summary>Gets when what is led of a leg that may wait inside began, s of PET; 0 where nothing tells.</summary>
    public int LedFrom { get; init; }
}
