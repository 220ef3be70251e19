using System.Globalization;
using System.Text.Json.Nodes;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Sheets;

/// <summary>Writes a rendered sheet: NAME.jpg, NAME.truth.png (mask codes of the leaf) and NAME.truth.json.</summary>
public static class SheetWriter
{
    /// <summary>Writes the three files.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="folder">Folder to write to; made when missing.</param>
    public static void Write(RenderedSheet sheet, string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"sheet-{sheet.Spec.Seed:D6}"));
        File.WriteAllBytes(path + ".jpg", sheet.Jpeg.Span);
        Cv2.ImWrite(path + ".truth.png", sheet.Mask);
        File.WriteAllText(path + ".truth.json", Json(sheet).ToJsonString());
    }

    /// <summary>
    /// The truth: what the description says; pixelsPerMm at the middle of the field; leafAreaMm2, the leaf that is there;
    /// corners, where the paper's corners appear (x, y in pixels; upper left, upper right, lower right, lower left).
    /// </summary>
    public static JsonObject Json(RenderedSheet sheet)
    {
        SheetSpec spec = sheet.Spec;
        (double width, double height) = (spec.Sheet.Paper.WidthMm, spec.Sheet.Paper.HeightMm);
        return new JsonObject
        {
            ["seed"] = spec.Seed,
            ["paper"] = spec.Sheet.Paper.Name,
            ["tiltDegrees"] = spec.TiltDegrees,
            ["light"] = spec.Light.Name,
            ["shading"] = spec.Shading,
            ["blurPx"] = spec.BlurPx,
            ["noise"] = spec.Noise,
            ["coveredCorners"] = new JsonArray([.. spec.CoveredCorners.Select(corner => JsonValue.Create(corner))]),
            ["tag"] = spec.TagCode,
            ["leafSeed"] = spec.LeafSeed,
            ["pixelsPerMm"] = sheet.Camera.PixelsPerMm(width / 2, height / 2),
            ["leafAreaMm2"] = sheet.LeafAreaMm2,
            ["corners"] = new JsonArray([.. new[] { (0.0, 0.0), (width, 0.0), (width, height), (0.0, height) }.Select(c => Place(sheet.Camera.At(c.Item1, c.Item2)))]),
        };
    }

    private static JsonArray Place(Point2d p) => [Math.Round(p.X, 2), Math.Round(p.Y, 2)];
}
