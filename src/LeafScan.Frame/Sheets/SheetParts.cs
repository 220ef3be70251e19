namespace LeafScan.Frame.Sheets;

/// <summary>The two printed sides of a scale sheet.</summary>
public enum SheetSide
{
    /// <summary>Leaves are laid on it; it carries the neutral steps.</summary>
    Leaf,

    /// <summary>Branches are tapped over it; as white as can be.</summary>
    Tap,
}

/// <summary>A point on the paper in mm from its upper left corner.</summary>
public readonly record struct SheetPoint(double XMm, double YMm);

/// <summary>An upright rectangle on the paper in mm.</summary>
public readonly record struct SheetArea(double LeftMm, double TopMm, double WidthMm, double HeightMm);

/// <summary>A square marker of OpenCV's ArUco dictionary <c>DICT_4X4_50</c>.</summary>
/// <param name="Id">Its number in the dictionary, 0 to 49; four to a sheet, so that paper and side are known from any one.</param>
/// <param name="Area">Where it lies, black border included.</param>
public sealed record SheetMarker(int Id, SheetArea Area);

/// <summary>One neutral patch.</summary>
/// <param name="Area">Where it lies.</param>
/// <param name="LightnessNominal">
/// CIE L* asked of the printer, or null for the bare paper. A printer's grey is only roughly that: the steps check that
/// the tone rises evenly and is neutral, they are no measure of reflectance.
/// </param>
public sealed record GreyStep(SheetArea Area, double? LightnessNominal);

/// <summary>What a printer made of 100 mm, as measured by the user with a ruler; 1 when it was not measured.</summary>
/// <param name="Factor">Printed length over intended length; 0.9 to 1.1.</param>
public readonly record struct PrintedScale(double Factor)
{
    /// <summary>Smallest factor that is taken for a printer's doing and not for a slip of the pen.</summary>
    public const double Least = 0.9;

    /// <summary>Largest factor likewise.</summary>
    public const double Most = 1.1;

    /// <summary>Printed true to size, or not measured.</summary>
    public static PrintedScale True { get; } = new(1);
}
