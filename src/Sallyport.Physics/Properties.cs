using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Sallyport.Physics.Tests")]
