using OpenCvSharp;

namespace LeafScan.Taps.Overlay;

/// <summary>
/// How each kind of speck is marked: shape and line first, so that grey print and colour-blind eyes tell them apart;
/// colours from the palette of Okabe and Ito (2008).
/// </summary>
internal static class TapMark
{
    private static readonly Scalar Vermilion = new(0, 94, 213);
    private static readonly Scalar Blue = new(178, 114, 0);
    private static readonly Scalar Grey = new(140, 140, 140);

    /// <summary>What a kind is called in the legend; null for kinds that are not marked.</summary>
    public static string Words(SpeckFate fate) => fate switch
    {
        SpeckFate.Crawling => "crawling",
        SpeckFate.PossiblePredator => "possible predator (fast)",
        SpeckFate.Blown => "moved with the wind",
        SpeckFate.Gone => "gone from here",
        SpeckFate.Come => "came here",
        SpeckFate.Candidate => "candidate: mite or dust",
        _ => "debris",
    };

    /// <summary>Draws the mark of one speck and, where it moved, the way it went.</summary>
    /// <param name="picture">8-bit B G R.</param>
    /// <param name="fate">What it is.</param>
    /// <param name="at">Its old place.</param>
    /// <param name="to">Its new place; the same when it lay still.</param>
    /// <param name="radius">Radius of the mark.</param>
    /// <param name="stroke">Width of a thin line.</param>
    public static void Draw(Mat picture, SpeckFate fate, Point at, Point to, int radius, int stroke)
    {
        switch (fate)
        {
            case SpeckFate.Crawling:
                Line(picture, at, to, Vermilion, 2 * stroke, stroke);
                Cv2.Circle(picture, at, radius, Scalar.White, (2 * stroke) + 2, LineTypes.AntiAlias);
                Cv2.Circle(picture, at, radius, Vermilion, 2 * stroke, LineTypes.AntiAlias);
                Cv2.Circle(picture, to, 2 * stroke, Vermilion, -1, LineTypes.AntiAlias);
                break;
            case SpeckFate.PossiblePredator:
                Line(picture, at, to, Blue, 2 * stroke, stroke);
                Square(picture, at, radius, Scalar.White, (2 * stroke) + 2);
                Square(picture, at, radius, Blue, 2 * stroke);
                Square(picture, to, 2 * stroke, Blue, -1);
                break;
            case SpeckFate.Candidate:
                Cv2.Circle(picture, at, radius, Vermilion, stroke, LineTypes.AntiAlias);
                break;
            case SpeckFate.Gone:
                Triangle(picture, at, radius, 1, stroke);
                break;
            case SpeckFate.Come:
                Triangle(picture, at, radius, -1, stroke);
                break;
            case SpeckFate.Blown:
                Cv2.Line(picture, at, to, Grey, stroke, LineTypes.AntiAlias);
                Cross(picture, at, Math.Max(3, radius / 3), stroke);
                break;
            default:
                Cross(picture, at, Math.Max(3, radius / 3), stroke);
                break;
        }
    }

    private static void Line(Mat picture, Point at, Point to, Scalar colour, int width, int stroke)
    {
        Cv2.Line(picture, at, to, Scalar.White, width + (2 * stroke), LineTypes.AntiAlias);
        Cv2.Line(picture, at, to, colour, width, LineTypes.AntiAlias);
    }

    private static void Square(Mat picture, Point at, int radius, Scalar colour, int width) =>
        Cv2.Rectangle(picture, new Point(at.X - radius, at.Y - radius), new Point(at.X + radius, at.Y + radius), colour, width, LineTypes.AntiAlias);

    private static void Cross(Mat picture, Point at, int half, int stroke)
    {
        Cv2.Line(picture, new Point(at.X - half, at.Y - half), new Point(at.X + half, at.Y + half), Grey, stroke, LineTypes.AntiAlias);
        Cv2.Line(picture, new Point(at.X - half, at.Y + half), new Point(at.X + half, at.Y - half), Grey, stroke, LineTypes.AntiAlias);
    }

    // Point down: it left; point up: it came.
    private static void Triangle(Mat picture, Point at, int radius, int down, int stroke)
    {
        Point[] corners = [new(at.X - radius, at.Y - (down * radius)), new(at.X + radius, at.Y - (down * radius)), new(at.X, at.Y + (down * radius))];
        Cv2.Polylines(picture, [corners], true, Grey, stroke, LineTypes.AntiAlias);
    }
}
