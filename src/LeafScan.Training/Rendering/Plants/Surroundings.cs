using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>Paints what is around a plant: backdrop, ground, flowers, label. Float B, G, R in linear light.</summary>
internal static class Surroundings
{
    public static Mat Paint(PlantSpec spec, Size photo)
    {
        Random random = new(spec.Place.Seed);
        Mat picture = new(photo, MatType.CV_32FC3);
        int horizon = (int)(photo.Height * spec.Place.Horizon);
        using (Mat back = new(picture, new Rect(0, 0, photo.Width, horizon)))
        {
            using Mat painted = Backdrop(spec.Place.Backdrop, back.Size(), spec.PixelsPerM, random);
            painted.CopyTo(back);
        }

        using (Mat front = new(picture, new Rect(0, horizon, photo.Width, photo.Height - horizon)))
        {
            using Mat painted = spec.Place.Lawn ? Lawn(front.Size(), spec.PixelsPerM, random) : Mulch(front.Size(), spec.PixelsPerM, random);
            painted.CopyTo(front);
        }

        Blend(picture, horizon);
        Flowers(picture, spec, random);
        Label(picture, spec);
        return picture;
    }

    private static Mat Backdrop(BackdropKind kind, Size size, double pixelsPerM, Random random) => kind switch
    {
        BackdropKind.Wall => Wall(size, pixelsPerM, random),
        BackdropKind.Hedge => Hedge(size, pixelsPerM, random),
        _ => Sky(size, random),
    };

    private static Mat Wall(Size size, double pixelsPerM, Random random)
    {
        using Mat grain = SmoothNoise.Make(size, Math.Max(4, 0.02 * pixelsPerM), random, 4, 0.7);
        using Mat stain = SmoothNoise.Make(size, 0.6 * pixelsPerM, random, 3, 0.5);
        LinearColour c = new LabColour(random.Between(60, 85), random.Between(0, 5), random.Between(3, 16)).Linear();
        return Toned(size, c, (grain, 0.05f), (stain, 0.07f));
    }

    private static Mat Hedge(Size size, double pixelsPerM, Random random)
    {
        Mat hedge = Foliage.Paint(size, pixelsPerM / 1000, random);
        Cv2.GaussianBlur(hedge, hedge, default, random.Between(1.5, 6));
        return hedge;
    }

    private static Mat Sky(Size size, Random random)
    {
        using Mat cloud = SmoothNoise.Make(size, size.Width / 4.0, random, 4, 0.5);
        Mat sky = Toned(size, new LabColour(random.Between(80, 92), random.Between(-3, 0), random.Between(-14, -3)).Linear(), (cloud, 0.05f), (cloud, 0.02f));

        // A far line of trees.
        using Mat height = SmoothNoise.Make(new Size(size.Width, 2), size.Width / 9.0, random, 5, 0.6);
        Span<float> top = Pixels.Floats(height, 0);
        LinearColour trees = new LabColour(random.Between(28, 40), -8, random.Between(8, 16)).Linear();
        for (int x = 0; x < size.Width; x++)
        {
            int from = (int)(size.Height * Math.Clamp(0.72 - (0.06 * top[x]), 0.3, 0.95));
            Cv2.Line(sky, new Point(x, from), new Point(x, size.Height - 1), new Scalar(trees.B, trees.G, trees.R));
        }

        Cv2.GaussianBlur(sky, sky, default, 3);
        return sky;
    }

    private static Mat Lawn(Size size, double pixelsPerM, Random random)
    {
        using Mat patches = SmoothNoise.Make(size, 0.5 * pixelsPerM, random, 3, 0.5);
        LabColour tone = new(random.Between(40, 52), random.Between(-20, -11), random.Between(22, 36));
        Mat lawn = Toned(size, tone.Linear().Times(0.45), (patches, 0.12f), (patches, 0.03f));
        int blades = (int)Math.Min(60_000, size.Width * size.Height / 14.0);
        for (int i = 0; i < blades; i++)
        {
            // Nearer blades are larger and drawn later.
            double near = (double)i / blades;
            double y = size.Height * near;
            double length = (0.012 + (0.03 * near)) * pixelsPerM * random.Between(0.6, 1.3);
            double x = random.Between(0, size.Width);
            LinearColour c = tone.Move(7 * random.Normal(), 2 * random.Normal(), 4 * random.Normal()).Linear().Times(random.Between(0.6, 1.15));
            Cv2.Line(lawn, new Point(x, y), new Point(x + (0.4 * length * random.Normal()), y - length), new Scalar(c.B, c.G, c.R), near > 0.6 ? 2 : 1);
        }

        return lawn;
    }

    private static Mat Mulch(Size size, double pixelsPerM, Random random)
    {
        // Chips are some centimetres long; the ground painter counts in mm.
        Mat mulch = Ground.Mulch(size, Math.Max(0.25, 1.6 * pixelsPerM / 1000), random);
        Cv2.GaussianBlur(mulch, mulch, default, 0.8);
        return mulch;
    }

    private static Mat Toned(Size size, LinearColour colour, params (Mat Field, float Strength)[] fields)
    {
        Mat picture = new(size, MatType.CV_32FC3);
        for (int y = 0; y < size.Height; y++)
        {
            Span<float> to = Pixels.Floats(picture, y);
            for (int x = 0; x < size.Width; x++)
            {
                to[3 * x] = colour.B;
                to[(3 * x) + 1] = colour.G;
                to[(3 * x) + 2] = colour.R;
            }

            foreach ((Mat field, float strength) in fields)
            {
                Span<float> f = Pixels.Floats(field, y);
                for (int x = 0; x < size.Width; x++)
                {
                    float factor = Math.Clamp(1 + (strength * f[x]), 0.3f, 2);
                    to[3 * x] *= factor;
                    to[(3 * x) + 1] *= factor;
                    to[(3 * x) + 2] *= factor;
                }
            }
        }

        return picture;
    }

    // Where ground meets backdrop, a soft dark line: nothing in a garden ends with a ruler.
    private static void Blend(Mat picture, int horizon)
    {
        int half = Math.Max(2, picture.Rows / 120);
        Rect strip = new Rect(0, horizon - half, picture.Cols, 2 * half).Intersect(new Rect(0, 0, picture.Cols, picture.Rows));
        using Mat part = new(picture, strip);
        Cv2.GaussianBlur(part, part, default, half / 2.0);
        part.ConvertTo(part, -1, 0.8);
    }

    private static void Flowers(Mat picture, PlantSpec spec, Random random)
    {
        LabColour[] kinds = [new(70, 30, 60), new(55, 60, 20), new(88, 2, 10), new(50, 40, -30)];
        LinearColour c = random.Pick(kinds).Linear();
        for (int i = 0; i < spec.Place.Flowers; i++)
        {
            double y = random.Between(Math.Min(0.95, spec.Place.Horizon + 0.1), 0.99) * picture.Rows;
            double x = random.Between(0, picture.Cols);
            double size = random.Between(0.008, 0.02) * spec.PixelsPerM;
            for (int petal = 0; petal < 5; petal++)
            {
                double turn = 2 * Math.PI * petal / 5;
                LinearColour p = c.Times(random.Between(0.75, 1.1));
                Cv2.Circle(picture, new Point(x + (size * Math.Cos(turn)), y + (0.7 * size * Math.Sin(turn))), Math.Max(1, (int)(0.7 * size)), new Scalar(p.B, p.G, p.R), -1);
            }
        }
    }

    private static void Label(Mat picture, PlantSpec spec)
    {
        if (!spec.Place.Label)
        {
            return;
        }

        double x = spec.FootX + (spec.HeightM * spec.WidthRatio * 0.4 * spec.PixelsPerM);
        double wide = 0.05 * spec.PixelsPerM;
        Rect stake = new((int)x, (int)(spec.FootY - (1.4 * wide)), Math.Max(2, (int)(0.12 * wide)), (int)(1.8 * wide));
        Rect sign = new((int)(x - (wide / 2)), (int)(spec.FootY - (2 * wide)), (int)wide, (int)(0.65 * wide));
        Cv2.Rectangle(picture, stake, new Scalar(0.5, 0.5, 0.5), -1);
        Cv2.Rectangle(picture, sign, new Scalar(0.8, 0.82, 0.83), -1);
    }
}
