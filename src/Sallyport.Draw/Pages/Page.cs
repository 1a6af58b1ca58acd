using System.Collections.Immutable;

namespace Sallyport.Draw;

/// <summary>A page as it is printed, in points.</summary>
/// <param name="Width">How wide it lies.</param>
/// <param name="Height">How high.</param>
/// <param name="Elements">What is drawn, back to front.</param>
/// <param name="Marks">Where bookmarks lead to.</param>
public sealed record Page(double Width, double Height, ImmutableArray<Element> Elements, ImmutableArray<Bookmark> Marks);

/// <summary>A place that a reader can jump to.</summary>
/// <param name="Title">Its name.</param>
/// <param name="Level">0 for a chapter, 1 for a heading in one.</param>
/// <param name="Top">How far down the page.</param>
public sealed record Bookmark(string Title, int Level, double Top);
