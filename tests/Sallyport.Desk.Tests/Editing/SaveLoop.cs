using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>This program started again as one that saves over and over until it is killed: by an environment variable, before any test is looked for.</summary>
internal static class SaveLoop
{
    public const string Variable = "SALLYPORT_TEST_SAVES_IN", File = "jobs.yaml";

    private const int Lines = 20_000;

    /// <summary>One version of the file: every line says which, so that a mix or a cut shows.</summary>
    public static byte[] Version(int number)
    {
        string line = string.Create(CultureInfo.InvariantCulture, $"# version {number:000000}\n");
        return Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(line, Lines)));
    }

    /// <summary>Which version bytes are; null when they are none, whole.</summary>
    public static int? VersionOf(byte[] bytes)
    {
        string text = Encoding.UTF8.GetString(bytes);
        return text.Length > 17 && int.TryParse(text.AsSpan(10, 6), NumberStyles.None, CultureInfo.InvariantCulture, out int number) && bytes.AsSpan().SequenceEqual(Version(number)) ? number : null;
    }

    [ModuleInitializer]
    internal static void Run()
    {
        if (Environment.GetEnvironmentVariable(Variable) is not { Length: > 0 } folder) return;
        int first = VersionOf(System.IO.File.ReadAllBytes(Path.Combine(folder, File))) ?? -1;
        for (int number = first + 1; number < 999_999; number++)
        {
            if (PlanFiles.WriteAll(folder, [(File, Version(number))]) is { } problem)
            {
                Console.Error.WriteLine(problem);
                Environment.Exit(3);
            }
            if (number == first + 1) Console.Out.WriteLine("saving");
        }
    }
}
