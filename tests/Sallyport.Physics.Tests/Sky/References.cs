using System.Globalization;
using Sallyport.Physics;

namespace Sallyport.Tests.Physics;

/// <summary>The published figures that lie beside their cards, and element sets read by columns, apart from the reader of the program.</summary>
internal static class References
{
    public static string Folder { get; } = RepositoryFolder.Of("tests", "References");

    public static string[] Lines(string id, string file) => File.ReadAllLines(Path.Combine(Folder, id, file));

    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>Reads two lines by the columns of the format; no checks.</summary>
    public static OrbitElements Tle(string line1, string line2)
    {
        int year = int.Parse(line1[18..20], CultureInfo.InvariantCulture);
        double day = Number(line1[20..32]);
        DateTime epoch = new DateTime(year < 57 ? 2000 + year : 1900 + year, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddTicks((long)Math.Round((day - 1) * TimeSpan.TicksPerDay));
        double drag = Number(line1[53] + "." + line1[54..59].Replace(' ', '0') + "e" + line1[59..61]);
        return new(
            line1[2..7], epoch, Number(line2[52..63]), Number("." + line2[26..33].Replace(' ', '0')), Number(line2[8..16]),
            Number(line2[17..25]), Number(line2[34..42]), Number(line2[43..51]), drag);
    }
}
