using System.Globalization;

namespace Sallyport.Desk;

/// <summary>The texts of problems with the station's model.</summary>
internal static class ModelProblems
{
    public static Problem NoFile(TextNode file, string path) =>
        FileProblems.At(file.Place, "file.missing", $"'{file.Text}', which is not there ({path})", "a binary glTF 2.0 file in the folder of the scenario", "put the model there, correct the name, or delete the line: the modules are drawn then.");

    public static Problem TooLarge(TextNode file, long bytes) =>
        FileProblems.At(file.Place, "model.large", $"'{file.Text}' of {bytes.ToString("N0", CultureInfo.InvariantCulture)} bytes",
            $"at most {GlbFile.MostBytes.ToString("N0", CultureInfo.InvariantCulture)} bytes, since it goes into the page of the walk-through", "make the model simpler.");

    public static Problem Broken(TextNode file, string path, string fault) =>
        FileProblems.At(file.Place, "model.broken", $"{fault} ({path})", "a binary glTF 2.0 file of triangles in plain colours, whole in itself", "export the model anew, without pictures, compression or animation.");
}
