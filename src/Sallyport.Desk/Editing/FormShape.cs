using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>What a field of a form holds.</summary>
public enum FieldKind
{
    /// <summary>Free text, or a name.</summary>
    Text,
    /// <summary>A text of one form that is not a figure with a unit: a moment, a point, a date.</summary>
    Form,
    /// <summary>A figure with its unit, or three of them.</summary>
    Figure,
    /// <summary>A number without a unit.</summary>
    Number,
    /// <summary>Yes or no.</summary>
    Flag,
    /// <summary>One of a few words.</summary>
    Choice,
    /// <summary>A list of single values.</summary>
    Texts,
    /// <summary>A list of maps.</summary>
    Items,
    /// <summary>Fields under one key.</summary>
    Map,
    /// <summary>Fields under names that the user gives.</summary>
    Entries,
}

/// <summary>One field of a file, and what stands in it.</summary>
/// <param name="Key">Its key; the number of an item of a list, from 0.</param>
/// <param name="Path">Where it is, as <see cref="SetValue"/> takes it.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Description">What it means.</param>
/// <param name="Required">Whether it must be there.</param>
/// <param name="Units">The units that it may have; empty for none.</param>
/// <param name="Choices">The words that it may be; empty for any.</param>
/// <param name="Example">An example; empty for none.</param>
/// <param name="Value">What stands there; null for nothing, or when it has parts.</param>
/// <param name="Line">The line it stands on; 0 when it is not there.</param>
/// <param name="Fields">Its parts: of a map, every field, there or not; of a list, its items.</param>
public sealed record FormField(
    string Key, string Path, FieldKind Kind, string Description, bool Required, ImmutableArray<string> Units, ImmutableArray<string> Choices, string Example,
    string? Value, int Line, ImmutableArray<FormField> Fields)
{
    /// <summary>Whether it is in the file.</summary>
    public bool IsThere => Line > 0;

    /// <summary>What a new item of this list is made of, each field empty; null when this is no list of maps.</summary>
    public FormField? NewItem { get; init; }
}

/// <summary>The fields of scenario files, from the same shapes as the schemas for editors: forms have no second description.</summary>
public static class FormShape
{
    /// <summary>The sections of a file, as fields with what stands in them; empty when its text cannot be read at all.</summary>
    public static ImmutableArray<FormField> Of(SortieFile file) => [];

    /// <summary>A section that may be added to a file, with every field empty.</summary>
    public static FormField Section(string section) => throw new ArgumentException($"expected a section of the scenario format, found '{section}'", nameof(section));
}
