using LeafScan.Leaves.Reading;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Draws a twig from back to front in layers; each layer shades those below it.</summary>
internal sealed class TwigPainter
{
    private const int Layers = 5;
    private const int WoodLayer = 2;

    private readonly TwigSpec _spec;
    private readonly FineCanvas _canvas;
    private readonly IReadOnlyList<Shoot> _shoots;
    private readonly Conifer _host;
    private readonly TwigColour _colour;
    private readonly double _scale;
    private readonly double _turn;
    private readonly Point2d _middle;

    public TwigPainter(TwigSpec spec, IReadOnlyList<Shoot> shoots, FineCanvas canvas)
    {
        _spec = spec;
        _canvas = canvas;
        _shoots = shoots;
        _host = Conifers.Named(spec.Host);
        _colour = new TwigColour(spec);
        _scale = spec.PixelsPerMm * FineCanvas.Finer;
        _turn = spec.AngleDegrees * Math.PI / 180;
        Rect2d bounds = TwigSkeleton.Bounds(shoots, _turn, 0);
        _middle = new Point2d(bounds.X + (bounds.Width / 2), bounds.Y + (bounds.Height / 2));
    }

    /// <summary>Draws wood and leaves that have not fallen.</summary>
    public void Draw(IReadOnlyList<TwigLeaf> leaves, LeafHarm[] harm)
    {
        ILookup<int, int> byLayer = Enumerable.Range(0, leaves.Count).Where(i => !harm[i].Lost)
            .ToLookup(i => Math.Min(Layers - 1, (int)(leaves[i].Depth * Layers)));
        for (int layer = 0; layer < Layers; layer++)
        {
            if (layer == WoodLayer)
            {
                DrawWood();
            }

            if (layer > 0)
            {
                Shade(byLayer[layer], leaves);
            }

            foreach (int i in byLayer[layer].OrderBy(i => leaves[i].Depth))
            {
                DrawLeaf(leaves[i], harm[i], i + 1);
            }
        }
    }

    /// <summary>Where a leaf lies on the _canvas.</summary>
    public LeafOutline Lay(TwigLeaf leaf) => new(leaf, ToCanvas(leaf.At), leaf.Angle + _turn, _scale);

    private void Shade(IEnumerable<int> layer, IReadOnlyList<TwigLeaf> leaves)
    {
        using Mat cover = Pixels.NewMask(_canvas.Cover.Size());
        foreach (int i in layer)
        {
            Cv2.FillPoly(cover, [FineCanvas.Fixed(Lay(leaves[i]).Part(0, 1))], Scalar.All(255), LineTypes.Link8, 4);
        }

        double azimuth = _spec.Light.AzimuthDegrees * Math.PI / 180;
        double away = 0.8 * _host.LeafWidthMm * _scale;
        _canvas.Darken(cover, new Point2d(-away * Math.Cos(azimuth), -away * Math.Sin(azimuth)), (1.1 - (0.8 * _spec.Light.Hardness)) * _host.LeafWidthMm * _scale, 0.3 + (0.35 * _spec.Light.Hardness));
    }

    private void DrawLeaf(TwigLeaf leaf, LeafHarm harm, int number)
    {
        LeafOutline outline = Lay(leaf);
        LabColour sound = _colour.Sound(leaf);
        LabColour yellow = TwigColour.Yellow(sound, leaf);
        LabColour brown = TwigColour.Brown(leaf);
        Segment(outline, leaf, sound, MaskCode.Sound, (0, 1), number);
        Turn(outline, leaf, yellow, MaskCode.Yellowed, harm.Yellow, number, sound);
        Turn(outline, leaf, brown, MaskCode.Browned, harm.Brown, number, sound);
        foreach (LeafSpeck speck in harm.Specks)
        {
            // Dead tissue shows no specks, and none reaches into it.
            double reach = 0.5 * speck.DiameterMm * Math.Sqrt(speck.Stretch) / leaf.LengthMm;
            if (harm.Brown.To > harm.Brown.From && speck.Along + reach > harm.Brown.From && speck.Along - reach < harm.Brown.To)
            {
                continue;
            }

            bool inYellow = speck.Along >= harm.Yellow.From && speck.Along < harm.Yellow.To;
            LinearColour under = (inYellow ? yellow : sound).Linear();
            LinearColour pale = TwigColour.Bleached(inYellow ? yellow : sound).Linear();
            double lit = _colour.Shade(leaf, outline.Angle, speck.Across < 0 ? -1 : 1);
            Point2d[] disc = outline.Disc(speck);
            _canvas.Paint(disc, Mixed(under, pale, speck.Strength).Times(lit));
            _canvas.Claim(disc, MaskCode.Speck, number);
        }
    }

    // Discoloured tissue ends in a short passage; the truth changes in its middle.
    private void Turn(LeafOutline outline, TwigLeaf leaf, LabColour colour, MaskCode code, (double From, double To) part, int number, LabColour sound)
    {
        const double Passage = 0.06;
        Segment(outline, leaf, colour, code, part, number);
        LabColour between = new((colour.L + sound.L) / 2, (colour.A + sound.A) / 2, (colour.B + sound.B) / 2);
        foreach (double end in (ReadOnlySpan<double>)[part.From, part.To])
        {
            if (part.To - part.From > 2 * Passage && end > Passage && end < 1 - Passage)
            {
                LinearColour light = between.Linear();
                _canvas.Paint(outline.Part(end - (Passage / 2), end + (Passage / 2), -1, 0.05), light.Times(_colour.Shade(leaf, outline.Angle, -1)));
                _canvas.Paint(outline.Part(end - (Passage / 2), end + (Passage / 2), -0.05, 1), light.Times(_colour.Shade(leaf, outline.Angle, 1)));
            }
        }
    }

    private void Segment(LeafOutline outline, TwigLeaf leaf, LabColour colour, MaskCode code, (double From, double To) part, int number)
    {
        if (part.To - part.From < 0.02)
        {
            return;
        }

        LinearColour light = colour.Linear();
        double to = Math.Min(1, part.To);
        _canvas.Paint(outline.Part(part.From, to, -1, 0.05), light.Times(_colour.Shade(leaf, outline.Angle, -1)));
        _canvas.Paint(outline.Part(part.From, to, -0.05, 1), light.Times(_colour.Shade(leaf, outline.Angle, 1)));
        _canvas.Claim(outline.Part(part.From, to), code, number);
        if (code == MaskCode.Browned)
        {
            return;
        }

        if (_host.Bloom > 0.05)
        {
            // Rows of wax on both sides of the middle line.
            LinearColour wax = colour.Move(20 * _host.Bloom, -0.5 * colour.A * _host.Bloom, -0.5 * colour.B * _host.Bloom).Linear();
            _canvas.Paint(outline.Part(part.From, Math.Min(to, 0.93), -0.62, -0.3), wax.Times(_colour.Shade(leaf, outline.Angle, -1)));
            _canvas.Paint(outline.Part(part.From, Math.Min(to, 0.93), 0.3, 0.62), wax.Times(_colour.Shade(leaf, outline.Angle, 1)));
        }

        Shine(outline, leaf, light, (part.From, to));
    }

    // A thin line of mirrored sky on the brighter half.
    private void Shine(LeafOutline outline, TwigLeaf leaf, LinearColour light, (double From, double To) part)
    {
        double shine = _spec.Light.Shine * (leaf.Kind == FoliageKind.Scale ? 0.035 : 0.09) * leaf.Depth * Math.Clamp(1 + (0.5 * leaf.Tone), 0, 2);
        if (shine < 0.01)
        {
            return;
        }

        int side = _colour.Shade(leaf, outline.Angle, 1) > _colour.Shade(leaf, outline.Angle, -1) ? 1 : -1;
        LinearColour lit = light.Times(_colour.Shade(leaf, outline.Angle, side));
        double inner = side * 0.12;
        double outer = side * 0.4;
        double from = Math.Max(part.From, 0.12);
        double to = Math.Min(part.To, 0.85);
        if (to - from > 0.05)
        {
            _canvas.Paint(outline.Part(from, to, Math.Min(inner, outer), Math.Max(inner, outer)), new LinearColour((float)(lit.R + shine), (float)(lit.G + shine), (float)(lit.B + (1.05 * shine))));
        }
    }

    private void DrawWood()
    {
        LinearColour bark = new LabColour(38, 8, 17).Linear();
        foreach (Shoot shoot in _shoots)
        {
            if (_host.Foliage == FoliageKind.Scale && shoot.Order > 0)
            {
                continue;
            }

            double thick = shoot.Order == 0 ? 2.2 : 1.3;
            Point2d[] left = Side(shoot, thick, -1);
            Point2d[] right = Side(shoot, thick, 1);
            Point2d[] middle = Side(shoot, thick, 0.1);
            Point2d[] whole = [.. left, .. right.Reverse()];
            _canvas.Paint(whole, bark.Times(0.65));
            _canvas.Paint([.. left, .. middle.Reverse()], bark.Times(1.05));
            _canvas.Claim(whole, MaskCode.Background, 0);
        }
    }

    private Point2d[] Side(Shoot shoot, double thickMm, double side)
        => [.. Enumerable.Range(0, shoot.Points.Length).Select(i =>
        {
            (Point2d at, double angle) = shoot.Along(i * Shoot.StepMm);
            double half = 0.5 * thickMm * (1 - (0.65 * i / shoot.Points.Length)) * side;
            return ToCanvas(at + new Point2d(-half * Math.Sin(angle), half * Math.Cos(angle)));
        })];

    private Point2d ToCanvas(Point2d mm)
    {
        double cos = Math.Cos(_turn);
        double sin = Math.Sin(_turn);
        double x = (mm.X * cos) - (mm.Y * sin) - _middle.X;
        double y = (mm.X * sin) + (mm.Y * cos) - _middle.Y;
        return new Point2d((_spec.WidthPx * FineCanvas.Finer * 0.5) + (x * _scale), (_spec.HeightPx * FineCanvas.Finer * 0.5) + (y * _scale));
    }

    private static LinearColour Mixed(LinearColour from, LinearColour to, double share) => new(
        (float)(from.R + (share * (to.R - from.R))),
        (float)(from.G + (share * (to.G - from.G))),
        (float)(from.B + (share * (to.B - from.B))));
}
