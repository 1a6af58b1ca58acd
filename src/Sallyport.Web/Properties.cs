using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Sallyport.Web.Tests")]
