using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Sallyport.Desk.Tests")]
