using System.CommandLine.Parsing;

namespace LeafScan.Cli.Screen;

/// <summary>Errors of the command line in words of a person instead of those of a compiler.</summary>
internal static class ParseWords
{
    /// <summary>The error as one sentence: what is missing and a word that is no number are told by name, all else as it is.</summary>
    public static string Of(ParseError error)
    {
        (string? name, Type? type) = error.SymbolResult switch
        {
            OptionResult option => (option.Option.Name, option.Option.ValueType),
            ArgumentResult argument => (argument.Argument.Name, argument.Argument.ValueType),
            _ => (null, null),
        };
        if (name is not null && error.SymbolResult is ArgumentResult { Tokens.Count: 0 } or OptionResult { Implicit: true })
        {
            return $"{name} is missing.";
        }

        if (type is null || error.SymbolResult is not { Tokens: [{ Value: string word }, ..] } || !error.Message.Contains("'System.", StringComparison.Ordinal))
        {
            return error.Message;
        }

        string kind = (Nullable.GetUnderlyingType(type) ?? type) switch
        {
            Type t when t == typeof(double) => "a number such as 12.5",
            Type t when t == typeof(int) || t == typeof(long) => "a whole number",
            _ => "another kind of word",
        };
        return $"{name} takes {kind}, not \"{word}\".";
    }
}
