using CsCheck;

namespace Sallyport.Desk.Tests;

public sealed class LineTextTests
{
    private static readonly Gen<string> Text = Gen.Select(Gen.Int[0, 5].Select(i => $"line {i}").Array[0, 12], Gen.Int[0, 2], Gen.Bool, (lines, end, last) =>
        string.Join(new[] { "\n", "\r\n", "\r" }[end], lines) + (last && lines.Length > 0 ? "\n" : ""));

    [Fact]
    public void Lines_Joined_AreTheText() => Text.Sample(text => Assert.Equal(text, string.Concat(LineText.Of(text))));

    [Fact]
    public void Differences_PutIntoTheOld_GiveTheNew() => Gen.Select(Text, Text).Sample((old, now) =>
    {
        string[] a = LineText.Of(old), b = LineText.Of(now);
        List<string> made = [];
        int at = 0;
        foreach (LineText.Hunk hunk in LineText.Differences(a, b))
        {
            made.AddRange(a[at..hunk.From]);
            made.AddRange(b[hunk.NewFrom..hunk.NewTo]);
            at = hunk.To;
        }
        made.AddRange(a[at..]);
        Assert.Equal(b, made);
    });

    [Fact]
    public void Merge_WithNothingOnOneSide_IsTheOther() => Gen.Select(Text, Text).Sample((old, now) =>
    {
        Assert.Equal(now, LineText.Merge(old, now, old));
        Assert.Equal(now, LineText.Merge(old, old, now));
    });

    [Fact]
    public void Merge_LosesNoLineOfEither() => Gen.Select(Text, Text, Text).Sample((old, mine, theirs) =>
    {
        if (LineText.Merge(old, mine, theirs) is not { } merged) return;
        string[] Come(string now) => [.. LineText.Differences(LineText.Of(old), LineText.Of(now)).SelectMany(hunk => LineText.Of(now)[hunk.NewFrom..hunk.NewTo]).Select(line => line.TrimEnd('\r', '\n'))];
        string[] lines = [.. LineText.Of(merged).Select(line => line.TrimEnd('\r', '\n'))];
        if (mine != theirs) Assert.All(Come(mine).Concat(Come(theirs)).GroupBy(line => line), line => Assert.True(lines.Count(one => one == line.Key) >= line.Count(), $"'{line.Key}' is lost"));
    });

    [Theory]
    [InlineData("a\nb\nc\n", "a\nB\nc\n", "a\nb\nC\n", "a\nB\nC\n")]
    [InlineData("a\nb\nc\n", "x\na\nb\nc\n", "a\nb\nc\ny\n", "x\na\nb\nc\ny\n")]
    [InlineData("a\nb\nc\n", "a\nB\nc\n", "a\nX\nc\n", null)]
    [InlineData("a\nb\nc\n", "a\nc\n", "a\nc\nb\n", null)]
    [InlineData("a\nb\n", "a\nx\nb\n", "a\ny\nb\n", null)]
    [InlineData("a\nb\n", "b\n", "b\n", "b\n")]
    [InlineData("a\nb", "a\nb\nc", "x\nb", "x\nb\nc")]
    public void Merge_OfTwoChanges_IsBothOrAConflict(string old, string mine, string theirs, string? merged) => Assert.Equal(merged, LineText.Merge(old, mine, theirs));

    [Theory]
    [InlineData("a\r\nb\r\n", "a\nx\nb\n", "a\r\nx\r\nb\r\n")]
    [InlineData("\uFEFFa\nb", "a\nc", "\uFEFFa\nc")]
    [InlineData("a\r\nb\nc\n", "a\nb\nd\n", "a\r\nb\nd\n")]
    public void InTheFormOf_KeepsWhatDidNotChange_ToTheByte(string original, string changed, string expected) => Assert.Equal(expected, LineText.InTheFormOf(original, changed));
}
