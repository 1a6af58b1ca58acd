using System.Collections;
using System.Reflection;
using System.Runtime.CompilerServices;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Architecture;

/// <summary>The public types of Model and Physics are values: nobody changes one once it is made, nobody derives from one.</summary>
public class ShapeTests
{
    [Theory]
    [InlineData(typeof(Pet))]
    [InlineData(typeof(Walking))]
    public void Types_PublicInTheAssemblyOf_AreImmutableValues(Type one)
    {
        Type[] types = one.Assembly.GetExportedTypes();
        Assert.Contains(one, types);
        Assert.Empty(types.SelectMany(Faults));
    }

    // The check itself, seen to work.
    [Theory]
    [InlineData(typeof(Open), "is neither sealed nor abstract")]
    [InlineData(typeof(Settable), "Name can be set after it is made")]
    [InlineData(typeof(Field), "Count is a field that can be changed")]
    [InlineData(typeof(Growing), "Items is a collection that can be changed")]
    [InlineData(typeof(Loose), "is a struct that can be changed")]
    public void Type_NotAnImmutableValue_IsSeen(Type type, string fault) => Assert.Equal([$"{type.Name} {fault}"], Faults(type));

    private static List<string> Faults(Type type)
    {
        List<string> faults = [];
        if (type.IsEnum) return faults;
        if (!type.IsSealed && !type.IsAbstract) faults.Add("is neither sealed nor abstract");
        if (type.IsValueType && !type.IsDefined(typeof(IsReadOnlyAttribute), false)) faults.Add("is a struct that can be changed");
        const BindingFlags All = BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        foreach (FieldInfo field in type.GetFields(All))
            if (!field.IsInitOnly && !field.IsLiteral) faults.Add($"{field.Name} is a field that can be changed");
        foreach (PropertyInfo property in type.GetProperties(All))
        {
            // `init` is a setter that the compiler lets nobody call later; it is marked on the return type.
            if (property.GetSetMethod() is { } setter && !setter.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit)))
                faults.Add($"{property.Name} can be set after it is made");
            if (IsChangeable(property.PropertyType)) faults.Add($"{property.Name} is a collection that can be changed");
        }
        return [.. faults.Select(fault => $"{type.Name} {fault}")];
    }

    private static bool IsChangeable(Type type) =>
        type.IsArray
        || (type is { IsClass: true, Namespace: "System.Collections.Generic" } && typeof(IEnumerable).IsAssignableFrom(type))
        || (type is { IsInterface: true, IsGenericType: true } && type.Name is "IList`1" or "ICollection`1" or "IDictionary`2" or "ISet`1");

    private record Open(int Count);

    private sealed record Settable { public string Name { get; set; } = ""; }

    private sealed record Field { public int Count = 1; }

    private sealed record Growing(List<int> Items);

    private struct Loose { public int Count { readonly get; init; } }
}
