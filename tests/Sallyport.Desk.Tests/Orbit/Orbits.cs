using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>One invented orbit in the three formats, and reading them changed in one place.</summary>
internal static class Orbits
{
    public const string KeyValue = """
        CCSDS_OMM_VERS = 3.0
        COMMENT invented for tests
        CREATION_DATE = 2031-05-11T20:00:00
        ORIGINATOR = SHIPYARD

        OBJECT_NAME = SKERRY
        OBJECT_ID = 2029-003A
        CENTER_NAME = EARTH
        REF_FRAME = TEME
        TIME_SYSTEM = UTC
        MEAN_ELEMENT_THEORY = SGP4

        EPOCH = 2031-05-11T12:30:00.864
        MEAN_MOTION = 15.35120000 [rev/day]
        ECCENTRICITY = 0.0008123
        INCLINATION = 38.0123 [deg]
        RA_OF_ASC_NODE = 110.5000 [deg]
        ARG_OF_PERICENTER = 40.2500 [deg]
        MEAN_ANOMALY = 319.7500 [deg]
        EPHEMERIS_TYPE = 0
        NORAD_CAT_ID = 99001
        BSTAR = 0.00012345 [1/ER]
        MEAN_MOTION_DOT = 0.00001
        MEAN_MOTION_DDOT = 0
        """;

    public const string Xml = """
        <?xml version="1.0" encoding="UTF-8"?>
        <ndm>
          <omm id="CCSDS_OMM_VERS" version="3.0">
            <header><COMMENT>invented for tests</COMMENT><CREATION_DATE>2031-05-11T20:00:00</CREATION_DATE><ORIGINATOR>SHIPYARD</ORIGINATOR></header>
            <body><segment>
              <metadata>
                <OBJECT_NAME>SKERRY</OBJECT_NAME><OBJECT_ID>2029-003A</OBJECT_ID>
                <CENTER_NAME>EARTH</CENTER_NAME>
                <REF_FRAME>TEME</REF_FRAME>
                <TIME_SYSTEM>UTC</TIME_SYSTEM>
                <MEAN_ELEMENT_THEORY>SGP4</MEAN_ELEMENT_THEORY>
              </metadata>
              <data>
                <meanElements>
                  <EPOCH>2031-131T12:30:00.864Z</EPOCH>
                  <MEAN_MOTION units="rev/day">15.35120000</MEAN_MOTION>
                  <ECCENTRICITY>.0008123</ECCENTRICITY>
                  <INCLINATION units="deg">38.0123</INCLINATION>
                  <RA_OF_ASC_NODE>110.5</RA_OF_ASC_NODE>
                  <ARG_OF_PERICENTER>40.25</ARG_OF_PERICENTER>
                  <MEAN_ANOMALY>319.75</MEAN_ANOMALY>
                </meanElements>
                <tleParameters><EPHEMERIS_TYPE>0</EPHEMERIS_TYPE><NORAD_CAT_ID>99001</NORAD_CAT_ID><BSTAR units="1/ER">1.2345E-4</BSTAR></tleParameters>
                <userDefinedParameters><USER_DEFINED parameter="NOTE">none</USER_DEFINED></userDefinedParameters>
              </data>
            </segment></body>
          </omm>
        </ndm>
        """;

    public const string TwoLines = """
        SKERRY
        1 99001U 29003A   31131.52084333  .00001000  00000-0  12345-3 0    13
        2 99001  38.0123 110.5000 0008123  40.2500 319.7500 15.35120000 12342
        """;

    public static ReadResult<Physics.OrbitElements> Read(string text, OrbitUse? use = null) => OrbitReader.Read(Encoding.UTF8.GetBytes(text), "orbit.txt", use);

    /// <summary>Every problem told of a text in which one part is put in place of another.</summary>
    public static string[] Told(string text, string from, string to, OrbitUse? use = null)
    {
        Assert.Contains(from, text);
        ReadResult<Physics.OrbitElements> result = Read(text.Replace(from, to), use);
        Assert.Null(result.Value);
        return [.. result.Problems.Select(BadInput.Told)];
    }
}
