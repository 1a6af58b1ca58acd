namespace Sallyport.Model;

/// <summary>The line that every screen and every document carries.</summary>
public static class Caution
{
    /// <summary>The line itself, word for word.</summary>
    public const string Text = "Planning aid only: flight rules, safety, the flight surgeon and licensed practice decide.";
}
