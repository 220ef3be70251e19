using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Damage;

/// <summary>Random places on a blade.</summary>
internal static class Places
{
    /// <summary>A place inside the outline, evenly spread.</summary>
    public static Point2d Inside(BladeShape shape, Mat whole, Random random)
    {
        Point2d place = new(shape.X(0.5), shape.CentreY);
        for (int tries = 0; tries < 50; tries++)
        {
            Point2d candidate = new(shape.X(random.NextDouble()), shape.CentreY + (shape.HalfWidthPx * random.Between(-1, 1)));
            if (Pixels.Bytes(whole, (int)candidate.Y)[(int)candidate.X] > 0)
            {
                return candidate;
            }
        }

        return place;
    }
}
