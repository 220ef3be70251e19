using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>The door of whole-plant rendering: a description in, a photo with exact truth out.</summary>
public static class PlantRenderer
{
    /// <summary>Renders a plant. The same description gives the same bytes.</summary>
    /// <exception cref="ArgumentException">A host is not one of <see cref="PlantHabits"/>.</exception>
    public static RenderedPlant Render(PlantSpec spec)
    {
        PlantHabit habit = PlantHabits.Named(spec.Host);
        Size photo = new(spec.WidthPx, spec.HeightPx);
        using Mat light = Surroundings.Paint(spec, photo);
        foreach (PlantSpec neighbour in spec.Neighbours)
        {
            using FineCanvas other = new(photo);
            Grow(neighbour, PlantHabits.Named(neighbour.Host), other);
            other.LayOver(light, cover => GroundShadow(light, cover, neighbour));
        }

        if (spec.Neighbours.Count > 0)
        {
            Cv2.GaussianBlur(light, light, default, photo.Width / 1600.0);
        }

        using FineCanvas canvas = new(photo);
        TuftState[] states = Grow(spec, habit, canvas);
        Mat codes = canvas.PhotoCodes();
        Mat full = spec.Damage.LostShare > 0 ? Full(spec, habit, photo) : codes.Clone();
        PlantTruth truth = PlantTally.Sum(codes, full, canvas, states);
        Cv2.Compare(full, new Scalar(0), full, CmpTypes.GT);
        canvas.LayOver(light, cover => GroundShadow(light, cover, spec));
        using Mat picture = PhoneCamera.Expose(light, spec.Camera);
        return new RenderedPlant(spec, PhotoFile.Jpeg(picture, spec.Camera), codes, full, truth);
    }

    private static TuftState[] Grow(PlantSpec spec, PlantHabit habit, FineCanvas canvas)
    {
        List<Tuft> tufts = Crown.Grow(spec, habit);
        TuftState[] states = CrownHarm.Spread(spec, tufts, habit.Fall is null);
        new CrownPainter(spec, habit, canvas).Draw(tufts, states);
        return states;
    }

    // The same plant with nothing fallen: what thinning is measured against.
    private static Mat Full(PlantSpec spec, PlantHabit habit, Size photo)
    {
        using FineCanvas canvas = new(photo);
        Grow(spec with { Damage = spec.Damage with { LostShare = 0 } }, habit, canvas);
        return canvas.PhotoCodes();
    }

    // Dark ground under the crown, thrown away from the light; and the gloom inside a crown, seen through its gaps.
    private static void GroundShadow(Mat light, Mat cover, PlantSpec spec)
    {
        double azimuth = spec.Light.AzimuthDegrees * Math.PI / 180;
        double wide = spec.HeightM * spec.WidthRatio * spec.PixelsPerM;
        using Mat dark = Pixels.NewFloat(light.Size());
        Point middle = new(spec.FootX - (0.25 * wide * Math.Cos(azimuth)), spec.FootY + (0.02 * wide));
        Cv2.Ellipse(dark, middle, new Size(0.55 * wide, 0.13 * wide), 0, 0, 360, Scalar.All(0.35 + (0.4 * spec.Light.Hardness)), -1);
        Cv2.GaussianBlur(dark, dark, default, Math.Max(1, 0.04 * wide * (1.2 - spec.Light.Hardness)));
        using Mat gloom = new();
        Cv2.GaussianBlur(cover, gloom, default, Math.Max(1, 0.02 * wide));
        int rows = light.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = Pixels.Floats(light, y);
            Span<float> d = Pixels.Floats(dark, y);
            Span<float> g = Pixels.Floats(gloom, y);
            for (int x = 0; x < d.Length; x++)
            {
                float rest = (1 - d[x]) * (1 - (0.8f * g[x] * g[x]));
                row[3 * x] *= rest;
                row[(3 * x) + 1] *= rest;
                row[(3 * x) + 2] *= rest;
            }
        }
    }
}
