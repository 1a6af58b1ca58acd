using System.Text;

namespace Sallyport.Draw;

/// <summary>Gives out ids that are unique in one picture and well formed in XML.</summary>
internal sealed class Ids
{
    private readonly HashSet<string> taken = ["picture-title", "picture-description"];

    public string Take(string wish)
    {
        StringBuilder id = new();
        foreach (char letter in wish) id.Append(char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' or '.' ? letter : '-');
        if (id.Length == 0 || !char.IsAsciiLetter(id[0])) id.Insert(0, "x-");
        string unique = id.ToString();
        for (int i = 2; !taken.Add(unique); i++) unique = $"{id}-{i}";
        return unique;
    }
}
