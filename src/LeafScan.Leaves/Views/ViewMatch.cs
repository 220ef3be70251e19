using System.Globalization;
using OpenCvSharp;

namespace LeafScan.Leaves.Views;

/// <summary>
/// How a later photo lies over an earlier one of the same scene: features that both have (AKAZE; Alcantarilla, Nuevo and Bartoli 2013), and
/// the plane-to-plane map that most of them agree on (random sample consensus; Fischler and Bolles 1981). A plant is no plane, so the camera
/// must stand about where it stood before.
/// </summary>
/// <param name="Map">3 by 3, row by row: from a place in the later photo to one in the earlier; null when they cannot be lined up.</param>
/// <param name="Agreeing">Features that agree on it.</param>
/// <param name="Refusal">Why they cannot be lined up, and what to do; null when they can.</param>
internal sealed record ViewMatch(double[]? Map, int Agreeing, (string Reason, string Advice)? Refusal)
{
    private const float Distinct = 0.8f;
    private const double WithinPx = 4;
    private const int LeastAgreeing = 25;
    private const double LeastShare = 0.15;

    // A step aside, back or a tilt of the phone; more is another view.
    private const double LeastScale = 0.5;
    private const double MostScale = 2;
    private const double MostTurnDegrees = 25;
    private const double MostSkew = 0.25;

    private const string StandThere = "Stand where the earlier photo was taken from, with the same things behind the plant; a mark on the path helps.";

    /// <summary>Lines them up.</summary>
    /// <param name="earlier">8-bit B, G, R.</param>
    /// <param name="later">8-bit B, G, R.</param>
    public static ViewMatch Find(Mat earlier, Mat later)
    {
        (KeyPoint[] first, Mat firstWords) = Features(earlier);
        (KeyPoint[] second, Mat secondWords) = Features(later);
        using (firstWords)
        using (secondWords)
        {
            if (first.Length < LeastAgreeing || second.Length < LeastAgreeing)
            {
                return Refused(0, "there is too little detail in one of them");
            }

            List<(Point2d From, Point2d To)> pairs = Pairs(first, firstWords, second, secondWords);
            if (pairs.Count < LeastAgreeing)
            {
                return Refused(pairs.Count, Few(pairs.Count));
            }

            using Mat agreeing = new();

            // The random samples are always the same ones.
            Cv2.SetTheRNG(1);
            using Mat map = Cv2.FindHomography(pairs.Select(p => p.From), pairs.Select(p => p.To), HomographyMethods.Ransac, WithinPx, agreeing);
            int count = map.Empty() ? 0 : Cv2.CountNonZero(agreeing);
            if (count < LeastAgreeing || count < LeastShare * pairs.Count)
            {
                return Refused(count, Few(count));
            }

            double[] places = [.. Enumerable.Range(0, 9).Select(i => map.Get<double>(i / 3, i % 3))];
            return IsSameView(places, later.Size()) ? new ViewMatch(places, count, null) : Refused(count, "the camera stood elsewhere or was held in another way");
        }
    }

    /// <summary>The map as a picture function takes it; the caller disposes it.</summary>
    public Mat ToMat()
    {
        Mat map = new(3, 3, MatType.CV_64FC1);
        for (int i = 0; i < 9; i++)
        {
            map.Set(i / 3, i % 3, Map![i]);
        }

        return map;
    }

    /// <summary>A refusal.</summary>
    public static ViewMatch Refused(int agreeing, string because) => new(null, agreeing, ($"The two views cannot be lined up: {because}.", StandThere));

    private static string Few(int count)
        => string.Create(CultureInfo.InvariantCulture, $"only {count} places look alike in both, and at least {LeastAgreeing} must, so they show different sides or much about the plant has changed");

    private static (KeyPoint[] Points, Mat Words) Features(Mat bgr)
    {
        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        using CLAHE even = Cv2.CreateCLAHE(2, new Size(8, 8));
        even.Apply(grey, grey);
        using AKAZE finder = AKAZE.Create();
        Mat words = new();
        finder.DetectAndCompute(grey, null, out KeyPoint[] points, words);
        return (points, words);
    }

    // Best partners of each other that are clearly better than the second best.
    private static List<(Point2d From, Point2d To)> Pairs(KeyPoint[] first, Mat firstWords, KeyPoint[] second, Mat secondWords)
    {
        using BFMatcher matcher = new(NormTypes.Hamming);
        Dictionary<int, int> back = matcher.Match(firstWords, secondWords).ToDictionary(m => m.QueryIdx, m => m.TrainIdx);
        return [.. matcher.KnnMatch(secondWords, firstWords, 2)
            .Where(two => two.Length == 2 && two[0].Distance < Distinct * two[1].Distance && back.GetValueOrDefault(two[0].TrainIdx, -1) == two[0].QueryIdx)
            .Select(two => (Place(second[two[0].QueryIdx]), Place(first[two[0].TrainIdx])))];
    }

    private static Point2d Place(KeyPoint point) => new(point.Pt.X, point.Pt.Y);

    // The corners of the later photo must stay a rectangle, nearly.
    private static bool IsSameView(double[] map, Size size)
    {
        Point2d[] corners = [.. new[] { new Point2d(0, 0), new Point2d(size.Width, 0), new Point2d(size.Width, size.Height), new Point2d(0, size.Height) }.Select(p => Apply(map, p))];
        Point2d[] sides = [.. Enumerable.Range(0, 4).Select(i => corners[(i + 1) % 4] - corners[i])];
        double[] scales = [.. sides.Select((side, i) => Length(side) / (i % 2 == 0 ? size.Width : size.Height))];
        double turn = Math.Atan2(sides[0].Y, sides[0].X) * 180 / Math.PI;
        bool square = Enumerable.Range(0, 4).All(i => Math.Abs(Dot(sides[i], sides[(i + 1) % 4])) < MostSkew * Length(sides[i]) * Length(sides[(i + 1) % 4]) && Cross(sides[i], sides[(i + 1) % 4]) > 0);
        return square && Math.Abs(turn) <= MostTurnDegrees && scales.All(s => s is >= LeastScale and <= MostScale);
    }

    private static Point2d Apply(double[] m, Point2d p)
    {
        double w = (m[6] * p.X) + (m[7] * p.Y) + m[8];
        return new Point2d(((m[0] * p.X) + (m[1] * p.Y) + m[2]) / w, ((m[3] * p.X) + (m[4] * p.Y) + m[5]) / w);
    }

    private static double Length(Point2d p) => Math.Sqrt((p.X * p.X) + (p.Y * p.Y));

    private static double Dot(Point2d a, Point2d b) => (a.X * b.X) + (a.Y * b.Y);

    private static double Cross(Point2d a, Point2d b) => (a.X * b.Y) - (a.Y * b.X);
}
