using System.Globalization;
using QRCoder;

namespace LeafScan.Web.Safety;

/// <summary>The link that a phone scans, and its picture. The code stands behind the #, so that it reaches no log and no other server.</summary>
internal static class PairingLink
{
    public static string? Of(ServerOptions options, Doorkeeper doorkeeper, int? port)
        => options.LanNames.Count == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"http://{options.LanNames[0]}:{port ?? options.Port}/pair#{doorkeeper.Code}");

    public static string Svg(string link)
    {
        using QRCodeData code = QRCodeGenerator.GenerateQrCode(link, QRCodeGenerator.ECCLevel.M);
        using SvgQRCode svg = new(code);
        return svg.GetGraphic(8);
    }

    /// <summary>Drawn with half blocks, dark on light, for a terminal.</summary>
    public static string Blocks(string link)
    {
        using QRCodeData code = QRCodeGenerator.GenerateQrCode(link, QRCodeGenerator.ECCLevel.M);
        using AsciiQRCode ascii = new(code);
        return ascii.GetGraphicSmall();
    }
}
