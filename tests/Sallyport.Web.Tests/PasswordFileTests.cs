using Sallyport.Web;

namespace Sallyport.Tests.Web;

/// <summary>The file of those who may sign in.</summary>
public sealed class PasswordFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("sallyport-passwords-").FullName;

    private string File_ => Path.Combine(folder, "passwords");

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void Add_Somebody_SignsInWithThatPasswordAlone()
    {
        Assert.Null(PasswordFile.Add(File_, "ada", Roles.Planner, "four plain words here"));
        PasswordFile file = PasswordFile.Open(File_).File!;
        Assert.Equal(Roles.Planner, file.SignIn("ada", "four plain words here")?.Role);
        Assert.Null(file.SignIn("ada", "four plain words herE"));
        Assert.Null(file.SignIn("Ada", "four plain words here"));
        string text = File.ReadAllText(File_);
        Assert.DoesNotContain("four plain", text);
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(File_));
    }

    [Fact]
    public void Add_TheSameAgain_ChangesThatLineAlone()
    {
        File.WriteAllText(File_, "# ours\n");
        PasswordFile.Add(File_, "ada", Roles.Planner, "four plain words here");
        PasswordFile.Add(File_, "vera", Roles.Viewer, "four other words here");
        string[] before = File.ReadAllLines(File_);
        Assert.Null(PasswordFile.Add(File_, "ada", Roles.Viewer, "five quite other words here"));
        string[] after = File.ReadAllLines(File_);
        Assert.Equal(before.Length, after.Length);
        Assert.Contains("# ours", after);
        Assert.Contains(before.Single(line => line.StartsWith("vera", StringComparison.Ordinal)), after);
        Assert.Equal(Roles.Viewer, PasswordFile.Open(File_).File!.SignIn("ada", "five quite other words here")?.Role);
    }

    [Theory]
    [InlineData("ada", "planner", "elevenchars", "12 to 200")]
    [InlineData("ada", "admin", "four plain words here", "viewer or planner")]
    [InlineData("a b", "planner", "four plain words here", "no name")]
    [InlineData("", "planner", "four plain words here", "no name")]
    public void Add_WhatCannotBe_SaysWhyAndWritesNothing(string name, string role, string password, string expected)
    {
        Assert.Contains(expected, PasswordFile.Add(File_, name, role, password));
        Assert.False(File.Exists(File_));
    }

    [Theory]
    [InlineData("# ours\nada planner\n", ":2:1: 2 words")]
    [InlineData("ada boss hash\n", ":1:5: the role 'boss'")]
    [InlineData("# nobody\n", "nobody in it")]
    public void Open_AFileThatIsOff_NamesThePlace(string text, string expected)
    {
        File.WriteAllText(File_, text);
        (PasswordFile? file, string? trouble) = PasswordFile.Open(File_);
        Assert.Null(file);
        Assert.Contains(expected, trouble);
    }

    [Fact]
    public void Open_AFileThatIsNotThere_SaysHowToMakeOne() => Assert.Contains("--add", PasswordFile.Open(File_).Trouble);
}
