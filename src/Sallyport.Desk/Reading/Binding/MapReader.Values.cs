using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

// Figures, times, points, flags and choices.
internal sealed partial class MapReader
{
    private static readonly Duration LongestTime = Duration.FromMinutes(24 * 60);
    private static readonly Duration FarthestPet = Duration.FromMinutes(48 * 60);

    // Far beyond any station and any walk; keeps a slip of the unit from becoming a figure that nothing can be reckoned with.
    private const double LongestLength = 10_000, FastestSpeed = 10;

    /// <summary>A figure with its unit, in the canonical unit of its dimension.</summary>
    /// <param name="key">Where.</param>
    /// <param name="dimension">What it measures.</param>
    /// <param name="aboveZero">Whether it must be above zero; otherwise zero will do.</param>
    public double Measure(string key, Dimension dimension, bool aboveZero = true)
    {
        return RequiredText(key, $"2 {ValueProblems.Example(dimension)}") is { } node ? Measure(node, key, dimension, aboveZero) : 1;
    }

    public double Measure(TextNode node, string key, Dimension dimension, bool aboveZero = true)
    {
        if (Quantity(node, key, dimension) is not { } quantity) return 1;
        (double most, string bound) = dimension switch
        {
            Dimension.Length => (LongestLength, ", at most 10 km"),
            Dimension.Speed => (FastestSpeed, ", at most 10 m/s"),
            _ => (double.MaxValue, ""),
        };
        if (quantity.Value <= most && (quantity.Value > 0 || (quantity.Value == 0 && !aboveZero))) return quantity.Value;
        binding.Report(ValueProblems.Range(node, key, (aboveZero ? "more than zero" : "zero or more") + bound));
        return 1;
    }

    /// <summary>A figure with its unit, of any sign and dimension.</summary>
    public Quantity? Quantity(string key, Dimension? dimension = null, string example = "2 min") =>
        RequiredText(key, example) is { } node ? Quantity(node, key, dimension) : null;

    public Quantity? OptionalQuantity(string key, Dimension? dimension = null) =>
        Find(key) is { } node && AsText(node, key) is { } text ? Quantity(text, key, dimension) : null;

    /// <summary>A figure between two bounds, in the canonical unit of its dimension.</summary>
    public double Within(string key, Dimension dimension, double least, double most, string range)
    {
        if (RequiredText(key, $"2 {ValueProblems.Example(dimension)}") is not { } node || Quantity(node, key, dimension) is not { } quantity) return least;
        // A bound in degrees is not exact in radians.
        if (quantity.Value >= least - 1e-12 && quantity.Value <= most + 1e-12) return Math.Clamp(quantity.Value, least, most);
        binding.Report(ValueProblems.Range(node, key, range));
        return least;
    }

    /// <summary>An angle between two bounds, degrees.</summary>
    public double Degrees(string key, double least, double most) =>
        Math.Clamp(Within(key, Dimension.Angle, least * Math.PI / 180, most * Math.PI / 180, string.Create(CultureInfo.InvariantCulture, $"{least} to {most} deg")) * 180 / Math.PI, least, most);

    /// <summary>A time of at least <paramref name="least"/> seconds, rounded up.</summary>
    public Duration Time(string key, int least = 1) =>
        RequiredText(key, "2 min") is { } node ? Time(node, key, least, down: false) : Duration.FromSeconds(least);

    public Duration OptionalTime(string key, int least, Duration missing) =>
        Find(key) is { } node && AsText(node, key) is { } text ? Time(text, key, least, down: false) : missing;

    /// <summary>A time that limits something, rounded down: a limit is never made wider than it was told.</summary>
    public Duration LimitTime(string key, int least = 1) =>
        RequiredText(key, "2 min") is { } node ? Time(node, key, least, down: true) : Duration.FromSeconds(least);

    public Duration? OptionalLimitTime(string key, int least = 1) =>
        Find(key) is { } node && AsText(node, key) is { } text ? Time(text, key, least, down: true) : null;

    /// <summary>A time that may be negative, as a lag may.</summary>
    public Duration SignedTime(string key) => RequiredText(key, "0 s") is { } node ? Time(node, key, -LongestTime.Seconds, down: false) : default;

    /// <summary>Three times, <c>low / likely / high unit</c>.</summary>
    public StepTime StepTime(string key, string source)
    {
        Duration second = Duration.FromSeconds(1);
        StepTime none = new(second, second, second, source);
        if (Three(key, "3 / 4 / 7 min", "three times: low, likely, high, and their unit") is not (TextNode node, string[] parts)) return none;
        string unit = SplitNumber(parts[2]).Unit;
        if (unit.Length == 0)
        {
            binding.Report(ValueProblems.UnitMissing(node, key, Dimension.Time));
            return none;
        }
        Duration[] times = new Duration[3];
        for (int i = 0; i < 3; i++)
        {
            string part = SplitNumber(parts[i]).Unit.Length == 0 ? $"{parts[i]} {unit}" : parts[i];
            int before = binding.Count;
            times[i] = Time(node with { Text = part }, key, 1, down: false);
            if (binding.Count > before) return none;
        }
        if (times[0] <= times[1] && times[1] <= times[2]) return new(times[0], times[1], times[2], source);
        binding.Report(ScenarioProblems.TimesCrossed(node));
        return none;
    }

    /// <summary>Three figures with their unit, <c>low / likely / high unit</c>.</summary>
    /// <param name="key">Where.</param>
    /// <param name="dimension">What they measure.</param>
    /// <param name="example">One that would do.</param>
    /// <param name="sign">1 when all must be above zero, 0 when zero will do, -1 for any sign.</param>
    public Estimate Estimate(string key, Dimension dimension, string example, int sign = 1)
    {
        Estimate none = Model.Estimate.Exactly(1);
        if (Three(key, example, "three figures: low, likely, high, and their unit") is not (TextNode node, string[] parts)) return none;
        string unit = SplitNumber(parts[2]).Unit;
        if (unit.Length == 0)
        {
            binding.Report(ValueProblems.UnitMissing(node, key, dimension));
            return none;
        }
        double[] figures = new double[3];
        for (int i = 0; i < 3; i++)
        {
            TextNode part = node with { Text = SplitNumber(parts[i]).Unit.Length == 0 ? $"{parts[i]} {unit}" : parts[i] };
            int before = binding.Count;
            figures[i] = sign < 0 ? Quantity(part, key, dimension)?.Value ?? 1 : Measure(part, key, dimension, aboveZero: sign > 0);
            if (binding.Count > before) return none;
        }
        return Ordered(node, figures) ?? none;
    }

    /// <summary>Three plain numbers, <c>low / likely / high</c>.</summary>
    public Estimate Estimate(string key, double least, double most, string example)
    {
        Estimate none = Model.Estimate.Exactly(1);
        string range = string.Create(CultureInfo.InvariantCulture, $"three numbers from {least} to {most}: low / likely / high");
        if (Three(key, example, range) is not (TextNode node, string[] parts)) return none;
        double[] figures = new double[3];
        for (int i = 0; i < 3; i++)
        {
            if (!double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out figures[i])) binding.Report(ValueProblems.Number(node, key, range));
            else if (!(figures[i] >= least && figures[i] <= most)) binding.Report(ValueProblems.Range(node, key, range));
            else continue;
            return none;
        }
        return Ordered(node, figures) ?? none;
    }

    private (TextNode Node, string[] Parts)? Three(string key, string example, string expected)
    {
        if (RequiredText(key, example) is not { } node) return null;
        // Between blanks a stroke parts two figures; without them it may also belong to a unit, such as g/h at the end.
        string[] parts = node.Text.Split(" / ", StringSplitOptions.TrimEntries);
        if (parts.Length != 3) parts = node.Text.Split('/', StringSplitOptions.TrimEntries);
        if (parts.Length == 4) parts = [parts[0], parts[1], $"{parts[2]}/{parts[3]}"];
        if (parts.Length == 3) return (node, parts);
        binding.Report(ValueProblems.Form(node, key, expected, example));
        return null;
    }

    private Estimate? Ordered(TextNode node, double[] figures)
    {
        if (figures[0] <= figures[1] && figures[1] <= figures[2]) return new(figures[0], figures[1], figures[2]);
        binding.Report(SuitProblems.Crossed(node));
        return null;
    }

    /// <summary>A moment of PET, <c>h:mm</c> or <c>h:mm:ss</c>.</summary>
    public Pet Pet(string key) => RequiredText(key, "\"1:30\"") is { } node ? Pet(node, key) : default;

    public Pet? OptionalPet(string key) => Find(key) is { } node && AsText(node, key) is { } text ? Pet(text, key) : null;

    /// <summary>A point, <c>x, y, z unit</c>.</summary>
    public Point Point(string key)
    {
        if (RequiredText(key, "\"1, 0, 2.5 m\"") is not { } node) return default;
        string[] parts = node.Text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length != 3)
        {
            binding.Report(ValueProblems.Form(node, key, "three figures and their unit", "\"1, 0, 2.5 m\""));
            return default;
        }
        string unit = SplitNumber(parts[2]).Unit;
        if (unit.Length == 0)
        {
            binding.Report(ValueProblems.UnitMissing(node, key, Dimension.Length));
            return default;
        }
        double[] axes = new double[3];
        for (int i = 0; i < 3; i++)
        {
            string part = SplitNumber(parts[i]).Unit.Length == 0 ? $"{parts[i]} {unit}" : parts[i];
            if (Quantity(node with { Text = part }, key, Dimension.Length) is not { } quantity) return default;
            axes[i] = quantity.Value;
        }
        if (axes.Any(axis => Math.Abs(axis) > LongestLength))
        {
            binding.Report(ValueProblems.Range(node, key, "within 10 km of the station's zero"));
            return default;
        }
        return new(axes[0], axes[1], axes[2]);
    }

    /// <summary>A count with its unit, such as <c>2 pieces</c>.</summary>
    public int Count(string key, string unit, int least)
    {
        if (RequiredText(key, $"2 {unit}") is not { } node) return least;
        (string number, string written) = SplitNumber(node.Text);
        if (written.Length == 0 && number.Length > 0) binding.Report(ValueProblems.UnitMissing(node, key, Dimension.Count, unit));
        else if (written != unit) binding.Report(ValueProblems.CountUnit(node, key, unit));
        else return Whole(node, number, key, least, 1_000_000);
        return least;
    }

    /// <summary>A whole number without a unit.</summary>
    public int Whole(string key, int least, int most) => RequiredText(key, "1") is { } node ? Whole(node, node.Text, key, least, most) : least;

    /// <summary>A plain number: a factor or a share.</summary>
    public double Number(string key, double least, double most)
    {
        string range = string.Create(CultureInfo.InvariantCulture, $"a number from {least} to {most}");
        if (RequiredText(key, "1") is not { } node) return least;
        if (!double.TryParse(node.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) binding.Report(ValueProblems.Number(node, key, range));
        else if (!(number >= least && number <= most)) binding.Report(ValueProblems.Range(node, key, range));
        else return number;
        return least;
    }

    public bool Flag(string key, bool missing = false)
    {
        if (Find(key) is not { } node || AsText(node, key) is not { } text) return missing;
        if (text.Text is "true" or "false") return text.Text == "true";
        binding.Report(ValueProblems.Choice(text, key, ["true", "false"]));
        return missing;
    }

    public T Choice<T>(string key, params ReadOnlySpan<(string Word, T Value)> choices) =>
        RequiredText(key, choices[0].Word) is { } node ? Choose(node, key, choices) : choices[0].Value;

    public T? OptionalChoice<T>(string key, params ReadOnlySpan<(string Word, T Value)> choices) where T : struct =>
        Find(key) is { } node && AsText(node, key) is { } text ? Choose(text, key, choices) : null;

    /// <summary>One of some words, in a list.</summary>
    public T ChoiceOf<T>(TextNode node, string key, params ReadOnlySpan<(string Word, T Value)> choices) => Choose(node, key, choices);

    /// <summary>A figure at the start of a text, and what follows it.</summary>
    public static (string Number, string Unit) SplitNumber(string text)
    {
        string trimmed = text.Trim();
        int split = 0;
        while (split < trimmed.Length && (IsFigure(trimmed[split]) || (trimmed[split] is 'e' or 'E' && split > 0 && split + 1 < trimmed.Length && IsFigure(trimmed[split + 1])))) split++;
        return (trimmed[..split], trimmed[split..].Trim());
    }

    private static bool IsFigure(char letter) => char.IsAsciiDigit(letter) || letter is '.' or '-' or '+';

    private T Choose<T>(TextNode node, string key, ReadOnlySpan<(string Word, T Value)> choices)
    {
        List<string> words = [];
        foreach ((string word, T value) in choices)
        {
            if (word == node.Text) return value;
            words.Add(word);
        }
        binding.Report(ValueProblems.Choice(node, key, words));
        return choices[0].Value;
    }

    private Quantity? Quantity(TextNode node, string key, Dimension? dimension)
    {
        if (Model.Quantity.TryParse(node.Text, dimension, out Quantity quantity, out _)) return quantity;
        Dimension wanted = dimension ?? Dimension.Time;
        (string number, string unit) = SplitNumber(node.Text);
        bool figure = double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value);
        binding.Report(
            Model.Quantity.TryParse(node.Text, null, out Quantity other, out _) ? ValueProblems.UnitWrong(node, key, other.Dimension, wanted)
            : !figure || (unit.Length > 0 && !char.IsLetter(unit[0])) ? ValueProblems.Number(node, key, $"a {ValueProblems.Named(wanted)} with its unit, such as '2 {ValueProblems.Example(wanted)}'")
            : unit.Length == 0 ? ValueProblems.UnitMissing(node, key, wanted)
            : ValueProblems.UnitUnknown(node, key, unit, wanted));
        return null;
    }

    private Duration Time(TextNode node, string key, int least, bool down)
    {
        Duration fallback = Duration.FromSeconds(least);
        if (Quantity(node, key, Dimension.Time) is not { } quantity) return fallback;
        double seconds = quantity.Value;
        if (!(seconds >= least && seconds <= LongestTime.Seconds))
        {
            binding.Report(ValueProblems.Range(node, key, $"a time from {fallback} to 24 h"));
            return fallback;
        }
        return down ? Duration.FromSeconds((int)Math.Floor(seconds + 1e-9)) : Duration.CeilingFromSeconds(seconds);
    }

    private Pet Pet(TextNode node, string key)
    {
        if (!Model.Pet.TryParse(node.Text, out Pet pet)) binding.Report(ValueProblems.Form(node, key, "a moment of PET, hours and minutes", "\"3:10\" or \"3:10:30\""));
        else if (Math.Abs(pet.Seconds) > FarthestPet.Seconds) binding.Report(ValueProblems.Range(node, key, "a moment within 48 h of PET zero"));
        return pet;
    }

    private int Whole(TextNode node, string text, string key, int least, int most)
    {
        string range = $"a whole number from {least} to {most}";
        if (!int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number)) binding.Report(ValueProblems.Whole(node, key, range));
        else if (number < least || number > most) binding.Report(ValueProblems.Range(node, key, range));
        else return number;
        return least;
    }
}
