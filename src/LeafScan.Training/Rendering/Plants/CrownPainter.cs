using LeafScan.Leaves.Reading;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Plants;

/// <summary>Draws a crown from back to front, tuft by tuft; owner numbers are tufts from 1.</summary>
internal sealed class CrownPainter(PlantSpec spec, PlantHabit habit, FineCanvas canvas)
{
    private readonly double _scale = spec.PixelsPerM * FineCanvas.Finer;
    private readonly double _azimuth = spec.Light.AzimuthDegrees * Math.PI / 180;
    private readonly double _radiusM = spec.HeightM * spec.WidthRatio / 2;

    public void Draw(IReadOnlyList<Tuft> tufts, TuftState[] states)
    {
        DrawWood();
        for (int i = 0; i < states.Length; i++)
        {
            if (states[i] != TuftState.Lost)
            {
                DrawTuft(tufts[i], states[i], i + 1);
            }
        }
    }

    private void DrawTuft(Tuft tuft, TuftState state, int number)
    {
        Random random = new(tuft.Seed);
        (LabColour tone, MaskCode code) = Look(tuft, state);
        Point2d middle = ToCanvas(tuft.X, tuft.Height * spec.HeightM);
        double shade = Shade(tuft);

        // Foliage points up and away from the middle of the plant.
        double up = Math.Atan2(-1, 0.9 * tuft.X / _radiusM);
        double half = tuft.SizeM * _scale / 2;
        int leaves = habit.Needles ? 11 : 7;
        for (int i = 0; i < leaves; i++)
        {
            double angle = up + (habit.Needles ? 0.75 : 1.3) * random.Normal();
            double length = half * random.Between(0.8, 1.5);
            double wide = length * (habit.Needles ? random.Between(0.06, 0.14) : random.Between(0.22, 0.34));
            Point2d foot = new(middle.X + (0.45 * half * random.Normal()), middle.Y + (0.45 * half * random.Normal()));
            LinearColour light = tone.Move(2 * random.Normal(), 0, random.Normal()).Linear().Times(shade * random.Between(0.7, 1.25));
            Point2d[] blade = Blade(foot, angle, length, wide);
            canvas.Paint(blade, light);
            canvas.Claim(blade, code, number);
        }
    }

    private (LabColour Tone, MaskCode Code) Look(Tuft tuft, TuftState state)
    {
        LabColour own = spec.Colour.Move(2 * tuft.Tone, 0.6 * tuft.Tone, 1.5 * tuft.Tone);
        double bronze = Math.Clamp(0.5 + (0.35 * tuft.Tone), 0, 1);
        return state switch
        {
            TuftState.Brown => (new LabColour(42 + (5 * tuft.Tone), 12 - (2 * tuft.Tone), 24 + (3 * tuft.Tone)), MaskCode.Browned),
            TuftState.Yellow => (new LabColour(Math.Min(72, (0.5 * own.L) + 34 - (8 * bronze)), (0.3 * own.A) + (5 * bronze), (0.5 * own.B) + 22 - (5 * bronze)), MaskCode.Yellowed),
            TuftState.Fall => (habit.Fall!.Value.Move(5 * tuft.Tone, 5 * tuft.Tone, 4 * tuft.Tone), MaskCode.Sound),
            TuftState.Fresh => (own.Move(9, -3, 9), MaskCode.Sound),
            _ => (own, MaskCode.Sound),
        };
    }

    // Light by where the surface looks; the inside of a crown gets little of it.
    private double Shade(Tuft tuft)
    {
        double side = -tuft.X / Math.Max(0.05, _radiusM) * Math.Cos(_azimuth);
        double facing = (-0.75 * side) + (0.55 * tuft.Height);
        double direct = spec.Light.Hardness * Math.Clamp(0.25 + (0.75 * facing), 0, 1.1);
        double diffuse = (1 - spec.Light.Hardness) * (0.55 + (0.35 * tuft.Height));
        double inside = Math.Pow(Math.Clamp(tuft.Out, 0, 1), 3.5);
        double behind = tuft.Z < 0 ? 0.75 : 1;
        return (0.12 + direct + diffuse) * (0.12 + (0.88 * inside)) * behind;
    }

    private void DrawWood()
    {
        LinearColour bark = new LabColour(30, 6, 12).Linear().Times(0.6);
        Random random = new(spec.Seed + 1);
        int stems = habit.Form switch { CrownForm.Cone or CrownForm.Column => 1, CrownForm.Vase => 7, _ => 5 };
        for (int stem = 0; stem < stems; stem++)
        {
            double lean = stems == 1 ? 0 : _radiusM * random.Between(-0.75, 0.75);
            double tall = spec.HeightM * (stems == 1 ? 0.93 : random.Between(0.5, 0.85));
            Branch(0, 0, lean, tall, 0.018 * spec.HeightM, bark);
            for (int side = 0; side < 14; side++)
            {
                // Branches rise a little and end well inside the crown.
                double at = random.Between(0.15, 0.9);
                double reach = 0.75 * _radiusM * random.Between(-1, 1);
                double high = (tall * at) + (0.35 * Math.Abs(reach));
                double room = 0.72 * _radiusM * habit.RadiusAt(Math.Min(0.97, high / spec.HeightM));
                if (high < 0.97 * spec.HeightM)
                {
                    Branch(Math.Clamp(lean * at, -room, room), tall * at, Math.Clamp((lean * at) + reach, -room, room), high, 0.006 * spec.HeightM, bark);
                }
            }
        }
    }

    private void Branch(double x1, double y1, double x2, double y2, double thickM, LinearColour bark)
    {
        Point2d from = ToCanvas(x1, y1);
        Point2d to = ToCanvas(x2, y2);
        Point2d step = to - from;
        double length = Math.Max(1e-6, Math.Sqrt(step.DotProduct(step)));
        Point2d across = new(-step.Y / length * thickM * _scale / 2, step.X / length * thickM * _scale / 2);
        Point2d[] corners = [from + across, to + (across * 0.4), to - (across * 0.4), from - across];
        canvas.Paint(corners, bark);
        canvas.Claim(corners, MaskCode.Background, 0);
    }

    private static Point2d[] Blade(Point2d foot, double angle, double length, double wide)
    {
        double cos = Math.Cos(angle);
        double sin = Math.Sin(angle);
        Point2d Place(double along, double across) => new(foot.X + (along * length * cos) - (across * wide * sin), foot.Y + (along * length * sin) + (across * wide * cos));
        return [Place(0, -0.4), Place(0.45, -1), Place(0.8, -0.6), Place(1, 0), Place(0.8, 0.6), Place(0.45, 1), Place(0, 0.4)];
    }

    private Point2d ToCanvas(double x, double y) => new((spec.FootX * FineCanvas.Finer) + (x * _scale), (spec.FootY * FineCanvas.Finer) - (y * _scale));
}
