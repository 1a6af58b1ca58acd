using System.Globalization;
using System.Text;
using Sallyport.Physics;

namespace Sallyport.Desk.Tests;

public class OrbitReaderTests
{
    private const string Wrong = "09.-+eE=<>[]&;\n \t\0é";

    private static readonly DateTime Day = new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc);

    [Theory]
    [InlineData(Orbits.KeyValue)]
    [InlineData(Orbits.Xml)]
    [InlineData(Orbits.TwoLines)]
    public void Read_TheSameOrbitInAnyFormat_GivesTheSameElements(string text)
    {
        OrbitElements elements = Folders.Good(Orbits.Read(text));
        DateTime epoch = new DateTime(2031, 5, 11, 12, 30, 0, 864, DateTimeKind.Utc);
        Assert.Equal(DateTimeKind.Utc, elements.Epoch.Kind);
        // The two lines tell the epoch to 0.864 ms.
        Assert.InRange(Math.Abs((elements.Epoch - epoch).TotalMilliseconds), 0, 0.864);
        Assert.Equal(new OrbitElements("SKERRY", elements.Epoch, 15.3512, 0.0008123, 38.0123, 110.5, 40.25, 319.75, 0.00012345), elements);
    }

    [Fact]
    public void Read_TabsAndLineEndsOfAnyKind_AreTaken() =>
        Assert.Equal(Orbits.Read(Orbits.KeyValue).Value, Orbits.Read(Orbits.KeyValue.Replace("MEAN_MOTION = ", "\tMEAN_MOTION\t=\t").Replace("\n", "\r\n")).Value);

    // Read by the program's own reader, the published sets lead to the published states. Three sets were made to fail, with no checksums of their own.
    [Fact, Reference("sgp4-verification")]
    public void Read_PublishedTwoLineSets_LeadToThePrintedStates()
    {
        string folder = RepositoryFolder.Of("tests", "References", "sgp4-verification");
        string[] sets = File.ReadAllLines(Path.Combine(folder, "elements.tle")), states = File.ReadAllLines(Path.Combine(folder, "states.txt"));
        string[] firsts = [.. states.Where((_, i) => i > 0 && states[i - 1].EndsWith("xx", StringComparison.Ordinal))];
        int read = 0;
        List<string> refused = [];
        for (int i = 0; i < firsts.Length; i++)
        {
            ReadResult<OrbitElements> result = Orbits.Read($"{sets[2 * i]}\n{sets[2 * i + 1][..69]}\n");
            if (result.Value is not { } elements)
            {
                refused.Add($"{sets[2 * i][2..7]} {result.Problems[0].Code}");
                continue;
            }
            double[] row = [.. firsts[i].Split(' ', StringSplitOptions.RemoveEmptyEntries).Take(4).Select(text => double.Parse(text, CultureInfo.InvariantCulture))];
            Assert.Equal(Sgp4Fault.None, new Sgp4(elements).Propagate(row[0], out TemeState state));
            Assert.True((state.Position - new Vector3D(row[1], row[2], row[3])).Length < 1e-6, sets[2 * i]);
            read++;
        }
        Assert.Equal(["33333 orbit.checksum", "33334 orbit.checksum", "33335 orbit.checksum"], refused);
        Assert.Equal(30, read);
    }

    [Fact]
    public void Read_ElementsOfSomeAge_AreNotedThenRefused()
    {
        ReadResult<OrbitElements> fresh = Orbits.Read(Orbits.KeyValue, new(Day, Day.AddHours(7), 3, 30));
        Assert.True(fresh.Ok && fresh.Notes.IsEmpty);
        ReadResult<OrbitElements> stale = Orbits.Read(Orbits.KeyValue, new(Day.AddDays(9), Day.AddDays(9.25), 3, 30));
        Assert.True(stale.Ok);
        Assert.Equal(["The elements of SKERRY are 10.1 days from the sortie, more than 3: day, night and links may be minutes off. Get newer ones before the day."], stale.Notes);
        Assert.Equal(
            ["orbit.txt:13:9: orbit.old | an epoch of 1999-05-11 12:30 UTC, 11688.8 days from 2031-05-12 | at most 30 days | get newer elements, or check the date of the sortie."],
            Orbits.Told(Orbits.KeyValue, "EPOCH = 2031", "EPOCH = 1999", new(Day, Day, 3, 30)));
    }

    [Fact]
    public void Read_AnOrbitThatDecaysBeforeTheSortie_IsRefusedWithTheCodeOfTheModel()
    {
        string low = Orbits.KeyValue.Replace("15.35120000", "16.4").Replace("0.00012345", "0.02");
        ReadResult<OrbitElements> result = Orbits.Read(low, new(Day.AddDays(4), Day.AddDays(4.25), 30, 30));
        Assert.Null(result.Value);
        Problem problem = Assert.Single(result.Problems);
        Assert.Equal((14, 15), (problem.Line, problem.Column));
        Assert.Contains(problem.Code, (string[])["orbit.decayed", "orbit.lost"]);
        Assert.Contains("SGP4 code", problem.Found);
    }

    [Fact]
    public void Read_AFileThatIsNotThere_SaysSo()
    {
        ReadResult<OrbitElements> result = OrbitReader.Read("no-such-orbit.txt", "no-such-orbit.txt", null);
        Assert.Equal("file.unreadable", Assert.Single(result.Problems).Code);
    }

    // Whatever is cut off, doubled or replaced, reading ends with elements or with problems that say where.
    [Theory]
    [InlineData(Orbits.KeyValue)]
    [InlineData(Orbits.Xml)]
    [InlineData(Orbits.TwoLines)]
    public void Read_DamagedText_NeverThrowsAndAlwaysSaysWhere(string text)
    {
        Random random = new(9);
        int refused = 0;
        for (int i = 0; i < 2000; i++)
        {
            StringBuilder damaged = new(text);
            int at = random.Next(damaged.Length), length = Math.Min(random.Next(1, 40), damaged.Length - at);
            switch (random.Next(4))
            {
                case 0: damaged.Remove(at, length); break;
                case 1: damaged.Insert(at, text.AsSpan(at, length)); break;
                case 2: damaged[at] = Wrong[random.Next(Wrong.Length)]; break;
                default: damaged.Length = at; break;
            }
            ReadResult<OrbitElements> result = Orbits.Read(damaged.ToString());
            Assert.NotEqual(result.Ok, result.Problems.Length > 0);
            if (!result.Ok) refused++;
            Assert.All(result.Problems, problem => Assert.True(problem.Line >= 0 && problem.Fix.EndsWith('.') && problem.Expected.Length > 0, problem.ToString()));
        }
        Assert.True(refused > 500, $"only {refused} refused");
    }
}
