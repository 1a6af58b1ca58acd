using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class Sgp4Tests
{
    // The printed figures end at 1e-8 km and 1e-9 km/s. The one set that is looser is followed over three and a half years at a
    // perigee passed at 10 km/s, where the last bit of the mean anomaly is a ten-thousandth of a millimetre.
    private const double Km = 1e-6, KmPerSecond = 1e-9;

    private static readonly List<Case> Cases = [.. Read()];

    public static TheoryData<int, string> Numbers() => [.. Cases.Select((one, i) => (i, one.Elements.Name))];

    [Theory, Reference("sgp4-verification")]
    [MemberData(nameof(Numbers))]
    public void Propagate_VerificationCase_GivesThePrintedStates(int number, string name)
    {
        Case one = Cases[number];
        Assert.Equal(name, one.Elements.Name);
        Sgp4 orbit = new(one.Elements);
        // The set whose first moment already fails has the row of the set before it printed again: it has no states.
        if (orbit.Propagate(0, out _) != Sgp4Fault.None) Assert.Single(one.Rows);
        else
            foreach (double[] row in one.Rows) AssertState(orbit, row);
    }

    // Where the printed rows end before the times that the elements ask for, the model gave up, for these reasons.
    [Fact, Reference("sgp4-verification")]
    public void Propagate_VerificationCaseThatEndsEarly_TellsTheFaultOfTheModel()
    {
        List<(string, Sgp4Fault)> faults = [];
        foreach (Case one in Cases)
        {
            Sgp4 orbit = new(one.Elements);
            double next = orbit.Propagate(0, out _) != Sgp4Fault.None ? 0 : one.Rows[^1][0] + one.Step;
            if (next > one.Stop) continue;
            Sgp4Fault fault = orbit.Propagate(next, out TemeState state);
            Assert.Equal(default, state);
            faults.Add((one.Elements.Name, fault));
        }
        Assert.Equal(
            [
                ("22312", Sgp4Fault.MeanEccentricity), ("28350", Sgp4Fault.MeanEccentricity), ("28872", Sgp4Fault.Decayed), ("29141", Sgp4Fault.Decayed),
                ("33333", Sgp4Fault.SemiLatusRectum), ("33334", Sgp4Fault.PerturbedEccentricity), ("20413", Sgp4Fault.Decayed),
            ], faults);
    }

    [Theory]
    [InlineData(0, 0.1)]
    [InlineData(-1, 0.1)]
    [InlineData(double.NaN, 0.1)]
    [InlineData(15, 1)]
    [InlineData(15, -0.1)]
    [InlineData(15, double.NaN)]
    public void Elements_OutOfRange_AreRefusedByName(double motion, double eccentricity)
    {
        OrbitElements bad = Cases[0].Elements with { MeanMotion = motion, Eccentricity = eccentricity };
        Assert.Equal("elements", Assert.Throws<ArgumentOutOfRangeException>(() => new Sgp4(bad)).ParamName);
    }

    private static void AssertState(Sgp4 orbit, double[] row)
    {
        Assert.Equal(Sgp4Fault.None, orbit.Propagate(row[0], out TemeState state));
        Vector3D place = state.Position - new Vector3D(row[1], row[2], row[3]), pace = state.Velocity - new Vector3D(row[4], row[5], row[6]);
        Assert.True(place.Length < Km && pace.Length < KmPerSecond, $"{orbit.Elements.Name} at {row[0]} min is off by {place.Length} km, {pace.Length} km/s");
    }

    [Fact, Reference("sgp4-verification")]
    public void Cases_AllOfThem_AreHere()
    {
        Assert.Equal(33, Cases.Count);
        Assert.Equal(667, Cases.Sum(one => one.Rows.Count));
        Assert.True(Cases.Count(one => new Sgp4(one.Elements).DeepSpace) > 15);
    }

    private static IEnumerable<Case> Read()
    {
        string[] elements = References.Lines("sgp4-verification", "elements.tle");
        List<List<double[]>> blocks = [];
        foreach (string line in References.Lines("sgp4-verification", "states.txt"))
        {
            string[] parts = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (parts is [_, "xx"]) blocks.Add([]);
            else blocks[^1].Add([.. parts.Take(7).Select(References.Number)]);
        }
        for (int i = 0; i < blocks.Count; i++)
        {
            string line2 = elements[2 * i + 1];
            string[] times = line2[69..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            yield return new(References.Tle(elements[2 * i], line2), blocks[i], References.Number(times[1]), References.Number(times[2]));
        }
    }

    private sealed record Case(OrbitElements Elements, List<double[]> Rows, double Stop, double Step);
}
