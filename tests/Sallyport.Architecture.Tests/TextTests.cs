using System.Text.RegularExpressions;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Architecture;

/// <summary>What no file of the repository may hold. The patterns are put together here so that this file does not hold them either.</summary>
public class TextTests
{
    private static readonly Regex PackageHost = new(@"\b(nuget|npmjs|yarnpkg|pypi|pythonhosted|debian)\." + @"(org|com|io)\b", RegexOptions.IgnoreCase);

    private static readonly Regex MachinePath = new(@"(?<![\w.:/-])(file://)?/" + @"(work|root|tmp|home)\b(/|(?![\w-]))|\b[A-Z]:\\" + "Users");

    private static readonly Regex EmptyTest = new(
        @"Assert\.True\(\s*" + @"true\s*[,)]|Assert\.False\(\s*" + @"false\s*[,)]|\bSkip\s*=\s*" + "\"|\bExplicit\\s*=\\s*" + "true");

    [Fact]
    public void File_Any_NamesNoPackageHost() => AssertNowhere(PackageHost, "");

    [Fact]
    public void File_Any_HoldsNoPathOfOneMachine() => AssertNowhere(MachinePath, "");

    [Fact]
    public void File_Source_HoldsNoTestThatCannotFail() => AssertNowhere(EmptyTest, ".cs");

    [Fact]
    public void Readme_TheCaution_StandsWordForWord() => Assert.Contains(Caution.Text, Repository.Texts["README.md"]);

    // The checks themselves, seen to work.
    [Fact]
    public void Patterns_WhatTheyLookFor_IsFound()
    {
        Assert.Matches(PackageHost, "https://api.nuget." + "org/v3");
        Assert.Matches(MachinePath, "see /" + "tmp/x");
        Assert.Matches(MachinePath, "\"/" + "root\"");
        Assert.Matches(MachinePath, "file:///" + "home/me");
        Assert.DoesNotMatch(MachinePath, "heat/work/rest and /workshop");
        Assert.Matches(EmptyTest, "Assert.True(" + "true);");
        Assert.Matches(EmptyTest, "[Fact(Skip " + "= \"later\")]");
        Assert.DoesNotMatch(EmptyTest, "Assert.True(trueNorth);");
    }

    private static void AssertNowhere(Regex pattern, string end)
    {
        Assert.True(Repository.Texts.Count > 20, "too few files were found to say anything of the repository");
        Assert.Empty(Repository.Under("", end).SelectMany(file => pattern.Matches(file.Value).Select(match => $"{file.Key}: {match.Value}")));
    }
}
