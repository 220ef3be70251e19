using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Plants;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Plants;

/// <summary>Plants that show only what matters to a test, and plain counting in masks.</summary>
internal static class Plain
{
    /// <summary>One plant of a kind, always the same, alone and small in the picture.</summary>
    public static PlantSpec Plant(PlantDamage damage, string host = "boxwood")
    {
        PlantHabit habit = PlantHabits.Named(host);
        double ratio = (habit.WidthRatio.Low + habit.WidthRatio.High) / 2;
        PlantSpec chosen = PlantChooser.Choose(1, Difficulty.Easy, 480);
        return chosen with
        {
            Seed = 77,
            Host = host,
            HeightM = 1,
            WidthRatio = ratio,
            PixelsPerM = Math.Min(280, 400 / ratio),
            FootX = 240,
            FootY = 330,
            Colour = habit.Colours[0],
            Damage = damage,
            FallShare = 0,
            Flush = 0,
        };
    }

    /// <summary>Pixels of one code in a part of a mask.</summary>
    public static int Count(Mat mask, MaskCode code)
    {
        using Mat same = new();
        Cv2.Compare(mask, Scalar.All((int)code), same, CmpTypes.EQ);
        return Cv2.CountNonZero(same);
    }

    /// <summary>Left or right half of a box, the middle column to the right.</summary>
    public static Rect Half(Rect box, bool left)
    {
        int width = (box.Width + 1) / 2;
        return left ? new Rect(box.X, box.Y, width, box.Height) : new Rect(box.X + width, box.Y, box.Width - width, box.Height);
    }
}
