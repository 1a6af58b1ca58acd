using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>One durative action: what it needs at its start, all through and at its end, and what it does. Each literal is written as a
/// timed effect of its own, which every form of the grammar allows.</summary>
internal sealed class ImageAction(string name, Pet start, int length, int least, IEnumerable<PersonId> people)
{
    /// <summary>An action that nobody does, of what goes on by itself between two moments.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="start">The first moment.</param>
    /// <param name="length">From there to the last, s.</param>
    /// <param name="inside">How far inside the two moments it lies, s.</param>
    public static ImageAction Between(string name, Pet start, int length, decimal inside) => new(name, start, length, length, []) { Later = inside };

    private readonly List<string> conditions = [];
    private readonly List<string> effects = [];

    public string Name => name;

    public Pet Start => start;

    /// <summary>How much later than its moment it begins, and how much sooner it ends, s.</summary>
    public decimal Later { get; private init; }

    /// <summary>How long the timeline gives it, s.</summary>
    public int Length => length;

    /// <summary>The people outside who take part.</summary>
    public IEnumerable<PersonId> People => people;

    public ImageAction NeedsAtStart(string condition) => Add(conditions, $"(at start {condition})");

    /// <summary>Between the start and the end, and at neither.</summary>
    public ImageAction NeedsBetween(string condition) => Add(conditions, $"(over all {condition})");

    /// <summary>From the start on.</summary>
    public ImageAction NeedsThroughout(string condition) => NeedsAtStart(condition).NeedsBetween(condition);

    public ImageAction NeedsAtEnd(string condition) => Add(conditions, $"(at end {condition})");

    public ImageAction Begins(string literal) => Add(effects, $"(at start {literal})");

    public ImageAction BeginsWhen(string condition, string literal) => Add(effects, $"(when (at start {condition}) (at start {literal}))");

    public ImageAction Ends(string literal) => Add(effects, $"(at end {literal})");

    public ImageAction EndsWhen(string condition, string literal) => Add(effects, $"(when (at end {condition}) (at end {literal}))");

    /// <summary>That somebody or something does nothing else meanwhile.</summary>
    public ImageAction TakesUp(string worker) => NeedsAtStart($"(idle {worker})").Begins($"(not (idle {worker}))").Ends($"(idle {worker})");

    /// <summary>The moments at which it writes one of these facts.</summary>
    public IEnumerable<Pet> Changes(HashSet<string> facts)
    {
        bool Writes(string when) => effects.Any(effect => effect.LastIndexOf(when, StringComparison.Ordinal) is >= 0 and var at && facts.Any(fact => effect.IndexOf(fact, at, StringComparison.Ordinal) >= 0));
        if (Writes("(at start ")) yield return start;
        if (Writes("(at end ")) yield return start.Plus(Duration.FromSeconds(length));
    }

    public override string ToString()
    {
        StringBuilder text = new();
        // A length below one second is not allowed by the timeline; here it would be an action without any length.
        text.Append(CultureInfo.InvariantCulture, $"(:durative-action {name}\n :parameters ()\n :duration (>= ?duration {Math.Max(1, least) - PddlImage.Epsilon - 2 * Later:0.000##})\n");
        text.Append(" :condition (and\n");
        foreach (string condition in conditions.Distinct()) text.Append("  ").Append(condition).Append('\n');
        text.Append(" )\n :effect (and\n");
        foreach (string effect in effects.Distinct()) text.Append("  ").Append(effect).Append('\n');
        return text.Append(" ))\n").ToString();
    }

    private ImageAction Add(List<string> to, string text)
    {
        to.Add(text);
        return this;
    }
}
