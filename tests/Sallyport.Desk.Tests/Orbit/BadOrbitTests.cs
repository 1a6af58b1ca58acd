namespace Sallyport.Desk.Tests;

/// <summary>What is told of a bad element set: place and code, found, expected, fix.</summary>
public class BadOrbitTests
{
    private const string Again = "copy the line again: one of its characters is wrong.";
    private const string Nothing = "get mean elements for SGP4: nothing is converted here.";

    [Theory]
    [InlineData("0008123  40", "0008223  40", "orbit.txt:3:69: orbit.checksum | the checksum '2' of line 2 | 3, as its digits give | " + Again)]
    [InlineData("12345-3", "12345-4", "orbit.txt:2:69: orbit.checksum | the checksum '3' of line 1 | 4, as its digits give | " + Again)]
    [InlineData("  12345-3", " 12345-3", "orbit.txt:2:69: orbit.line | a line of 68 characters here | line 1 of the set: '1', a blank, 69 characters in all | copy the line again, with all its blanks.")]
    [InlineData("\n2 99001", "\n3 99001", "orbit.txt:3:1: orbit.line | a line of 69 characters here | line 2 of the set: '2', a blank, 69 characters in all | copy the line again, with all its blanks.")]
    [InlineData("\n2 99001", "\n2 99010", "orbit.txt:3:3: orbit.number | the number '99010' | '99001', as in line 1 | put the two lines of one object together.")]
    [InlineData("SKERRY\n1", "SKERRY\nOTHER\n1", "orbit.txt:1:1: orbit.lines | 4 lines | two lines of elements, with a line of the name before them or not | keep one set, lines 1 and 2, and nothing else.")]
    public void TwoLines_Bad_IsTold(string from, string to, string told) => Assert.Equal([told], Orbits.Told(Orbits.TwoLines, from, to));

    [Theory]
    [InlineData("= EARTH", "= MOON", "orbit.txt:8:15: orbit.other | 'MOON' for CENTER_NAME | EARTH, the only one that SGP4 is for | " + Nothing)]
    [InlineData("= TEME", "= GCRF", "orbit.txt:9:13: orbit.other | 'GCRF' for REF_FRAME | TEME, the only one that SGP4 is for | " + Nothing)]
    [InlineData("= UTC", "= TAI", "orbit.txt:10:15: orbit.other | 'TAI' for TIME_SYSTEM | UTC, the only one that SGP4 is for | " + Nothing)]
    [InlineData("= SGP4", "= DSST", "orbit.txt:11:23: orbit.other | 'DSST' for MEAN_ELEMENT_THEORY | SGP4, the only one that SGP4 is for | " + Nothing)]
    [InlineData("EPHEMERIS_TYPE = 0", "EPHEMERIS_TYPE = 4", "orbit.txt:20:18: orbit.other | '4' for EPHEMERIS_TYPE | 0, the only one that SGP4 is for | " + Nothing)]
    [InlineData("0.0008123", "1.0008123", "orbit.txt:15:16: value.range | '1.0008123' for 'ECCENTRICITY' | at least 0 and below 1 | check the figure and its unit.")]
    [InlineData("38.0123", "238.0123", "orbit.txt:16:15: value.range | '238.0123' for 'INCLINATION' | 0 to 180 degrees | check the figure and its unit.")]
    [InlineData("15.35120000", "0", "orbit.txt:14:15: value.range | '0' for 'MEAN_MOTION' | 0.05 to 17 revolutions a day | check the figure and its unit.")]
    [InlineData("0.0008123", "NaN", "orbit.txt:15:16: number.unreadable | 'NaN' for 'ECCENTRICITY' | a number | write a figure, with a point before decimals.")]
    [InlineData("38.0123 [deg]", "0.6634 [rad]", "orbit.txt:16:15: unit.wrong | INCLINATION in [rad] | [deg] | write it in the unit of the standard, or leave the unit out if the figure is right.")]
    [InlineData("EPOCH = 2031-05-11T12:30:00.864", "EPOCH = 2031-05-32T12:30:00", "orbit.txt:13:9: value.form | '2031-05-32T12:30:00' for 'EPOCH' | an instant in UTC | write it like this: 2031-05-12T08:00:00.000.")]
    [InlineData("EPOCH = 2031", "EPOCH = 1931", "orbit.txt:13:9: value.range | '1931-05-11T12:30:00.864' for 'EPOCH' | years 1957 to 2100 | check the figure and its unit.")]
    [InlineData("OMM_VERS = 3.0", "OMM_VERS = 9.0", "orbit.txt:1:18: format.version | version '9.0' of the OMM | one of: 1.0, 2.0, 3.0 | ask for the message in a version that is read here.")]
    [InlineData("CCSDS_OMM_VERS", "CCSDS_OEM_VERS", "orbit.txt:1:1: orbit.format | 'CCSDS_OEM_VERS' | an OMM, which begins with CCSDS_OMM_VERS or holds one <omm>, or a two-line element set | give mean elements for SGP4 in one of these formats.")]
    [InlineData("BSTAR = 0.00012345 [1/ER]\n", "", "orbit.txt: key.missing | no BSTAR | all elements, and the centre, frame, time and theory they are for | add 'BSTAR = …' if that is what holds, or get the set from its source again.")]
    [InlineData("MEAN_ANOMALY = 319.7500 [deg]", "MEAN ANOMALY 319.75", "orbit.txt:19:1: orbit.line | a line without '=' | KEYWORD = value, or COMMENT and text | mend the line, or delete it.")]
    public void KeyValue_Bad_IsTold(string from, string to, string told) => Assert.Equal(told, Orbits.Told(Orbits.KeyValue, from, to)[0]);

    [Fact]
    public void KeyValue_UnknownKeyword_IsToldWithTheNearest()
    {
        ReadResult<Physics.OrbitElements> result = Orbits.Read(Orbits.KeyValue.Replace("ECCENTRICITY", "ECENTRICITY"));
        Assert.Equal("ECCENTRICITY", Assert.Single(result.Problems).Nearest);
    }

    // All of a file's problems are told at once.
    [Fact]
    public void KeyValue_SeveralBadValues_AreAllTold() =>
        Assert.Equal(
            ["orbit.other", "value.range", "number.unreadable"],
            Orbits.Read(Orbits.KeyValue.Replace("= TEME", "= EME2000").Replace("38.0123", "-38").Replace("110.5000", "110,5")).Problems.Select(problem => problem.Code));

    [Theory]
    [InlineData(">EARTH<", ">MARS<", "orbit.txt:8:22: orbit.other | 'MARS' for CENTER_NAME | EARTH, the only one that SGP4 is for | " + Nothing)]
    [InlineData("units=\"deg\">38.0123", "units=\"rad\">38.0123", "orbit.txt:18:36: unit.wrong | INCLINATION in [rad] | [deg] | write it in the unit of the standard, or leave the unit out if the figure is right.")]
    [InlineData(" version=\"3.0\">", ">", "orbit.txt:3:4: format.version | no version of the OMM | one of: 1.0, 2.0, 3.0 | ask for the message in a version that is read here.")]
    [InlineData("omm", "oem", "orbit.txt:3:4: orbit.format | 'oem' | an OMM, which begins with CCSDS_OMM_VERS or holds one <omm>, or a two-line element set | give mean elements for SGP4 in one of these formats.")]
    public void Xml_Bad_IsTold(string from, string to, string told) => Assert.Equal(told, Orbits.Told(Orbits.Xml, from, to)[0]);

    [Theory]
    [InlineData("</ndm>", "", "file.syntax")]
    [InlineData("<ndm>", "<!DOCTYPE ndm [<!ENTITY e SYSTEM \"orbit.txt\">]><ndm>", "file.syntax")]
    [InlineData("</body>", "</bodies>", "file.syntax")]
    public void Xml_NotWellFormedOrWithADocumentType_IsASyntaxProblem(string from, string to, string code) =>
        Assert.StartsWith($"orbit.txt:", Assert.Single(Orbits.Told(Orbits.Xml, from, to), told => told.Contains(code)));

    [Fact]
    public void Xml_TwoSets_AreRefused()
    {
        string second = Orbits.Xml[Orbits.Xml.IndexOf("<omm", StringComparison.Ordinal)..].Replace("</ndm>", "");
        Assert.Contains(Orbits.Read(Orbits.Xml.Replace("</ndm>", second + "</ndm>")).Problems, problem => problem.Code == "orbit.several");
    }
}
