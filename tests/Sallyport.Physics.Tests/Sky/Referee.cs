using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Another program that is asked the same: a script beside its card, which Node runs.</summary>
internal static class Referee
{
    /// <summary>Gives a script its question as JSON and returns its answer.</summary>
    public static T Ask<T>(string id, string script, object question)
    {
        string folder = Path.Combine(References.Folder, id);
        Assert.SkipUnless(Directory.Exists(Path.Combine(folder, "node_modules")), $"the referee '{id}' is not installed; ./test.sh does it, or 'npm ci' in its folder");
        using Process node = Process.Start(new ProcessStartInfo("node", [script])
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> answer = node.StandardOutput.ReadToEndAsync(), complaint = node.StandardError.ReadToEndAsync();
        node.StandardInput.Write(JsonSerializer.Serialize(question));
        node.StandardInput.Close();
        node.WaitForExit();
        Assert.True(node.ExitCode == 0, complaint.Result);
        return JsonSerializer.Deserialize<T>(answer.Result)!;
    }
}
