namespace Sallyport.Planning;

/// <summary>Why an outline cannot be expanded at all.</summary>
/// <param name="Code">Two words joined by a dot.</param>
/// <param name="Found">What was found, one sentence with names.</param>
/// <param name="Fix">How to mend it.</param>
public sealed record OutlineProblem(string Code, string Found, string Fix);
