using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace LeafScan.Page.Tests.Support;

/// <summary>Debian's own Chromium; nothing is fetched.</summary>
internal static class Chromium
{
    /// <summary>Where it lies; null when it is not installed.</summary>
    public static string? Path { get; } = new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser" }.FirstOrDefault(File.Exists);

    /// <summary>Why a test is skipped; null when it need not be.</summary>
    public static string? Missing => Path is null ? "Skipped: the browser Chromium (Debian package chromium) is not installed." : null;
}

/// <summary>A test in the browser; says so when it is skipped.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Chromium.Missing;
}

/// <summary>The same with data.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Chromium.Missing;
}

/// <summary>A test in the browser that comes by the network and not by loopback.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class LanFactAttribute : FactAttribute
{
    public LanFactAttribute() => Skip = Chromium.Missing ?? (HasNetwork() ? null : "Skipped: this machine has no network of its own.");

    private static bool HasNetwork() => NetworkInterface.GetAllNetworkInterfaces().Any(one => one.OperationalStatus == OperationalStatus.Up
        && one.NetworkInterfaceType != NetworkInterfaceType.Loopback
        && one.GetIPProperties().UnicastAddresses.Any(address => address.Address.AddressFamily == AddressFamily.InterNetwork));
}
