using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Hands;

/// <summary>Paints a finger as a round, lit body of skin with creases at its joints, fine lines and a nail.</summary>
internal static class FingerPainter
{
    /// <summary>Paints over what is there.</summary>
    /// <param name="light">Float B, G, R; changed.</param>
    /// <param name="finger">The finger.</param>
    /// <param name="skin">Colour of its skin.</param>
    /// <param name="mm">Pixels per mm.</param>
    /// <param name="lighting">The light.</param>
    /// <param name="shading">Unevenness of the light over the photo.</param>
    /// <param name="random">Source of chance.</param>
    /// <returns>Float 0..1: what it covers, size of the photo. The caller disposes.</returns>
    public static Mat Paint(Mat light, Finger finger, LabColour skin, double mm, Lighting lighting, double shading, Random random)
    {
        Size photo = light.Size();
        Mat cover = Cover(photo, finger);
        LeafShadow.Throw(light, cover, new Rect(0, 0, photo.Width, photo.Height), mm, 4, lighting);
        using Mat own = new(photo, MatType.CV_32FC3, Scalar.All(0));
        using Mat blotch = SmoothNoise.Make(photo, Math.Max(4, 5 * mm), random, 3, 0.5);
        using Mat pores = SmoothNoise.Make(photo, Math.Max(2, 0.5 * mm), random, 2, 0.8);
        double turn = finger.AngleDegrees * Math.PI / 180;
        double azimuth = lighting.AzimuthDegrees * Math.PI / 180;
        double height = lighting.HeightDegrees * Math.PI / 180;
        double hard = 0.3 + (0.7 * lighting.Hardness);
        (double lightAlong, double lightAcross) = (-Math.Cos(azimuth - turn), -Math.Sin(azimuth - turn));
        LinearColour tone = skin.Linear();
        LinearColour blood = skin.Move(-3, 5, 0).Linear();
        LinearColour nail = skin.Move(7, 3, -7).Linear();
        int rows = photo.Height;
        for (int y = 0; y < rows; y++)
        {
            Span<float> covered = Pixels.Floats(cover, y);
            Span<float> to = Pixels.Floats(own, y);
            Span<float> b = Pixels.Floats(blotch, y);
            Span<float> p = Pixels.Floats(pores, y);
            for (int x = 0; x < covered.Length; x++)
            {
                if (covered[x] <= 0)
                {
                    continue;
                }

                (double along, double across) = finger.Own(x, y);
                double half = Math.Max(0.05, Finger.Profile(Math.Max(0.02, along)));
                double s = Math.Clamp(across / half, -1, 1);
                double end = Math.Clamp(1 - along, 0, 1);
                (double normalAcross, double normalAlong) = (0.88 * s, -0.85 * end * end);
                double up = Math.Sqrt(Math.Max(0.05, 1 - (normalAcross * normalAcross) - (normalAlong * normalAlong)));
                double isNail = finger.Nail ? Nail(along, s) : 0;
                double lines = Crease(along, 2.9, across, b[x]) + Crease(along, 6.3, across, b[x]);
                double fine = (1 - isNail) * ((0.05 * p[x]) + (0.06 * b[x]));
                double cosine = Math.Max(0, ((normalAcross * lightAcross) + (normalAlong * lightAlong)) * Math.Cos(height) + (up * Math.Sin(height))) / Math.Sin(height);
                double lit = (((1 - hard) * (0.55 + (0.45 * up))) + (hard * cosine)) * (1 - (0.38 * lines)) * (1 + fine);

                // Light that went through the skin comes out red where the surface turns away.
                double red = Math.Clamp((0.35 * (1 - up)) + (0.5 * end * (1 - isNail)) + (0.18 * b[x]), 0, 0.9);
                double shine = ((0.02 + (0.12 * isNail)) * hard * Math.Exp(-Math.Pow((s - (0.4 * lightAcross)) / 0.22, 2))) * (1 + (0.4 * p[x] * (1 - isNail)));
                double edge = finger.Nail ? NailEdge(along, s) : 0;
                to[3 * x] = Blend(tone.B, blood.B, nail.B);
                to[(3 * x) + 1] = Blend(tone.G, blood.G, nail.G);
                to[(3 * x) + 2] = Blend(tone.R, blood.R, nail.R);

                float Blend(float plain, float redder, float plate)
                {
                    double c = plain + (red * (redder - plain));
                    c += isNail * (plate - c);
                    return (float)((c * lit * (1 - (0.3 * edge))) + shine);
                }
            }
        }

        RoomLight.Shade(own, shading, lighting);
        Lay(light, own, cover);
        return cover;
    }

    /// <summary>Float 0..1 with an edge of one pixel.</summary>
    private static Mat Cover(Size photo, Finger finger)
    {
        Mat cover = Pixels.NewFloat(photo);
        for (int y = 0; y < photo.Height; y++)
        {
            Span<float> row = Pixels.Floats(cover, y);
            for (int x = 0; x < row.Length; x++)
            {
                (double along, double across) = finger.Own(x, y);
                if (along < -0.1 || along * finger.HalfWidth > finger.Length)
                {
                    continue;
                }

                double inside = Math.Min((Finger.Profile(along) - Math.Abs(across)) * finger.HalfWidth, along * finger.HalfWidth * 3);
                row[x] = (float)Math.Clamp(inside + 0.5, 0, 1);
            }
        }

        return cover;
    }

    private static double Crease(double along, double joint, double across, double wander)
    {
        double sum = 0;
        foreach (double shift in (double[])[-0.22, 0.02, 0.2])
        {
            double off = along - joint - shift - (0.1 * across * across) - (0.05 * wander);
            sum += Math.Exp(-Math.Pow(off / 0.035, 2)) * (shift == 0.02 ? 1 : 0.55);
        }

        return Math.Min(1, sum);
    }

    private static double Nail(double along, double s)
    {
        double reach = NailReach(along, s);
        return Math.Clamp((1 - reach) * 14, 0, 1);
    }

    private static double NailEdge(double along, double s) => Math.Exp(-Math.Pow((NailReach(along, s) - 1) / 0.06, 2));

    private static double NailReach(double along, double s)
        => Math.Pow(Math.Pow(Math.Abs(along - 0.95) / 0.78, 3) + Math.Pow(Math.Abs(s) / 0.68, 3), 1 / 3.0);

    private static void Lay(Mat light, Mat own, Mat cover)
    {
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> to = Pixels.Floats(light, y);
            Span<float> from = Pixels.Floats(own, y);
            Span<float> share = Pixels.Floats(cover, y);
            for (int x = 0; x < share.Length; x++)
            {
                for (int c = 3 * x; c < (3 * x) + 3; c++)
                {
                    to[c] += share[x] * (from[c] - to[c]);
                }
            }
        }
    }
}
