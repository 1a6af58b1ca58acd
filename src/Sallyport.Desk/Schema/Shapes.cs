using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of single values and of lists, as JSON Schema. Each says what the reader takes, in the reader's own bounds, as far
/// as one value alone can tell; every call makes a new node, since a node stands in one place.</summary>
internal static class Shapes
{
    private const string Digits = @"(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2})?";
    private const string AnyNumber = "[+-]?" + Digits;
    private const string FromZero = @"\+?" + Digits;
    private const string AboveZero = @"\+?(?=[0-9.]*[1-9])" + Digits;
    private const string NameLetters = @"[\p{L}\p{Nd}_.-]+";
    private const string Clock = "(?:0?(?:[0-3]?[0-9]|4[0-7]):[0-5][0-9](?::[0-5][0-9])?|0?48:00(?::00)?)";

    /// <summary>Free text. The reader takes a plain number or flag for text where text is meant, so the schema does.</summary>
    public static JsonObject Text(string about, string example) => new()
    {
        ["description"] = about,
        ["type"] = new JsonArray("string", "number", "boolean"),
        ["pattern"] = @"\S",
        ["examples"] = new JsonArray(example),
    };

    /// <summary>A name that this thing is given.</summary>
    public static JsonObject Name(string about, string example, bool blanks = false)
    {
        JsonObject shape = Text($"{about} {(blanks ? "Letters, digits, '-', '_', '.', single blanks inside" : "Letters, digits, '-', '_', '.'")}; unique in its kind.", example);
        shape["pattern"] = NamePattern(blanks);
        shape["maxLength"] = 80;
        return shape;
    }

    public static string NamePattern(bool blanks) => blanks ? $"^{NameLetters}(?: {NameLetters})*$" : $"^{NameLetters}$";

    /// <summary>A text of one form, with an example of it.</summary>
    public static JsonObject Form(string about, string pattern, params ReadOnlySpan<string> examples) => new()
    {
        ["description"] = about,
        ["type"] = "string",
        ["pattern"] = pattern,
        ["examples"] = Strings(examples),
    };

    /// <summary>A figure with its unit; any dimension when none is named.</summary>
    public static JsonObject Figure(string about, Dimension? dimension, string example) => Figure(about, AnyNumber, dimension, example);

    public static JsonObject PositiveFigure(string about, Dimension dimension, string example) => Figure($"{about} More than zero{(dimension switch { Dimension.Length => ", at most 10 km", Dimension.Speed => ", at most 10 m/s", _ => "" })}.", AboveZero, dimension, example);

    public static JsonObject FigureFromZero(string about, Dimension dimension, string example) => Figure($"{about} Zero or more.", FromZero, dimension, example);

    /// <summary>A time of 1 s or more, or of zero or more.</summary>
    public static JsonObject Time(string about, string example, int least = 1) =>
        Figure($"{about} From {least} s to 24 h.", least > 0 ? AboveZero : FromZero, Dimension.Time, example);

    /// <summary><c>low / likely / high unit</c>.</summary>
    public static JsonObject StepTime(string about) => Form(
        $"{about} Low / likely / high, none below the one before, from 1 s to 24 h; the likely one is planned with. {UnitsOf(Dimension.Time)}",
        $@"^{AboveZero}(?:\s*{Alternatives(Dimension.Time)})?\s*/\s*{AboveZero}(?:\s*{Alternatives(Dimension.Time)})?\s*/\s*{AboveZero}\s*{Alternatives(Dimension.Time)}$",
        "3 / 4 / 7 min", "50 s / 2 min / 0.1 h");

    /// <summary><c>low / likely / high unit</c> of any dimension; all above zero with sign 1, zero or more with 0, of any sign with -1.</summary>
    public static JsonObject Estimate(string about, Dimension dimension, string example, int sign = 1)
    {
        string number = sign > 0 ? AboveZero : sign == 0 ? FromZero : AnyNumber, unit = Alternatives(dimension);
        return Form($"{about} Low / likely / high, none below the one before. {UnitsOf(dimension)}", $@"^{number}(?:\s*{unit})?\s*/\s*{number}(?:\s*{unit})?\s*/\s*{number}\s*{unit}$", example);
    }

    /// <summary><c>low / likely / high</c>, plain numbers.</summary>
    public static JsonObject Numbers(string about, double least, double most, string example) => Form(
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{about} Low / likely / high, none below the one before, from {least} to {most}."), $@"^{AboveZero}\s*/\s*{AboveZero}\s*/\s*{AboveZero}$", example);

    /// <summary>A moment of PET.</summary>
    public static JsonObject Pet(string about, string example) =>
        Form($"{about} PET as \"h:mm\" or \"h:mm:ss\" in quotes, signed, within 48 h of zero.", $"^[+-]?{Clock}$", example);

    /// <summary><c>x, y, z unit</c>.</summary>
    public static JsonObject Point(string about) => Form(
        $"{about} \"x, y, z unit\" in station axes: x forward, y starboard, z down; within 10 km. {UnitsOf(Dimension.Length)}",
        $@"^{AnyNumber}(?:\s*{Alternatives(Dimension.Length)})?\s*,\s*{AnyNumber}(?:\s*{Alternatives(Dimension.Length)})?\s*,\s*{AnyNumber}\s*{Alternatives(Dimension.Length)}$",
        "1, 0, 2.5 m");

    /// <summary>A whole count of at least one, with its unit.</summary>
    public static JsonObject Count(string about, string unit) =>
        Form($"{about} A whole number of {unit}, from 1.", $@"^\+?(?:0*[1-9][0-9]{{0,5}}|1000000)\s*{unit}$", $"2 {unit}");

    public static JsonObject Whole(string about, int least, int most, int example) => new()
    {
        ["description"] = about,
        ["type"] = "integer",
        ["minimum"] = least,
        ["maximum"] = most,
        ["examples"] = new JsonArray(example),
    };

    public static JsonObject Number(string about, double least, double most, double example) => new()
    {
        ["description"] = about,
        ["type"] = "number",
        ["minimum"] = least,
        ["maximum"] = most,
        ["examples"] = new JsonArray(example),
    };

    public static JsonObject Flag(string about, bool? missing = null)
    {
        JsonObject shape = new() { ["description"] = about, ["type"] = "boolean" };
        if (missing is { } value) shape["default"] = value;
        return shape;
    }

    public static JsonObject Choice(string about, params ReadOnlySpan<string> words) => new() { ["description"] = about, ["enum"] = Strings(words) };

    public static JsonObject List(string about, JsonNode item, bool filled = false)
    {
        JsonObject shape = new() { ["description"] = about, ["type"] = "array", ["items"] = item };
        if (filled) shape["minItems"] = 1;
        return shape;
    }

    /// <summary>A list of names or other texts, each once.</summary>
    public static JsonObject Texts(string about, string example, bool filled = false)
    {
        JsonObject shape = List(about, Text("One of them.", example), filled);
        shape["uniqueItems"] = true;
        return shape;
    }

    /// <summary>A map whose keys are names.</summary>
    public static JsonObject Entries(string about, JsonNode value) => new() { ["description"] = about, ["type"] = "object", ["additionalProperties"] = value };

    public static JsonArray Strings(params ReadOnlySpan<string> texts)
    {
        JsonArray array = [];
        foreach (string text in texts) array.Add(text);
        return array;
    }

    private static JsonObject Figure(string about, string number, Dimension? dimension, string example) =>
        Form($"{about} {UnitsOf(dimension)}", $@"^{number}\s*{Alternatives(dimension)}$", example);

    private static string[] Names(Dimension? dimension) => [.. Units.All.Where(unit => dimension is null || unit.Dimension == dimension).Select(unit => unit.Name)];

    private static string Alternatives(Dimension? dimension) => $"(?:{string.Join('|', Names(dimension))})";

    private static string UnitsOf(Dimension? dimension) => $"Units: {string.Join(", ", Names(dimension))}.";
}
