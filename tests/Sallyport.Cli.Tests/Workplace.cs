using System.Diagnostics;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary>A folder of its own with a copy of the scenarios, in which the built program is run as a user runs it; gone after the test.</summary>
public sealed class Workplace : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(4);

    public Workplace(params string[] scenarios)
    {
        foreach (string scenario in scenarios)
        {
            string from = RepositoryFolder.Of("scenarios", scenario);
            foreach (string file in Directory.GetFiles(from, "*", SearchOption.AllDirectories).Where(file => file.EndsWith(".yaml", StringComparison.Ordinal) || file.EndsWith(".omm", StringComparison.Ordinal)))
            {
                string to = PathOf(System.IO.Path.Combine("scenarios", scenario, System.IO.Path.GetRelativePath(from, file)));
                Directory.CreateDirectory(System.IO.Path.GetDirectoryName(to)!);
                File.Copy(file, to);
            }
        }
    }

    public string Path { get; } = Directory.CreateTempSubdirectory("sallyport-").FullName;

    public string PathOf(string name) => System.IO.Path.Combine(Path, name);

    public string Read(string name) => File.ReadAllText(PathOf(name));

    public byte[] Bytes(string name) => File.ReadAllBytes(PathOf(name));

    public void Write(string name, string text)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(PathOf(name))!);
        File.WriteAllText(PathOf(name), text);
    }

    /// <summary>Puts one text of a file in place of another, which must stand in it exactly once, and writes it under the same or another name.</summary>
    public void Edit(string name, string from, string to, string? into = null) => Edit(name, [(from, to)], into);

    public void Edit(string name, (string From, string To)[] changes, string? into = null)
    {
        string text = Read(name);
        foreach ((string from, string to) in changes)
        {
            int at = text.IndexOf(from, StringComparison.Ordinal);
            Assert.True(at >= 0 && text.IndexOf(from, at + 1, StringComparison.Ordinal) < 0, $"'{from}' does not stand in {name} exactly once");
            text = text.Replace(from, to);
        }
        Write(into ?? name, text);
    }

    /// <summary>Every file, with its content as text, so that two moments can be compared.</summary>
    public SortedDictionary<string, string> Files() => new(
        Directory.GetFiles(Path, "*", SearchOption.AllDirectories)
            .ToDictionary(file => System.IO.Path.GetRelativePath(Path, file), file => Convert.ToHexString(File.ReadAllBytes(file))), StringComparer.Ordinal);

    /// <summary>Runs the program to its end, its outputs into pipes.</summary>
    public Result Run(params string[] words)
    {
        using Process process = Start(words);
        return Finish(process);
    }

    /// <summary>Starts the program and sends it an interrupt once <paramref name="when"/> holds.</summary>
    public Result RunAndInterrupt(Func<Process, bool> when, params string[] words)
    {
        using Process process = Start(words);
        Stopwatch waited = Stopwatch.StartNew();
        while (!process.HasExited && !when(process) && waited.Elapsed < Patience) Thread.Sleep(10);
        if (!process.HasExited)
        {
            using Process kill = Process.Start("kill", ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
            kill.WaitForExit();
        }
        return Finish(process);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);

    private Process Start(string[] words)
    {
        // Whoever runs the tests in the background may have interrupts ignored, and children inherit that.
        bool linux = OperatingSystem.IsLinux();
        ProcessStartInfo start = new(linux ? "env" : "dotnet")
        {
            WorkingDirectory = Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
            StandardOutputEncoding = System.Text.Encoding.UTF8,
            StandardErrorEncoding = System.Text.Encoding.UTF8,
        };
        if (linux)
        {
            start.ArgumentList.Add("--default-signal=INT");
            start.ArgumentList.Add("dotnet");
        }
        start.ArgumentList.Add(System.IO.Path.Combine(AppContext.BaseDirectory, "sallyport.dll"));
        foreach (string word in words) start.ArgumentList.Add(word);
        Process process = Process.Start(start)!;
        process.StandardInput.Close();
        return process;
    }

    private static Result Finish(Process process)
    {
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(Patience))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"the program did not end within {Patience}");
        }
        return new(process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
    }
}

/// <summary>What a run of the program came to.</summary>
public sealed record Result(int Exit, string Out, string Err)
{
    /// <summary>Asserts the exit code and shows both outputs when it is another.</summary>
    public Result Ended(int exit)
    {
        Assert.True(Exit == exit, $"ended with {Exit}, expected {exit}\n--- out\n{Out}\n--- err\n{Err}");
        return this;
    }

    /// <summary>Asserts that the findings break exactly these rules, each once or more, and no other.</summary>
    public Result Broke(params string[] rules)
    {
        IEnumerable<string> broken = Out.Split('\n').Where(line => line.StartsWith("  BROKEN ", StringComparison.Ordinal)).Select(line => line.Split(' ')[3]).Distinct();
        Assert.Equal(rules.Order(), broken.Order());
        return this;
    }

    /// <summary>Asserts that standard output holds a plan with the caution and nothing of what belongs on standard error.</summary>
    public Result ShowedPlan()
    {
        Assert.Contains(Caution.Text, Out);
        Assert.Contains("Not checked by this version", Out);
        Assert.DoesNotContain("Wrote:", Out);
        Assert.DoesNotContain('\r', Out);
        Assert.DoesNotContain('\u001b', Out + Err);
        Assert.DoesNotContain("searching", Err);
        return this;
    }
}
