using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Support;

/// <summary>A twig drawn with known truth: straight needles along a stem, on a pale sheet. Owns its picture.</summary>
internal sealed class DrawnTwig : IDisposable
{
    private static readonly Scalar Green = new(55, 115, 65);
    private static readonly Scalar Brown = new(40, 75, 130);

    /// <summary>Draws it.</summary>
    /// <param name="brownNeedles">Share of the needles that are brown all over, 0..1.</param>
    /// <param name="redLight">Factor on the red of the light, in linear light.</param>
    /// <param name="freshNeedles">Share of the needles, from the end of the twig, that are bright fresh growth.</param>
    /// <param name="sound">Colour of all other needles, B, G, R; null for green.</param>
    public DrawnTwig(double brownNeedles, double redLight = 1, double freshNeedles = 0, Scalar? sound = null)
    {
        Pixels = new Mat(600, 1000, MatType.CV_8UC3, new Scalar(222, 224, 226));
        const int Needles = 90;
        for (int i = 0; i < Needles; i++)
        {
            int x = 120 + (i * 8);
            int up = i % 2 == 0 ? -1 : 1;
            Scalar colour = i < brownNeedles * Needles ? Brown : i >= (1 - freshNeedles) * Needles ? new Scalar(60, 170, 100) : sound ?? Green;
            Cv2.Line(Pixels, new Point(x, 300 + (up * 4)), new Point(x + 60, 300 + (up * 130)), colour, 9, LineTypes.AntiAlias);
        }

        if (redLight != 1)
        {
            double gain = Math.Pow(redLight, 1 / 2.4);
            Mat[] channels = Cv2.Split(Pixels);
            channels[2].ConvertTo(channels[2], MatType.CV_8UC1, gain);
            Cv2.Merge(channels, Pixels);
            foreach (Mat channel in channels)
            {
                channel.Dispose();
            }
        }
    }

    public Mat Pixels { get; }

    public void Dispose() => Pixels.Dispose();
}
