using System.Xml;

namespace Sallyport.Desk;

/// <summary>An OMM as XML: an <c>omm</c>, alone or the only one in an <c>ndm</c>.</summary>
internal static class XmlElements
{
    private static readonly HashSet<string> Around =
        ["ndm", "omm", "header", "body", "segment", "metadata", "data", "meanElements", "tleParameters", "spacecraftParameters", "covarianceMatrix", "userDefinedParameters"];

    public static void Read(SourceText source, OrbitFields fields)
    {
        // No document type, no outside entity: a file names nothing but itself.
        XmlReaderSettings settings = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true };
        try
        {
            using XmlReader reader = XmlReader.Create(new StringReader(source.Text), settings);
            Read(reader, (IXmlLineInfo)reader, source, fields);
        }
        catch (XmlException e)
        {
            string message = e.Message;
            int end = message.LastIndexOf(" Line ", StringComparison.Ordinal);
            fields.Report(FileProblems.Syntax(new(source, Math.Max(1, e.LineNumber), Math.Max(1, e.LinePosition)), end > 0 ? message[..end] : message));
        }
    }

    private static void Read(XmlReader reader, IXmlLineInfo at, SourceText source, OrbitFields fields)
    {
        string? open = null, unit = null;
        bool found = false;
        while (reader.Read())
        {
            Place place = new(source, at.LineNumber, at.LinePosition);
            switch (reader.NodeType)
            {
                case XmlNodeType.Element when reader.LocalName == "omm":
                    found = true;
                    string version = reader.GetAttribute("version") ?? "";
                    if (!OrbitProblems.Versions.Contains(version)) fields.Report(OrbitProblems.OtherVersion(place, version));
                    fields.Add("CCSDS_OMM_VERS", version, place.Line, place.Column);
                    break;
                case XmlNodeType.Element when !found && reader.LocalName != "ndm":
                    fields.Report(OrbitProblems.OtherMessage(place, reader.LocalName));
                    return;
                case XmlNodeType.Element when Around.Contains(reader.LocalName):
                    open = null;
                    break;
                case XmlNodeType.Element:
                    (open, unit) = (reader.LocalName, reader.GetAttribute("units"));
                    if (reader.IsEmptyElement) open = null;
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA when open is not null && open is not "COMMENT" and not "USER_DEFINED":
                    string text = reader.Value;
                    fields.Add(open, text.Trim(), place.Line, place.Column + (text.Length - text.TrimStart().Length), unit);
                    open = null;
                    break;
                case XmlNodeType.EndElement:
                    open = null;
                    break;
            }
        }
        if (!found) fields.Report(OrbitProblems.OtherMessage(new(source, 1, 1), "ndm"));
    }
}
