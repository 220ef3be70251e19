using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Blades;

/// <summary>
/// From a blade's flat sheet to the photo and back: bend of the midrib, halves that look narrower because they lean, turn,
/// then the tilt of the camera.
/// </summary>
/// <param name="shape">The flat blade.</param>
/// <param name="spec">How it lies.</param>
/// <param name="tiltX">Loss of scale per photo pixel to the right, from the camera's tilt.</param>
/// <param name="tiltY">The same downwards.</param>
internal sealed class LeafPose(BladeShape shape, LeafSpec spec, double tiltX, double tiltY)
{
    private readonly double _cos = Math.Cos(spec.AngleDegrees * Math.PI / 180) / Blade.Finer;
    private readonly double _sin = Math.Sin(spec.AngleDegrees * Math.PI / 180) / Blade.Finer;
    private readonly double _middle = shape.X(0.5);
    private readonly double _up = 1 / Math.Sqrt(1 + (spec.Fold * spec.Fold * 0.6));
    private readonly double _down = 1 / Math.Sqrt(1 + (spec.Fold * spec.Fold * 1.4));

    /// <summary>Photo place of a sheet place.</summary>
    public Point2d ToPhoto(double x, double y)
    {
        double across = y - shape.CentreY;
        across = (across * (across < 0 ? _up : _down)) + BendAt(x);
        double along = x - _middle;
        double px = (along * _cos) - (across * _sin);
        double py = (along * _sin) + (across * _cos);
        double depth = 1 + (tiltX * px) + (tiltY * py);
        return new Point2d(spec.CentreX + (px / depth), spec.CentreY + (py / depth));
    }

    /// <summary>Sheet place of a photo place.</summary>
    public (float X, float Y) ToSheet(double photoX, double photoY)
    {
        double px = photoX - spec.CentreX;
        double py = photoY - spec.CentreY;
        double depth = 1 - (tiltX * px) - (tiltY * py);
        px /= depth;
        py /= depth;
        const double Square = Blade.Finer * Blade.Finer;
        double along = ((px * _cos) + (py * _sin)) * Square;
        double across = ((py * _cos) - (px * _sin)) * Square;
        double x = along + _middle;
        across -= BendAt(x);
        across /= across < 0 ? _up : _down;
        return ((float)x, (float)(across + shape.CentreY));
    }

    /// <summary>Photo pixels that one sheet pixel covers at a place.</summary>
    public double AreaAt(double x, double y)
    {
        Point2d here = ToPhoto(x, y);
        Point2d right = ToPhoto(x + 1, y);
        Point2d below = ToPhoto(x, y + 1);
        return Math.Abs(((right.X - here.X) * (below.Y - here.Y)) - ((right.Y - here.Y) * (below.X - here.X)));
    }

    /// <summary>The photo pixels that the sheet reaches, cut to the photo; empty when it lies outside.</summary>
    public Rect Box(Size photo)
    {
        double left = double.MaxValue, top = double.MaxValue, right = double.MinValue, bottom = double.MinValue;
        for (int i = 0; i <= 20; i++)
        {
            for (int j = 0; j <= 20; j++)
            {
                Point2d place = ToPhoto(shape.SheetSize.Width * i / 20.0, shape.SheetSize.Height * j / 20.0);
                left = Math.Min(left, place.X);
                right = Math.Max(right, place.X);
                top = Math.Min(top, place.Y);
                bottom = Math.Max(bottom, place.Y);
            }
        }

        return new Rect((int)left - 2, (int)top - 2, (int)(right - left) + 5, (int)(bottom - top) + 5)
            .Intersect(new Rect(0, 0, photo.Width, photo.Height));
    }

    /// <summary>For each pixel of a box at twice the photo's resolution, the sheet place to take it from.</summary>
    public (Mat X, Mat Y) Maps(Rect box)
    {
        Size size = new(box.Width * Blade.Finer, box.Height * Blade.Finer);
        Mat mapX = Pixels.NewFloat(size);
        Mat mapY = Pixels.NewFloat(size);
        for (int y = 0; y < size.Height; y++)
        {
            Span<float> toX = Pixels.Floats(mapX, y);
            Span<float> toY = Pixels.Floats(mapY, y);
            double photoY = box.Y + ((y + 0.5) / Blade.Finer) - 0.5;
            for (int x = 0; x < toX.Length; x++)
            {
                (toX[x], toY[x]) = ToSheet(box.X + ((x + 0.5) / Blade.Finer) - 0.5, photoY);
            }
        }

        return (mapX, mapY);
    }

    private double BendAt(double x)
    {
        double t = (x - _middle) / shape.LengthPx;
        return spec.Bend * shape.LengthPx * (1 - (4 * t * t));
    }
}
