using OpenCvSharp;

namespace LeafScan.Web.Tests.Support;

/// <summary>Drawn twigs and bushes: quick, and with changes a test can foresee.</summary>
internal static class DrawnPlant
{
    /// <summary>Needles beside each other on white; yellow all over with three in ten brown, or green.</summary>
    public static byte[] Twig(bool green, int seed = 1)
    {
        using Mat picture = new(600, 1000, MatType.CV_8UC3, new Scalar(222, 224, 226));
        for (int i = 0; i < 90; i++)
        {
            int x = 120 + (i * 8);
            int up = i % 2 == 0 ? -1 : 1;
            Scalar colour = green ? new Scalar(55, 115, 65) : i < 27 ? new Scalar(40, 75, 130) : new Scalar(60, 150, 160);
            Cv2.Line(picture, new Point(x, 300 + (up * 4)), new Point(x + 60, 300 + (up * 130)), colour, 9, LineTypes.AntiAlias);
        }

        using Mat noise = new(picture.Size(), MatType.CV_16SC3);
        Cv2.SetTheRNG((ulong)seed);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(2));
        Cv2.Add(picture, noise, picture, null, (int)MatType.CV_8U);
        return Jpeg(picture);
    }

    /// <summary>A bush of tufts before a rough wall, its left half brown as far as asked; the same bush each time, from a step aside where asked.</summary>
    public static byte[] Bush(double brown, int aside = 0, int seed = 5)
    {
        Random random = new(seed);
        using Mat picture = new(700, 900, MatType.CV_8UC3, new Scalar(196, 200, 206));
        for (int i = 0; i < 4000; i++)
        {
            int tone = random.Next(165, 225);
            Cv2.Circle(picture, new Point(random.Next(900) + aside, random.Next(700)), random.Next(1, 4), new Scalar(tone - 6, tone, tone + 4), -1);
        }

        for (int i = 0; i < 9000; i++)
        {
            double turn = random.NextDouble() * Math.Tau;
            double far = 220 * Math.Sqrt(random.NextDouble());
            Point at = new((int)(450 + (far * Math.Cos(turn))), (int)(350 + (far * Math.Sin(turn))));
            double shade = 0.75 + (0.4 * random.NextDouble());
            double end = random.NextDouble() * Math.PI;
            bool isBrown = at.X < 450 && random.NextDouble() < 2 * brown;
            Scalar colour = isBrown ? new Scalar(45 * shade, 80 * shade, 130 * shade) : new Scalar(45 * shade, 110 * shade, 60 * shade);
            Cv2.Line(picture, at + new Point(aside, 0), new Point(at.X + aside + (int)(9 * Math.Cos(end)), at.Y + (int)(9 * Math.Sin(end))), colour, 3, LineTypes.AntiAlias);
        }

        return Jpeg(picture);
    }

    private static byte[] Jpeg(Mat picture)
    {
        Cv2.ImEncode(".jpg", picture, out byte[] bytes, new ImageEncodingParam(ImwriteFlags.JpegQuality, 95));
        return bytes;
    }
}
