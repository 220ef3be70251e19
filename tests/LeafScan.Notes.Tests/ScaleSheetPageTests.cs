using System.Globalization;
using System.Xml.Linq;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Sheets;
using LeafScan.Notes.Tests.Support;
using OpenCvSharp;
using OpenCvSharp.Aruco;
using UglyToad.PdfPig;

namespace LeafScan.Notes.Tests;

public sealed class ScaleSheetPageTests
{
    private static readonly DateTimeOffset Made = new(2026, 7, 2, 9, 0, 0, TimeSpan.Zero);

    public static TheoryData<string, int> Sheets => new() { { "a4", 0 }, { "a4", 1 }, { "letter", 0 }, { "letter", 1 } };

    // ISO 216 and ANSI Y14.1: A4 is 210 by 297 mm, Letter 8.5 by 11 inches.
    [Theory]
    [InlineData("a4", 210.0, 297.0)]
    [InlineData("letter", 215.9, 279.4)]
    public void The_pages_have_the_size_of_the_paper_as_another_library_reads_it(string paper, double widthMm, double heightMm)
    {
        using PdfDocument read = PdfDocument.Open(Pdf(paper));
        Assert.Equal(2, read.NumberOfPages);
        Assert.All(read.GetPages(), page =>
        {
            Assert.Equal(widthMm, page.Width * 25.4 / 72, 0.01);
            Assert.Equal(heightMm, page.Height * 25.4 / 72, 0.01);
            Assert.All(page.Letters, letter => Assert.Contains("DejaVu", letter.FontName, StringComparison.Ordinal));
        });
        Assert.Contains("must measure 100 mm", string.Join(' ', read.GetPage(1).GetWords().Select(word => word.Text)), StringComparison.Ordinal);
    }

    [NeedsPoppler]
    [MemberData(nameof(Sheets))]
    public void OpenCV_finds_each_printed_marker_where_the_description_says(string paper, int side)
    {
        const int DotsPerInch = 254;
        ScaleSheet sheet = ScaleSheet.Of(PaperSize.All.Single(p => p.Name == paper), (SheetSide)side);
        using Mat page = Outside.Raster(Pdf(paper), side + 1, DotsPerInch);
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict4X4_50);
        using ArucoDetector detector = new(dictionary, new DetectorParameters { CornerRefinementMethod = CornerRefineMethod.Subpix }, new RefineParameters());
        detector.DetectMarkers(page, out Point2f[][] corners, out int[] ids, out _);
        Assert.Equal(sheet.Markers.Select(m => m.Id).Order(), ids.Order());
        double pxPerMm = DotsPerInch / 25.4;
        foreach (SheetMarker marker in sheet.Markers)
        {
            SheetArea a = marker.Area;
            Point2f[] found = corners[Array.IndexOf(ids, marker.Id)];
            (double X, double Y)[] wanted = [(a.LeftMm, a.TopMm), (a.LeftMm + a.WidthMm, a.TopMm), (a.LeftMm + a.WidthMm, a.TopMm + a.HeightMm), (a.LeftMm, a.TopMm + a.HeightMm)];
            foreach (((double x, double y), Point2f at) in wanted.Zip(found))
            {
                // A pixel's middle is half a pixel from its edge.
                Assert.Equal(x, (at.X + 0.5) / pxPerMm, 0.1);
                Assert.Equal(y, (at.Y + 0.5) / pxPerMm, 0.1);
            }
        }
    }

    [NeedsPoppler]
    [InlineData("a4", "595.276 x 841.89 pts (A4)")]
    [InlineData("letter", "612 x 792 pts (letter)")]
    public void Poppler_reads_the_same_paper(string paper, string words)
    {
        string folder = Directory.CreateTempSubdirectory("leafscan-notes-").FullName;
        try
        {
            string file = Path.Combine(folder, "sheet.pdf");
            File.WriteAllBytes(file, Pdf(paper));
            string told = Outside.Run("pdfinfo", file);
            Assert.Contains(words, told, StringComparison.Ordinal);
            Assert.Contains("Pages:           2", told, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [NeedsPoppler]
    [MemberData(nameof(Sheets))]
    public void The_printed_bar_is_100_mm_long(string paper, int side)
    {
        const int DotsPerInch = 508;
        using Mat page = Outside.Raster(Pdf(paper), side + 1, DotsPerInch);
        ScaleSheet sheet = ScaleSheet.Of(PaperSize.All.Single(p => p.Name == paper), (SheetSide)side);
        int row = (int)Math.Round(sheet.RulerStartMm.YMm * DotsPerInch / 25.4);
        int beside = (int)(40 * DotsPerInch / 25.4); // the markers stand left and right of it
        using Mat line = page.SubMat(row, row + 1, beside, page.Cols - beside).Clone();
        line.GetArray(out byte[] levels);
        int first = Array.FindIndex(levels, level => level < 128);
        int last = Array.FindLastIndex(levels, level => level < 128);
        Assert.Equal(100.0, (last - first + 1) * 25.4 / DotsPerInch, 0.4);
    }

    [Fact]
    public void The_svg_is_measured_in_millimetres()
    {
        using MemoryStream stream = new();
        SvgPaper.Write(stream, ScaleSheetPage.Of(ScaleSheet.Of(PaperSize.A4, SheetSide.Tap)));
        stream.Position = 0;
        XElement svg = XDocument.Load(stream).Root!;
        Assert.Equal(("210mm", "297mm", "0 0 210 297"), ((string?)svg.Attribute("width"), (string?)svg.Attribute("height"), (string?)svg.Attribute("viewBox")));
        XElement[] boxes = [.. svg.Elements().Where(e => e.Name.LocalName == "rect")];
        double right = boxes.Max(e => double.Parse(e.Attribute("x")!.Value, CultureInfo.InvariantCulture) + double.Parse(e.Attribute("width")!.Value, CultureInfo.InvariantCulture));
        Assert.Equal(210 - ScaleSheet.MarkerEdgeMm, right, 0.001);
    }

    // CIE 15:2004 with the sRGB curve: L* 50 is level 119, 100 is white, 0 black (values from memory).
    [Theory]
    [InlineData(0, 0)]
    [InlineData(50, 119)]
    [InlineData(100, 255)]
    public void A_step_has_the_level_of_its_lightness(double lightness, byte level) => Assert.Equal(level, GreyLevel.Of(lightness));

    private static byte[] Pdf(string paper)
    {
        PaperSize size = PaperSize.All.Single(p => p.Name == paper);
        using MemoryStream stream = new();
        PdfPaper.Write(stream, [.. Enum.GetValues<SheetSide>().Select(side => ScaleSheetPage.Of(ScaleSheet.Of(size, side)))], "LeafScan scale sheet", Made);
        return stream.ToArray();
    }
}
