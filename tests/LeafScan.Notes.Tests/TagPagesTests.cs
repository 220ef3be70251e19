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

    // ISO/IEC 18004: a code of version 6 has 41 squares a side, more than 20 mm hold at half a millimetre.
    [Theory]
    [InlineData(20, true)]
    [InlineData(300, false)]
    [InlineData(5000, false)]
    public void A_code_too_long_for_half_millimetre_squares_is_refused_in_a_sentence(int length, bool fits)
    {
        string? sentence = TagPages.WhyNot(new PlantTag(new string('A', length)));
        Assert.Equal(fits, sentence is null);
        Assert.True(sentence is null || sentence.Contains("too long", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("A\nB")]
    public void A_code_that_cannot_be_read_aloud_is_refused(string code) => Assert.NotNull(TagPages.WhyNot(new PlantTag(code)));

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
        Result[] found = new QRCodeMultiReader().decodeMultiple(bitmap, new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true }) ?? [];
        return [.. found.Select(result => result.Text)];
    }
}
