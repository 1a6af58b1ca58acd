namespace Sallyport.Model;

/// <summary>A length of time in whole seconds; <c>default</c> is none. May be negative as a difference of moments.</summary>
public readonly record struct Duration : IComparable<Duration>
{
    private Duration(int seconds) => Seconds = seconds;

    /// <summary>The length in seconds.</summary>
    public int Seconds { get; }

    /// <summary>The length in minutes, not rounded.</summary>
    public double Minutes => Seconds / 60.0;

    /// <summary>A length of whole seconds.</summary>
    public static Duration FromSeconds(int seconds) => new(seconds);

    /// <summary>A length of whole minutes.</summary>
    public static Duration FromMinutes(int minutes) => new(checked(minutes * 60));

    /// <summary>A length read from a file: part seconds are rounded up, so that no time is made shorter than it was told.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a number, or above ten million seconds in size.</exception>
    public static Duration CeilingFromSeconds(double seconds)
    {
        if (!(Math.Abs(seconds) <= 1e7)) throw new ArgumentOutOfRangeException(nameof(seconds), seconds, "expected at most 1e7 s in size");
        // The subtraction forgives the last bits of a product such as 0.1 min * 60 s/min; it is far below what a file can mean.
        return new((int)Math.Ceiling(seconds - 1e-9));
    }

    /// <summary>The sum of two lengths.</summary>
    public Duration Plus(Duration other) => new(Seconds + other.Seconds);

    /// <inheritdoc/>
    public int CompareTo(Duration other) => Seconds.CompareTo(other.Seconds);

    /// <summary>Whether the left length is the shorter one.</summary>
    public static bool operator <(Duration left, Duration right) => left.Seconds < right.Seconds;

    /// <summary>Whether the left length is the longer one.</summary>
    public static bool operator >(Duration left, Duration right) => left.Seconds > right.Seconds;

    /// <summary>Whether the left length is not the longer one.</summary>
    public static bool operator <=(Duration left, Duration right) => left.Seconds <= right.Seconds;

    /// <summary>Whether the left length is not the shorter one.</summary>
    public static bool operator >=(Duration left, Duration right) => left.Seconds >= right.Seconds;

    /// <summary><c>7 min</c>, <c>7 min 30 s</c> or <c>45 s</c>.</summary>
    public override string ToString()
    {
        string sign = Seconds < 0 ? "-" : "";
        long magnitude = Math.Abs((long)Seconds);
        long minutes = magnitude / 60, seconds = magnitude % 60;
        string body = minutes == 0 ? $"{seconds} s" : seconds == 0 ? $"{minutes} min" : $"{minutes} min {seconds} s";
        return sign + body;
    }
}
