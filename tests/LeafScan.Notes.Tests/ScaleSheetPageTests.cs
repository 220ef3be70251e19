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
        AssertMarkers(page, sheet, DotsPerInch / 25.4);
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

            // Columns of pdffonts from the right: object (two), unicode map, subset, embedded.
            string[] fonts = Outside.Run("pdffonts", file).Split('\n', StringSplitOptions.RemoveEmptyEntries)[2..];
            Assert.NotEmpty(fonts);
            Assert.All(fonts, font => Assert.Equal("yes", font.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^5]));
            string text = Outside.Run("pdftotext", file, "-");
            Assert.Contains("LeafScan scale sheet: leaf side", text, StringComparison.Ordinal);
            Assert.Contains("Print at 100 %", text, StringComparison.Ordinal);
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
        Assert.Equal(100.0, (last - first + 1) * 25.4 / DotsPerInch, 0.1);
    }

    // The markers of the SVG are painted here from its XML alone and looked for by OpenCV.
    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_svg_is_measured_in_millimetres_and_holds_the_markers(string paper, int side)
    {
        const int PxPerMm = 10;
        ScaleSheet sheet = ScaleSheet.Of(PaperSize.All.Single(p => p.Name == paper), (SheetSide)side);
        using MemoryStream stream = new();
        SvgPaper.Write(stream, ScaleSheetPage.Of(sheet));
        Assert.Equal((byte)'<', stream.ToArray()[0]);
        stream.Position = 0;
        XElement svg = XDocument.Load(stream).Root!;
        string width = sheet.Paper.WidthMm.ToString(CultureInfo.InvariantCulture);
        string height = sheet.Paper.HeightMm.ToString(CultureInfo.InvariantCulture);
        Assert.Equal((width + "mm", height + "mm", $"0 0 {width} {height}"), ((string?)svg.Attribute("width"), (string?)svg.Attribute("height"), (string?)svg.Attribute("viewBox")));

        using Mat page = new((int)(sheet.Paper.HeightMm * PxPerMm), (int)(sheet.Paper.WidthMm * PxPerMm), MatType.CV_8UC1, Scalar.All(255));
        foreach (double[] box in svg.Elements().Where(e => e.Name.LocalName == "path").SelectMany(e => Boxes(e.Attribute("d")!.Value)))
        {
            int[] px = [.. box.Select(mm => (int)Math.Round(mm * PxPerMm))];
            using Mat part = page.SubMat(new Rect(px[0], px[1], px[2], px[3]));
            part.SetTo(Scalar.All(0));
        }

        AssertMarkers(page, sheet, PxPerMm);
    }

    private static IEnumerable<double[]> Boxes(string path) => path.Split('M', StringSplitOptions.RemoveEmptyEntries)
        .Select(part => part.Split([' ', 'h', 'v', 'z'], StringSplitOptions.RemoveEmptyEntries)[..4].Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray());

    // Office printers leave up to some 5 mm blank at the edges (common practice, no source).
    [Fact]
    public void Nothing_is_printed_nearer_than_5_mm_to_the_edge()
    {
        foreach (ScaleSheet sheet in ScaleSheet.All)
        {
            using PdfDocument read = PdfDocument.Open(Pdf(sheet.Paper.Name));
            Assert.All(read.GetPages().SelectMany(page => page.Letters.Select(letter => (page, letter.BoundingBox))), item =>
            {
                double edge = 5 * 72 / 25.4;
                Assert.InRange(item.BoundingBox.Left, edge, item.page.Width - edge);
                Assert.InRange(item.BoundingBox.Right, edge, item.page.Width - edge);
                Assert.InRange(item.BoundingBox.Bottom, edge, item.page.Height - edge);
            });
        }
    }

    // The way back by the formulas of CIE 15:2004 (Y to L*) and IEC 61966-2-1 (sRGB to Y). A level is a whole number, which
    // leaves up to half a level: 0.3 in L* at the dark end.
    [Theory]
    [InlineData(0)]
    [InlineData(4)]
    [InlineData(20)]
    [InlineData(35)]
    [InlineData(50)]
    [InlineData(65)]
    [InlineData(80)]
    [InlineData(100)]
    public void A_step_has_the_level_of_its_lightness(double lightness) => Assert.Equal(lightness, Lightness(GreyLevel.Of(lightness)), 0.3);

    // Worked value of an sRGB table: level 119 has Y 0.184475 and L* 50.0344.
    [Fact]
    public void The_way_back_agrees_with_a_table_of_sRGB_values() => Assert.Equal(50.0344, Lightness(119), 0.0005);

    private static double Lightness(byte level)
    {
        double share = level / 255.0;
        double luminance = share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
        return luminance > 216.0 / 24389 ? (116 * Math.Cbrt(luminance)) - 16 : luminance * 24389 / 27;
    }

    private static void AssertMarkers(Mat page, ScaleSheet sheet, double pxPerMm)
    {
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict4X4_50);
        using ArucoDetector detector = new(dictionary, new DetectorParameters { CornerRefinementMethod = CornerRefineMethod.Subpix }, new RefineParameters());
        detector.DetectMarkers(page, out Point2f[][] corners, out int[] ids, out _);
        Assert.Equal(sheet.Markers.Select(m => m.Id).Order(), ids.Order());
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

    private static byte[] Pdf(string paper)
    {
        PaperSize size = PaperSize.All.Single(p => p.Name == paper);
        using MemoryStream stream = new();
        PdfPaper.Write(stream, [.. Enum.GetValues<SheetSide>().Select(side => ScaleSheetPage.Of(ScaleSheet.Of(size, side)))], "LeafScan scale sheet", Made);
        return stream.ToArray();
    }
}
