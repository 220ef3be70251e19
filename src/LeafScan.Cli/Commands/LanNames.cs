using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace LeafScan.Cli.Commands;

/// <summary>Addresses and names under which this machine is reached from its network.</summary>
internal static class LanNames
{
    /// <summary>Addresses of the network cards that are up, the one towards the router first, then the machine's name.</summary>
    public static IReadOnlyList<string> OfThisMachine()
    {
        List<string> names = [];
        try
        {
            names.AddRange(NetworkInterface.GetAllNetworkInterfaces()
                .Where(card => card.OperationalStatus == OperationalStatus.Up && card.NetworkInterfaceType != NetworkInterfaceType.Loopback)
                .Select(card => card.GetIPProperties())
                .OrderByDescending(facts => facts.GatewayAddresses.Count > 0)
                .SelectMany(facts => facts.UnicastAddresses)
                .Where(address => address.Address.AddressFamily == AddressFamily.InterNetwork)
                .Select(address => address.Address.ToString()));
        }
        catch (NetworkInformationException)
        {
            // Without a list of cards the machine's name has to do.
        }

        string host = Dns.GetHostName();
        if (host.Length > 0)
        {
            names.Add(host);
            names.Add(host + ".local");
        }

        return names;
    }
}
