using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>The look-alikes of one blade as pictures of the size of its sheet. Owns them.</summary>
internal sealed class BladeMarks : IDisposable
{
    private BladeMarks(Size size)
    {
        Natural = Pixels.NewFloat(size);
        Mined = Pixels.NewFloat(size);
        Dark = Pixels.NewFloat(size);
    }

    /// <summary>Float, below 0 darker, above 0 paler: the blade's own pattern.</summary>
    public Mat Natural { get; }

    /// <summary>Float 0..1: emptied, pale tissue of a mine.</summary>
    public Mat Mined { get; }

    /// <summary>Float 0..1: dark droppings of insects.</summary>
    public Mat Dark { get; }

    /// <summary>Water drops, in sheet pixels.</summary>
    public List<WaterDrop> Drops { get; } = [];

    /// <summary>Draws all marks of a description; what they hide is taken out of the damage.</summary>
    public static BladeMarks Paint(BladeShape shape, Mat whole, BladeDamage damage, LookAlikeSpec spec)
    {
        // Each kind has its own source, so that more of one kind does not move the others.
        Random root = Chance.FromSeed(spec.Seed);
        Random natural = root.Split();
        Random mines = root.Split();
        Random droppings = root.Split();
        Random drops = root.Split();
        BladeMarks marks = new(shape.SheetSize);
        NaturalMarks.Paint(marks.Natural, shape, whole, spec, natural);
        Mines.Paint(marks, damage, shape, whole, spec, mines);
        Droppings.Paint(marks, damage, shape, whole, spec, droppings);
        marks.Drops.AddRange(WaterDrop.Fall(shape, whole, damage, spec, drops));
        return marks;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Natural.Dispose();
        Mined.Dispose();
        Dark.Dispose();
    }
}
