using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>The margin as a closed line of points one pixel apart, slightly smoothed.</summary>
internal sealed class MarginLine
{
    private readonly Point[] _raw;
    private readonly Point2d[] _smooth;
    private readonly int _step;
    private readonly bool _leftIsOut;

    private MarginLine(Point[] raw, Point2d[] smooth)
    {
        _raw = raw;
        _smooth = smooth;
        double twice = 0;
        for (int i = 0; i < raw.Length; i++)
        {
            Point next = raw[(i + 1) % raw.Length];
            twice += ((double)raw[i].X * next.Y) - ((double)raw[i].Y * next.X);
        }

        _leftIsOut = twice > 0;

        // Directions are taken over about one percent of the margin: longer than pixel steps, shorter than a bite.
        _step = Math.Clamp(raw.Length / 150, 4, 14);
    }

    /// <summary>Takes a contour as OpenCV gives it.</summary>
    public static MarginLine Of(Point[] contour)
    {
        Point2d[] smooth = new Point2d[contour.Length];
        double[] kernel = [0.06, 0.24, 0.4, 0.24, 0.06];
        for (int i = 0; i < contour.Length; i++)
        {
            double x = 0;
            double y = 0;
            for (int k = -2; k <= 2; k++)
            {
                Point p = contour[Wrap(i + k, contour.Length)];
                x += kernel[k + 2] * p.X;
                y += kernel[k + 2] * p.Y;
            }

            smooth[i] = new Point2d(x, y);
        }

        return new MarginLine(contour, smooth);
    }

    /// <summary>Points of the line.</summary>
    public int Length => _raw.Length;

    /// <summary>Points over which a direction is taken.</summary>
    public int Step => _step;

    /// <summary>Mouth, greatest depth and area between the line from one place to another and its chord, pixels.</summary>
    public (double MouthPx, double DepthPx, double AreaPx) UnderChord(int start, int end)
    {
        Point2d a = At(start);
        Point2d b = At(end);
        double mouth = Math.Max(1, Distance(a, b));
        double depth = 0;
        double twice = 0;
        Point2d last = b;
        for (int i = start; i <= end; i++)
        {
            Point2d p = At(i);
            depth = Math.Max(depth, Math.Abs(((b.X - a.X) * (a.Y - p.Y)) - ((a.X - p.X) * (b.Y - a.Y))) / mouth);
            twice += (last.X * p.Y) - (last.Y * p.X);
            last = p;
        }

        return (mouth, depth, Math.Abs(twice) / 2);
    }

    /// <summary>Place and unit direction of the margin just before <paramref name="index"/>, going towards it.</summary>
    public (Point2d Place, Point2d Direction) Before(int index, int reach)
        => (At(index), Unit(At(index - reach), At(index - (reach / 6))));

    /// <summary>Place and unit direction of the margin just after <paramref name="index"/>, going away from it.</summary>
    public (Point2d Place, Point2d Direction) After(int index, int reach)
        => (At(index), Unit(At(index + (reach / 6)), At(index + reach)));

    /// <summary>Pixels of the margin from one index to another, both included.</summary>
    public List<Point> Between(int start, int end)
    {
        List<Point> points = [];
        for (int i = start; i <= end; i++)
        {
            points.Add(_raw[Wrap(i, _raw.Length)]);
        }

        return points;
    }

    /// <summary>Whether a stretch longer than 0.3 of the leaf's side is straight within a pixel, with a corner at both ends.</summary>
    public bool HasStraightCut(double leafSidePx)
    {
        int length = (int)(leafSidePx * 0.3);
        if (length < 30 || length * 3 > _raw.Length)
        {
            return false;
        }

        for (int i = 0; i < _raw.Length; i += 4)
        {
            if (Turn(i) < 45 || !IsStraight(i, i + length))
            {
                continue;
            }

            // The cut goes on as far as it is straight, and ends in the second corner.
            int end = i + length;
            while (end < i + (_raw.Length / 2) && IsStraight(i, end + 4))
            {
                end += 4;
            }

            if (Turn(SharpestCorner(end - _step, end + _step)) >= 20)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether the margin is straight within a pixel on either side of a dent: cut by scissors or by the picture's edge.</summary>
    public bool IsStraightBeside(Dent dent, double lengthPx)
    {
        int length = (int)lengthPx;
        return length > 3 * _step
            && (IsStraight(dent.Start - length, dent.Start - _step, 0.8) || IsStraight(dent.End + _step, dent.End + length, 0.8));
    }

    private bool IsStraight(int from, int to, double withinPx = 1.2)
    {
        Point2d a = At(from);
        Point2d b = At(to);
        double chord = Math.Max(1, Distance(a, b));
        for (int k = from; k <= to; k += 3)
        {
            Point2d p = At(k);
            if (Math.Abs(((b.X - a.X) * (a.Y - p.Y)) - ((a.X - p.X) * (b.Y - a.Y))) / chord >= withinPx)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Unit direction that points out of the leaf, for a unit direction in which the margin runs.</summary>
    public Point2d Outward(Point2d along) => _leftIsOut ? new Point2d(along.Y, -along.X) : new Point2d(-along.Y, along.X);

    /// <summary>The place with the greatest turn between two places, both included.</summary>
    public int SharpestCorner(int from, int to)
    {
        int best = (from + to) / 2;
        double sharpest = -1;
        for (int i = from; i <= to; i++)
        {
            double turn = Turn(i);
            if (turn > sharpest)
            {
                sharpest = turn;
                best = i;
            }
        }

        return best;
    }

    /// <summary>Turn of the margin at a place, degrees, 0 straight on.</summary>
    public double Turn(int index)
    {
        Point2d before = Unit(At(index - _step), At(index));
        Point2d after = Unit(At(index), At(index + _step));
        double cosine = Math.Clamp((before.X * after.X) + (before.Y * after.Y), -1, 1);
        return Math.Acos(cosine) * 180 / Math.PI;
    }

    /// <summary>Smoothed place of a point; the index wraps.</summary>
    public Point2d At(int index) => _smooth[Wrap(index, _smooth.Length)];

    private static Point2d Unit(Point2d a, Point2d b)
    {
        double length = Math.Max(1e-9, Distance(a, b));
        return new Point2d((b.X - a.X) / length, (b.Y - a.Y) / length);
    }

    private static double Distance(Point2d a, Point2d b) => Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));

    private static int Wrap(int index, int length) => ((index % length) + length) % length;
}
