using System.Globalization;
using System.Reflection;

namespace LeafScan.Records.Upkeep;

/// <summary>One numbered step of the store's layout, an SQL script among the embedded resources ("001-first-record.sql").</summary>
/// <param name="Number">Layout number after the step; steps count 1, 2, 3 without a gap.</param>
/// <param name="Name">What the step does.</param>
/// <param name="Sql">The script.</param>
internal sealed record Migration(int Number, string Name, string Sql)
{
    private const string Prefix = "Migrations/";

    /// <summary>Every step there is, in order.</summary>
    public static IReadOnlyList<Migration> All { get; } = Load(typeof(Migration).Assembly);

    private static List<Migration> Load(Assembly assembly)
    {
        var steps = new List<Migration>();
        foreach (string resource in assembly.GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(resource)!);
            string name = Path.GetFileNameWithoutExtension(resource[Prefix.Length..]);
            steps.Add(new Migration(int.Parse(name[..3], CultureInfo.InvariantCulture), name[4..], reader.ReadToEnd()));
        }

        return steps;
    }
}
