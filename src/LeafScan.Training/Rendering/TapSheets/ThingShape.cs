using LeafScan.Training.Rendering.Support;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>
/// The outline of a thing in its own mm, head along x: which part of it a place belongs to. Bodies are ellipses, the rest
/// strokes with round ends.
/// </summary>
internal sealed class ThingShape
{
    private readonly TapThing _thing;
    private readonly List<(double X1, double Y1, double X2, double Y2, double Half)> _strokes = [];
    private readonly double _half;
    private readonly double _halfWide;
    private readonly double _dent;
    private readonly double _dentTurn;

    public ThingShape(TapThing thing)
    {
        _thing = thing;
        Random random = new(thing.Seed);
        _half = thing.LengthMm / 2;
        _halfWide = _half * thing.WidthRatio;
        _dent = thing.Kind is TapKind.Dust or TapKind.Grain ? random.Between(0, 0.3) : 0;
        _dentTurn = random.Between(0, 2 * Math.PI);
        ReachMm = _half;
        switch (thing.Kind)
        {
            case TapKind.Mite:
                Legs(0.42, 0.02, random);
                break;
            case TapKind.Predator:
                Legs(0.6, 0.022, random);
                break;
            case TapKind.Fibre:
                Thread(random);
                break;
            case TapKind.PlantBit:
                _strokes.Add((-_half + _halfWide, 0, _half - _halfWide, random.Between(-0.1, 0.1) * _half, _halfWide));
                break;
        }
    }

    /// <summary>Farthest place from the middle, mm.</summary>
    public double ReachMm { get; private set; }

    /// <summary>0 outside, 1 leg, 2 body or stroke, 3 dark gut spot.</summary>
    public int PartAt(double x, double y)
    {
        if (_thing.Kind is not (TapKind.Fibre or TapKind.PlantBit) && InBody(x, y))
        {
            return _thing.Kind == TapKind.Mite && InSpot(x, y) ? 3 : 2;
        }

        foreach ((double x1, double y1, double x2, double y2, double half) in _strokes)
        {
            double dx = x2 - x1;
            double dy = y2 - y1;
            double t = Math.Clamp((((x - x1) * dx) + ((y - y1) * dy)) / Math.Max(1e-9, (dx * dx) + (dy * dy)), 0, 1);
            double ex = x - x1 - (t * dx);
            double ey = y - y1 - (t * dy);
            if ((ex * ex) + (ey * ey) < half * half)
            {
                return _thing.Kind is TapKind.Fibre or TapKind.PlantBit ? 2 : 1;
            }
        }

        return 0;
    }

    private bool InBody(double x, double y)
    {
        // Mites are broadest behind the middle.
        double wide = _halfWide * (1 - (_thing.Kind is TapKind.Mite or TapKind.Predator ? 0.22 * x / _half : 0));
        double u = x / _half;
        double v = y / wide;
        double edge = _dent > 0 ? 1 - (_dent * Math.Cos((2 * Math.Atan2(v, u)) + _dentTurn)) : 1;
        return (u * u) + (v * v) < edge * edge;
    }

    private bool InSpot(double x, double y)
    {
        double u = (x + (0.1 * _half)) / (0.42 * _half);
        double v = (Math.Abs(y) - (0.5 * _halfWide)) / (0.34 * _halfWide);
        return (u * u) + (v * v) < 1;
    }

    private void Legs(double lengthShare, double half, Random random)
    {
        double length = lengthShare * _thing.LengthMm;
        ReachMm = _half + length;
        foreach (int side in (ReadOnlySpan<int>)[-1, 1])
        {
            foreach (double spread in (ReadOnlySpan<double>)[28, 62, 112, 146])
            {
                double angle = side * (spread + random.Between(-10, 10)) * Math.PI / 180;
                double x = 0.75 * _half * Math.Cos(angle);
                double y = 0.8 * _halfWide * Math.Sin(angle);
                _strokes.Add((x, y, x + (length * Math.Cos(angle)), y + (length * Math.Sin(angle)), half * _thing.LengthMm / 0.4));
            }
        }
    }

    private void Thread(Random random)
    {
        const int Steps = 7;
        double angle = 0.3 * random.Normal();
        double bend = 0.35 * random.Normal();
        double x = -_half * Math.Cos(angle);
        double y = -_half * Math.Sin(angle);
        for (int i = 0; i < Steps; i++)
        {
            double nextX = x + (2 * _half / Steps * Math.Cos(angle));
            double nextY = y + (2 * _half / Steps * Math.Sin(angle));
            _strokes.Add((x, y, nextX, nextY, _halfWide));
            (x, y) = (nextX, nextY);
            angle += bend;
            ReachMm = Math.Max(ReachMm, Math.Sqrt((x * x) + (y * y)) + _halfWide);
        }
    }
}
