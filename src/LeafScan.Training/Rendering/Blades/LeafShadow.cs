using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>The shadow under a blade: dark and narrow where it touches, wide and soft on the side away from the light.</summary>
internal static class LeafShadow
{
    public static void Throw(Mat light, Mat cover, Rect box, LeafSpec spec, Lighting lighting)
        => Throw(light, cover, box, spec.PixelsPerMm, spec.HeightMm, lighting);

    /// <param name="light">What it falls on, float B, G, R; changed.</param>
    /// <param name="cover">Share of each pixel of the box that is covered, float 0..1.</param>
    /// <param name="box">Where that is in the photo.</param>
    /// <param name="mm">Pixels per mm.</param>
    /// <param name="heightMm">Height above the ground.</param>
    /// <param name="lighting">The light.</param>
    public static void Throw(Mat light, Mat cover, Rect box, double mm, double heightMm, Lighting lighting)
    {
        double azimuth = lighting.AzimuthDegrees * Math.PI / 180;
        double throwPx = heightMm * mm / Math.Tan(lighting.HeightDegrees * Math.PI / 180);
        int pad = (int)(throwPx + (6 * mm) + 4);
        Rect wide = new Rect(box.X - pad, box.Y - pad, box.Width + (2 * pad), box.Height + (2 * pad)).Intersect(new Rect(0, 0, light.Cols, light.Rows));
        using Mat cast = Moved(cover, box, wide, -Math.Cos(azimuth) * throwPx, -Math.Sin(azimuth) * throwPx);
        using Mat contact = Moved(cover, box, wide, 0, 0);
        Cv2.GaussianBlur(cast, cast, default, Math.Max(0.8, heightMm * mm * (0.2 + (0.8 * (1 - lighting.Hardness)))));
        Cv2.GaussianBlur(contact, contact, default, Math.Max(0.8, 1.4 * mm));
        float hard = (float)(0.25 + (0.55 * lighting.Hardness));
        for (int y = 0; y < wide.Height; y++)
        {
            Span<float> row = Pixels.Floats(light, wide.Y + y)[(3 * wide.X)..];
            Span<float> far = Pixels.Floats(cast, y);
            Span<float> near = Pixels.Floats(contact, y);
            for (int x = 0; x < far.Length; x++)
            {
                float rest = (1 - (hard * far[x])) * (1 - (0.28f * near[x]));

                // The sky fills shadows with a little blue.
                row[3 * x] *= rest + (0.03f * (1 - rest));
                row[(3 * x) + 1] *= rest;
                row[(3 * x) + 2] *= rest;
            }
        }
    }

    private static Mat Moved(Mat cover, Rect box, Rect wide, double x, double y)
    {
        using Mat shift = new(2, 3, MatType.CV_64FC1, Scalar.All(0));
        shift.Set(0, 0, 1.0);
        shift.Set(1, 1, 1.0);
        shift.Set(0, 2, box.X - wide.X + x);
        shift.Set(1, 2, box.Y - wide.Y + y);
        Mat moved = new();
        Cv2.WarpAffine(cover, moved, shift, wide.Size, InterpolationFlags.Linear, BorderTypes.Constant, Scalar.All(0));
        return moved;
    }
}
