using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Chewing;

/// <summary>The margin as a closed line of points one pixel apart, slightly smoothed.</summary>
internal sealed class MarginLine
{
    private readonly Point[] _raw;
    private readonly Point2d[] _smooth;
    private readonly int _step;

    private MarginLine(Point[] raw, Point2d[] smooth)
    {
        _raw = raw;
        _smooth = smooth;

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

    /// <summary>The dent that borders the region <paramref name="label"/> of a label picture, or null when it is none.</summary>
    public Dent? DentAt(Mat labels, int label)
    {
        bool[] touches = new bool[_raw.Length];
        int touching = 0;
        for (int i = 0; i < _raw.Length; i++)
        {
            if (Touches(labels, _raw[i], label))
            {
                touches[i] = true;
                touching++;
            }
        }

        if (touching < 6 || touching > _raw.Length / 2)
        {
            return null;
        }

        (int start, int length) = LongestRun(touches, _step);
        if (length < 6)
        {
            return null;
        }

        start = SharpestCorner(start - _step, start + _step);
        int end = SharpestCorner(start + length - _step, start + length + _step);
        if (end - start < 6)
        {
            return null;
        }

        Point2d a = At(start);
        Point2d b = At(end);
        double mouth = Math.Max(1, Distance(a, b));
        double depth = 0;
        for (int i = start; i <= end; i++)
        {
            Point2d p = At(i);
            depth = Math.Max(depth, Math.Abs(((b.X - a.X) * (a.Y - p.Y)) - ((a.X - p.X) * (b.Y - a.Y))) / mouth);
        }

        return new Dent(start, end, mouth, depth / mouth, Math.Min(Turn(start), Turn(end)));
    }

    /// <summary>Place and unit direction of the margin just before <paramref name="index"/>, going towards it.</summary>
    public (Point2d Place, Point2d Direction) Before(int index)
        => (At(index), Unit(At(index - (2 * _step)), At(index - (_step / 3))));

    /// <summary>Place and unit direction of the margin just after <paramref name="index"/>, going away from it.</summary>
    public (Point2d Place, Point2d Direction) After(int index)
        => (At(index), Unit(At(index + (_step / 3)), At(index + (2 * _step))));

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
            Point2d a = At(i);
            Point2d b = At(i + length);
            double chord = Distance(a, b);
            if (chord < length * 0.7 || Turn(i) < 45 || Turn(i + length) < 20)
            {
                continue;
            }

            bool straight = true;
            for (int k = i; k <= i + length && straight; k += 3)
            {
                Point2d p = At(k);
                straight = Math.Abs(((b.X - a.X) * (a.Y - p.Y)) - ((a.X - p.X) * (b.Y - a.Y))) / chord < 1.2;
            }

            if (straight)
            {
                return true;
            }
        }

        return false;
    }

    private static bool Touches(Mat labels, Point p, int label)
    {
        for (int dy = -1; dy <= 1; dy++)
        {
            int y = p.Y + dy;
            if (y < 0 || y >= labels.Rows)
            {
                continue;
            }

            ReadOnlySpan<int> row = labels.AsRow<int>(y);
            for (int dx = -1; dx <= 1; dx++)
            {
                int x = p.X + dx;
                if (x >= 0 && x < row.Length && row[x] == label)
                {
                    return true;
                }
            }
        }

        return false;
    }

    // The longest run of true in a ring, gaps of a few pixels bridged.
    private static (int Start, int Length) LongestRun(bool[] ring, int bridge)
    {
        int bestStart = 0;
        int bestLength = 0;
        int start = -1;
        int last = -1;
        for (int i = 0; i < ring.Length * 2; i++)
        {
            if (!ring[i % ring.Length])
            {
                continue;
            }

            if (start < 0 || i - last > bridge)
            {
                start = i;
            }

            last = i;
            int length = last - start;
            if (length > bestLength && length < ring.Length)
            {
                bestLength = length;
                bestStart = start;
            }
        }

        return (bestStart % ring.Length, bestLength);
    }

    private int SharpestCorner(int from, int to)
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

    private double Turn(int index)
    {
        Point2d before = Unit(At(index - _step), At(index));
        Point2d after = Unit(At(index), At(index + _step));
        double cosine = Math.Clamp((before.X * after.X) + (before.Y * after.Y), -1, 1);
        return Math.Acos(cosine) * 180 / Math.PI;
    }

    private Point2d At(int index) => _smooth[Wrap(index, _smooth.Length)];

    private static Point2d Unit(Point2d a, Point2d b)
    {
        double length = Math.Max(1e-9, Distance(a, b));
        return new Point2d((b.X - a.X) / length, (b.Y - a.Y) / length);
    }

    private static double Distance(Point2d a, Point2d b) => Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));

    private static int Wrap(int index, int length) => ((index % length) + length) % length;
}
