namespace Sallyport.Model;

/// <summary>The line that stands on every screen and document.</summary>
public static class Caution
{
    /// <summary>The caution, word for word.</summary>
    public const string Text = "Planning aid only: flight rules, safety, the flight surgeon and licensed practice decide.";
}
