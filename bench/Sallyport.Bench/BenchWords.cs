using System.Globalization;

namespace Sallyport.Bench;

/// <summary>What of the frozen family is run, and for how long.</summary>
/// <param name="words">Sizes, such as <c>25</c>, all without any; seeds, such as <c>1-4</c>; a time a case, such as <c>3s</c>; or epochs a case, such as
/// <c>40e</c>, which give the same plans on any machine; <c>alone</c> after epochs for one lane alone with ten times as many candidates.</param>
internal sealed class BenchWords(string[] words)
{
    private readonly int[] sizes = [.. words.Where(word => word.All(char.IsAsciiDigit)).Select(Whole)];
    private readonly int[] range = [.. words.Where(word => word.Contains('-')).Take(1).SelectMany(word => word.Split('-')).Select(Whole)];

    /// <summary>The sizes, legs.</summary>
    public IEnumerable<int> Sizes => FrozenFamily.Sizes.Where(size => sizes.Length == 0 || sizes.Contains(size));

    /// <summary>The seeds of each size.</summary>
    public IEnumerable<int> Seeds => FrozenFamily.Seeds.Where(seed => range.Length == 0 || (range[0] <= seed && seed <= range[^1]));

    /// <summary>The time a case, s; 10 without one.</summary>
    public double Seconds { get; } = words.Where(word => word.EndsWith('s')).Select(word => double.Parse(word[..^1], CultureInfo.InvariantCulture)).FirstOrDefault(10);

    /// <summary>Epochs a case; null where a time ends it.</summary>
    public int? Effort { get; } = words.Where(word => word.EndsWith('e') && char.IsAsciiDigit(word[0])).Select(word => (int?)Whole(word[..^1])).FirstOrDefault();

    /// <summary>Whether one lane anneals alone, ten times as many candidates as all lanes together.</summary>
    public bool IsAlone { get; } = words.Contains("alone");

    private static int Whole(string word) => int.Parse(word, CultureInfo.InvariantCulture);
}
