using LeafScan.Frame.Sheets;
using LeafScan.Frame.Tags;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Tags;
using LeafScan.Notes.Tests.Support;
using OpenCvSharp;
using UglyToad.PdfPig;
using ZXing;
using ZXing.Common;
using ZXing.Multi.QrCode;

namespace LeafScan.Notes.Tests;

public sealed class TagPagesTests
{
    private static readonly PlantTag[] Tags =
    [
        new("B03"), new("EU-1", "Burning bush, south wall"), new("Row 3/7", "Picea glauca"), new("käfer 9", new string('n', 300)), new("Z9", "ורד"),
    ];

    private static readonly TagLayout A4 = new(PaperSize.A4);

    // Written by one library, read by another; 150 dots an inch leave three pixels to the smallest square here.
    [NeedsPoppler]
    [InlineData("a4", 150)]
    [InlineData("a4", 300)]
    [InlineData("letter", 200)]
    public void Another_library_reads_every_tag(string paper, int dotsPerInch)
    {
        using Mat page = Outside.Raster(Pdf(Tags, paper), 1, dotsPerInch);
        string[] read = ReadAll(page);
        Assert.Equal(Tags.Select(t => new TagText(t.Code, TagLayout.CodeSideMm).Write()).Order(StringComparer.Ordinal), read.Order(StringComparer.Ordinal));
    }

    [NeedsPoppler]
    [InlineData(0)]
    public void OpenCV_reads_a_tag_from_its_own_square_of_paper(int tag)
    {
        using Mat page = Outside.Raster(Pdf(Tags, "a4"), 1, 200);
        double px = 200 / 25.4;
        Rect area = new((int)(TagLayout.EdgeMm * px) + 3, (int)(TagLayout.EdgeMm * px) + 3, (int)(30 * px), (int)(TagLayout.TagHeightMm * px) - 6);
        using Mat own = page.SubMat(area);
        using QRCodeDetector detector = new();
        string text = detector.DetectAndDecode(own, out _);
        Assert.Equal(new TagText(Tags[tag].Code, TagLayout.CodeSideMm).Write(), text);
    }

    [Fact]
    public void The_code_stands_beside_the_square_in_plain_text()
    {
        using PdfDocument read = PdfDocument.Open(Pdf(Tags, "a4"));
        string words = string.Join(' ', read.GetPage(1).GetWords().Select(word => word.Text));
        Assert.Contains("B03", words, StringComparison.Ordinal);
        Assert.Contains("Row 3/7", words, StringComparison.Ordinal);
        Assert.Contains("Burning bush", words, StringComparison.Ordinal);
        Assert.Contains("nnn…", words, StringComparison.Ordinal);
        Assert.All(read.GetPage(1).Letters, letter => Assert.True(letter.BoundingBox.Right <= read.GetPage(1).Width));
    }

    [Fact]
    public void Many_tags_go_on_as_many_pages_as_they_need()
    {
        TagLayout layout = new(PaperSize.A4);
        PlantTag[] many = [.. Enumerable.Range(1, 3 * layout.Down + 1).Select(i => new PlantTag($"P{i}"))];
        Assert.Equal(2, TagPages.Of(many, layout).Count);
    }

    // ISO/IEC 18004, characters of the alphanumeric kind at level Q: version 1 (21 squares) holds 16, 2 holds 29, 3 holds 47,
    // 4 holds 67; each version has four squares more a side. Ten characters are the tag's own word and size. Version 1
    // has no alignment square and is not used.
    [Theory]
    [InlineData(1, 25)]
    [InlineData(6, 25)]
    [InlineData(7, 25)]
    [InlineData(19, 25)]
    [InlineData(20, 29)]
    [InlineData(37, 29)]
    [InlineData(38, 33)]
    [InlineData(57, 33)]
    [InlineData(58, 37)]
    public void A_code_has_as_many_squares_as_the_standard_gives_its_length(int length, int squares) =>
        Assert.Equal(squares, TagLayout.CodeSideMm / TagCode.ModuleMm(new PlantTag(new string('A', length))), 1e-9);

    // Version 6 has 41 squares a side, more than 20 mm hold at half a millimetre; version 5 holds 87 characters (from memory).
    [Theory]
    [InlineData(20, true)]
    [InlineData(77, false)]
    [InlineData(78, false)]
    [InlineData(300, false)]
    [InlineData(5000, false)]
    public void A_code_that_does_not_fit_is_refused_in_a_sentence(int length, bool fits)
    {
        PlantTag tag = new(new string('A', length));
        string? sentence = TagPages.WhyNot(tag, A4);
        Assert.Equal(fits, sentence is null);
        Assert.True(sentence is null || sentence.Contains("too long", StringComparison.Ordinal));
        Assert.Equal(length <= 77, TagCode.ModuleMm(tag) >= TagLayout.LeastModuleMm);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("A\nB")]
    [InlineData("A\u202EB")]
    [InlineData("A\u200B")]
    [InlineData("A\uD800")]
    public void A_code_that_cannot_be_read_aloud_is_refused(string code) => Assert.NotNull(TagPages.WhyNot(new PlantTag(code), A4));

    [Fact]
    public void A_long_code_is_printed_whole_on_several_lines()
    {
        const string Code = "BLOCK 12-ROW 7-PLANT 113-SOUTH WALL";
        PaperText[] lines = [.. TagPages.Of([new PlantTag(Code)], A4)[0].Shapes.OfType<PaperText>().Where(text => text.Bold)];
        Assert.InRange(lines.Length, 2, 4);
        Assert.Equal(Code.Replace(" ", string.Empty, StringComparison.Ordinal), string.Concat(lines.Select(l => l.Words)).Replace(" ", string.Empty, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("שלום")]
    [InlineData("一二三")]
    public void A_code_in_letters_that_cannot_be_set_gets_a_line_to_write_on_and_is_in_the_square(string code)
    {
        Assert.Null(TagPages.WhyNot(new PlantTag(code), A4));
        PaperPage page = TagPages.Of([new PlantTag(code)], A4)[0];
        Assert.DoesNotContain(page.Shapes.OfType<PaperText>(), text => text.Bold);
        FilledBoxes squares = Assert.Single(page.Shapes.OfType<FilledBoxes>());
        using Mat picture = SquarePicture.Of(squares, 10);
        Assert.Equal([new TagText(code, TagLayout.CodeSideMm).Write()], ReadAll(picture));
    }

    // Smallest squares the tags can have (version 5, 37 a side), the largest (version 1), and two between.
    [Theory]
    [InlineData("B03")]
    [InlineData("ROW 3/7 EAST")]
    [InlineData("row 3/7, east wall")]
    [InlineData("a lower case code of fifty letters and no more at")]
    public void Two_other_libraries_read_the_squares_at_three_pixels_each(string code)
    {
        FilledBoxes squares = Assert.Single(TagPages.Of([new PlantTag(code)], A4)[0].Shapes.OfType<FilledBoxes>());
        using Mat picture = SquarePicture.Of(squares, 3 / TagCode.ModuleMm(new PlantTag(code)));
        string text = new TagText(code, TagLayout.CodeSideMm).Write();
        Assert.Equal([text], ReadAll(picture));
        using QRCodeDetector detector = new();
        Assert.Equal(text, detector.DetectAndDecode(picture, out _));
    }

    private static byte[] Pdf(PlantTag[] tags, string paper)
    {
        using MemoryStream stream = new();
        PdfPaper.Write(stream, TagPages.Of(tags, new TagLayout(PaperSize.All.Single(p => p.Name == paper))), "LeafScan plant tags", DateTimeOffset.UnixEpoch);
        return stream.ToArray();
    }

    private static string[] ReadAll(Mat grey)
    {
        grey.GetArray(out byte[] levels);
        BinaryBitmap bitmap = new(new HybridBinarizer(new RGBLuminanceSource(levels, grey.Cols, grey.Rows, RGBLuminanceSource.BitmapFormat.Gray8)));
        Result[] found = new QRCodeMultiReader().decodeMultiple(bitmap, new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true, [DecodeHintType.CHARACTER_SET] = "UTF-8" }) ?? [];
        return [.. found.Select(result => result.Text)];
    }
}
