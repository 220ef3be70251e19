using System.Reflection;

namespace LeafScan.Leaves;

/// <summary>The tool's own version, stored with each reading.</summary>
public static class ToolVersion
{
    /// <summary>Version of this build, such as "0.1.0".</summary>
    public static string Current { get; } =
        typeof(ToolVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0.0.0";
}
