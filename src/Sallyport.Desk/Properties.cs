using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Sallyport.Desk.Tests")]
[assembly: InternalsVisibleTo("Sallyport.Stage.Tests")]
