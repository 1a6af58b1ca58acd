using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>A record written out whole, lists included: records compare their immutable arrays by identity, and tests by content.</summary>
internal static class StructureText
{
    public static string Of(object? value)
    {
        StringBuilder text = new();
        Write(text, value, 0);
        return text.ToString();
    }

    private static void Write(StringBuilder text, object? value, int depth)
    {
        switch (value)
        {
            case null: text.Append("null"); break;
            case string or bool or int or Enum: text.Append(CultureInfo.InvariantCulture, $"'{value}'"); break;
            case double number: text.Append(number.ToString("R", CultureInfo.InvariantCulture)); break;
            case DateTime moment: text.Append(moment.ToString("O", CultureInfo.InvariantCulture)); break;
            case IEnumerable list:
                text.Append('[');
                foreach (object? item in list)
                {
                    text.Append('\n').Append(' ', depth + 1);
                    Write(text, item, depth + 1);
                }
                text.Append(']');
                break;
            default:
                text.Append(value.GetType().Name).Append('{');
                foreach (PropertyInfo property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).OrderBy(property => property.Name, StringComparer.Ordinal))
                {
                    text.Append(' ').Append(property.Name).Append('=');
                    Write(text, property.GetValue(value), depth + 1);
                }
                text.Append('}');
                break;
        }
    }
}
