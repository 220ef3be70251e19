using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>One shoot of a twig.</summary>
/// <param name="Points">Its course in mm, from where it leaves its parent to its end; the twig starts at 0, 0 and grows to the right.</param>
/// <param name="Order">0 for the twig itself, 1 for side shoots, 2 for their side shoots.</param>
/// <param name="Rise">How much nearer to the viewer it lies than the twig, -0.5..0.5.</param>
internal sealed record Shoot(Point2d[] Points, int Order, double Rise)
{
    /// <summary>Distance between neighbouring points in mm.</summary>
    public const double StepMm = 0.5;

    /// <summary>Length in mm.</summary>
    public double LengthMm => (Points.Length - 1) * StepMm;

    /// <summary>Place and direction at a distance from its start.</summary>
    public (Point2d At, double Angle) Along(double mm)
    {
        double place = Math.Clamp(mm / StepMm, 0, Points.Length - 1.001);
        int i = (int)place;
        Point2d step = Points[i + 1] - Points[i];
        return (Points[i] + (step * (place - i)), Math.Atan2(step.Y, step.X));
    }
}

/// <summary>Grows the shoots of a twig: side shoots to both sides, longest near the base, shortest near the end.</summary>
internal static class TwigSkeleton
{
    public static List<Shoot> Grow(Conifer host, double lengthMm, Random random)
    {
        List<Shoot> shoots = [new(Course(default, random.Between(-0.05, 0.05), lengthMm, random), 0, 0)];
        for (int order = 1; order <= host.Orders; order++)
        {
            foreach (Shoot parent in shoots.Where(s => s.Order == order - 1).ToArray())
            {
                Branch(shoots, parent, host, order, random);
            }
        }

        return shoots;
    }

    /// <summary>Rectangle in mm that the twig fills when it is turned by an angle (radians) about its start.</summary>
    public static Rect2d Bounds(IReadOnlyList<Shoot> shoots, double angle, double marginMm)
    {
        double cos = Math.Cos(angle);
        double sin = Math.Sin(angle);
        double left = double.MaxValue;
        double top = double.MaxValue;
        double right = double.MinValue;
        double bottom = double.MinValue;
        foreach (Point2d point in shoots.SelectMany(s => s.Points))
        {
            double x = (point.X * cos) - (point.Y * sin);
            double y = (point.X * sin) + (point.Y * cos);
            left = Math.Min(left, x);
            right = Math.Max(right, x);
            top = Math.Min(top, y);
            bottom = Math.Max(bottom, y);
        }

        return new Rect2d(left - marginMm, top - marginMm, right - left + (2 * marginMm), bottom - top + (2 * marginMm));
    }

    private static void Branch(List<Shoot> shoots, Shoot parent, Conifer host, int order, Random random)
    {
        double every = host.SideEveryMm * (order == 1 ? 1 : 0.75);
        double side = random.Pick([-1.0, 1.0]);
        for (double at = every * random.Between(0.8, 1.6); at < parent.LengthMm - (0.8 * every); at += every * random.Between(0.55, 1.1))
        {
            side = -side;
            double rest = 1 - (at / parent.LengthMm);

            // A little shorter again at the very base, where light is scarce.
            double full = Math.Min(1, 0.55 + (at / parent.LengthMm * 2.5));
            double length = parent.LengthMm * host.SideShare * Math.Pow(rest, 0.75) * full * random.Between(0.7, 1.15);
            if (length < 1.2 * host.LeafMm.Low)
            {
                continue;
            }

            (Point2d from, double angle) = parent.Along(at);
            double turn = angle + (side * (host.SideAngle + (6 * random.Normal())) * Math.PI / 180);
            double rise = parent.Rise + (host.Foliage == FoliageKind.Scale ? 0.1 * random.Normal() : 0.22 * random.Normal());
            shoots.Add(new Shoot(Course(from, turn, length, random), order, Math.Clamp(rise, -0.5, 0.5)));
        }
    }

    private static Point2d[] Course(Point2d from, double angle, double lengthMm, Random random)
    {
        int steps = Math.Max(4, (int)(lengthMm / Shoot.StepMm));
        var points = new Point2d[steps + 1];
        points[0] = from;
        double bend = 0.0022 * random.Normal();
        for (int i = 1; i <= steps; i++)
        {
            angle += bend + (0.012 * random.Normal());
            points[i] = points[i - 1] + new Point2d(Shoot.StepMm * Math.Cos(angle), Shoot.StepMm * Math.Sin(angle));
        }

        return points;
    }
}
