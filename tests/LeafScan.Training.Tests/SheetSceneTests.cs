using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Sheets;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

public sealed class SheetSceneTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-sheet-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_leaf_on_a_tilted_sheet_in_tungsten_light_has_its_area_within_two_percent()
    {
        using RenderedSheet sheet = SheetRenderer.Render(Spec(seed: 3) with { TiltDegrees = 30, Light = LightColour.Tungsten });
        PhotoReading reading = Measure(sheet.Photo, new FrameOptions());
        LeafReading leaf = Assert.Single(reading.Leaves);
        Assert.Equal(sheet.LeafAreaMm2, leaf.AreaMm2!.Value * (1 - leaf.Shares.Chewed), sheet.LeafAreaMm2 * 0.02);
        Assert.DoesNotContain(Flag.NoScale.Name, reading.Flags);
        Assert.Equal(leaf.SpeckCount, leaf.SpeckDensityPerCm2!.Value * leaf.AreaMm2!.Value / 100 * (1 - leaf.Shares.Chewed - leaf.Shares.Unassessed), 0.5);
    }

    [Fact]
    public void Another_printer_changes_millimetres_and_no_share()
    {
        using RenderedSheet sheet = SheetRenderer.Render(Spec(seed: 5));
        LeafReading one = Measure(sheet.Photo, new FrameOptions()).Leaves[0];
        LeafReading other = Measure(sheet.Photo, new FrameOptions { Printed = new PrintedScale(0.95) }).Leaves[0];
        Assert.Equal(one.Shares, other.Shares);
        Assert.Equal(one.SpeckCount, other.SpeckCount);
        Assert.Equal(one.AreaMm2!.Value * 0.95 * 0.95, other.AreaMm2!.Value, 1e-6 * one.AreaMm2!.Value);
    }

    [Fact]
    public void Looking_for_a_sheet_where_there_is_none_changes_nothing()
    {
        using RenderedScene scene = SceneRenderer.Render(SceneChooser.Choose(4, Difficulty.Easy, 900));
        using Mat photo = Cv2.ImDecode(scene.Jpeg.Span, ImreadModes.Color);
        PhotoReading looked = Measure(photo, new FrameOptions());
        PhotoReading blind = Measure(photo, new FrameOptions { Look = false });
        Assert.Equal(blind.Leaves.Select(l => (l.Shares, l.SpeckCount, l.AreaMm2)), looked.Leaves.Select(l => (l.Shares, l.SpeckCount, l.AreaMm2)));
        Assert.Contains(Flag.NoScale.Name, looked.Flags);
    }

    [Theory]
    [InlineData("B03", 0)]
    [InlineData("ROW 3/7", 20)]
    [InlineData("käfer-9", 28)]
    public void A_tag_in_the_frame_names_the_plant_and_has_the_scale_of_the_sheet(string code, double tilt)
    {
        using RenderedSheet sheet = SheetRenderer.Render(Spec(seed: 9) with { TagCode = code, TiltDegrees = tilt });
        FrameReading frame = FrameReader.Read(sheet.Photo, new FrameOptions());
        TagSighting tag = Assert.Single(frame.Tags);
        Assert.Equal(code, tag.Text.PlantCode);
        Assert.Equal(frame.Sheet!.PixelsPerMmAt(tag.XPx, tag.YPx), tag.PixelsPerMm, frame.Sheet.PixelsPerMmAt(tag.XPx, tag.YPx) * TagSighting.ScaleUncertainty);
        Assert.Equal(code, Measure(sheet.Photo, new FrameOptions()).Plant);
    }

    [Fact]
    public void A_printed_sheet_in_any_light_has_the_tones_of_its_print()
    {
        foreach (LightColour light in LightColour.All)
        {
            using RenderedSheet sheet = SheetRenderer.Render(Spec(seed: 21) with { LeafSeed = null, Light = light, Shading = 0.5 });
            Assert.DoesNotContain(Flag.ToneOff.Name, FrameReader.Read(sheet.Photo, new FrameOptions()).Flags);
        }
    }

    [Fact]
    public void The_same_description_gives_the_same_photo()
    {
        using RenderedSheet first = SheetRenderer.Render(Spec(seed: 7) with { Chips = true, CoveredCorners = [2] });
        using RenderedSheet second = SheetRenderer.Render(Spec(seed: 7) with { Chips = true, CoveredCorners = [2] });
        Assert.Equal(0, Cv2.Norm(first.Photo, second.Photo, NormTypes.L1));
    }

    [Fact]
    public void What_is_written_is_what_was_drawn()
    {
        using RenderedSheet sheet = SheetRenderer.Render(SheetChooser.Choose(12, Difficulty.Hard, 1600));
        SheetWriter.Write(sheet, _folder);
        using Mat mask = Cv2.ImRead(Path.Combine(_folder, "sheet-000012.truth.png"), ImreadModes.Grayscale);
        Assert.Equal(0, Cv2.Norm(mask, sheet.Mask, NormTypes.L1));
        double areaOnPhoto = Cv2.CountNonZero(mask) / Math.Pow(sheet.Camera.PixelsPerMm(sheet.Spec.Sheet.Paper.WidthMm / 2, sheet.Spec.Sheet.Paper.HeightMm / 2), 2);
        Assert.InRange(areaOnPhoto / sheet.LeafAreaMm2, 0.9, 1.25); // tilt and chewed parts lie between
        Assert.Contains("\"pixelsPerMm\":", File.ReadAllText(Path.Combine(_folder, "sheet-000012.truth.json")), StringComparison.Ordinal);
    }

    private static SheetSpec Spec(int seed) => new()
    {
        Seed = seed,
        Sheet = ScaleSheet.Of(PaperSize.A4, SheetSide.Leaf),
        TiltDegrees = 12,
        AxisDegrees = 40,
        TurnDegrees = 6,
        LeafSeed = seed,
        LeafLengthMm = 100,
        LongSidePx = 1600,
    };

    private PhotoReading Measure(Mat pixels, FrameOptions frame)
    {
        string file = Path.Combine(_folder, $"{Guid.NewGuid():n}.png");
        Cv2.ImWrite(file, pixels);
        using PhotoOutcome opened = PhotoReader.Open(file, new PhotoLimits());
        using LeafMeasurement measured = LeafMeter.Measure(opened.Photo!, new MeasureOptions { Frame = frame });
        return measured.Reading ?? throw new InvalidOperationException(measured.Refusal!.Reason);
    }
}
