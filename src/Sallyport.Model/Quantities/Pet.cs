using System.Globalization;

namespace Sallyport.Model;

/// <summary>A moment of the sortie: phase elapsed time in whole seconds, signed. Where its zero lies is scenario data.</summary>
/// <remarks>Ordered by time. <c>default</c> is PET 0:00. Written <c>h:mm</c> or <c>h:mm:ss</c>, with a leading minus before zero.</remarks>
public readonly record struct Pet : IComparable<Pet>
{
    private Pet(int seconds) => Seconds = seconds;

    /// <summary>Seconds since PET zero, signed.</summary>
    public int Seconds { get; }

    /// <summary>The moment <paramref name="seconds"/> after PET zero.</summary>
    public static Pet FromSeconds(int seconds) => new(seconds);

    /// <summary>Reads <c>h:mm</c> or <c>h:mm:ss</c>, signed; minutes and seconds below 60.</summary>
    /// <returns>False, and PET zero, when the text is anything else.</returns>
    public static bool TryParse(string text, out Pet pet)
    {
        pet = default;
        string body = text.StartsWith('-') || text.StartsWith('+') ? text[1..] : text;
        string[] parts = body.Split(':');
        if (parts.Length is < 2 or > 3) return false;
        int total = 0;
        for (int i = 0; i < 3; i++)
        {
            int value = 0;
            if (i < parts.Length)
            {
                bool wellFormed = i == 0 ? parts[i].Length is >= 1 and <= 3 : parts[i].Length == 2;
                if (!wellFormed || !int.TryParse(parts[i], NumberStyles.None, CultureInfo.InvariantCulture, out value)) return false;
                if (i > 0 && value > 59) return false;
            }
            total = total * 60 + value;
        }
        pet = new(text.StartsWith('-') ? -total : total);
        return true;
    }

    /// <summary>This moment moved by a duration.</summary>
    public Pet Plus(Duration duration) => new(Seconds + duration.Seconds);

    /// <summary>The time from <paramref name="earlier"/> to this moment; negative when it lies after.</summary>
    public Duration Since(Pet earlier) => Duration.FromSeconds(Seconds - earlier.Seconds);

    /// <inheritdoc/>
    public int CompareTo(Pet other) => Seconds.CompareTo(other.Seconds);

    /// <summary>Whether the left moment is the earlier one.</summary>
    public static bool operator <(Pet left, Pet right) => left.Seconds < right.Seconds;

    /// <summary>Whether the left moment is the later one.</summary>
    public static bool operator >(Pet left, Pet right) => left.Seconds > right.Seconds;

    /// <summary>Whether the left moment is not the later one.</summary>
    public static bool operator <=(Pet left, Pet right) => left.Seconds <= right.Seconds;

    /// <summary>Whether the left moment is not the earlier one.</summary>
    public static bool operator >=(Pet left, Pet right) => left.Seconds >= right.Seconds;

    /// <summary><c>h:mm</c>, or <c>h:mm:ss</c> when seconds are not zero.</summary>
    public override string ToString()
    {
        long magnitude = Math.Abs((long)Seconds);
        string text = string.Create(CultureInfo.InvariantCulture, $"{magnitude / 3600}:{magnitude / 60 % 60:00}");
        if (magnitude % 60 != 0) text += string.Create(CultureInfo.InvariantCulture, $":{magnitude % 60:00}");
        return Seconds < 0 ? "-" + text : text;
    }
}
