using LeafScan.Frame;
using LeafScan.Training.FrameCheck;
using LeafScan.Training.Kinds;
using LeafScan.Training.Rendering.Backgrounds;
using OpenCvSharp;

namespace LeafScan.Training.Tests;

public sealed class TagSceneTests
{
    // OpenCV's own reader is the outside one; LeafScan reads with ZXing.Net.
    [Theory]
    [InlineData("B03", 1)]
    [InlineData("row 3/7, east wall", 2)]
    [InlineData("a lower case code of fifty letters and no more at", 3)]
    public void A_tag_photographed_with_six_pixels_to_a_square_is_read_by_two_readers(string code, int seed)
    {
        using Mat picture = TagScene.Draw(code, 6, asPhoto: true, new Random(seed));
        Assert.Equal(code, Assert.Single(FrameReader.Read(picture, new FrameOptions()).Tags).Text.PlantCode);
        using QRCodeDetector detector = new();
        Assert.Equal($"LEAF1/200/{code}", detector.DetectAndDecode(picture, out _));
    }

    [Fact]
    public void A_tag_of_one_pixel_to_a_square_is_not_read_as_something_else()
    {
        for (int seed = 0; seed < 5; seed++)
        {
            using Mat picture = TagScene.Draw("B03", 1, asPhoto: true, new Random(seed));
            Assert.All(FrameReader.Read(picture, new FrameOptions()).Tags, tag => Assert.Equal("B03", tag.Text.PlantCode));
        }
    }

    [Fact]
    public void A_closer_look_reads_tags_that_the_first_look_cannot()
    {
        (int first, int closer) = (0, 0);
        for (int seed = 1; seed <= 10; seed++)
        {
            using Mat picture = TagScene.Draw("B12", 2.2, asPhoto: true, new Random(seed));
            first += FrameReader.LookForTags(picture, new FrameOptions()).Tags.Count;
            (IReadOnlyList<TagSighting> tags, bool anyCode) = FrameReader.LookCloser(picture);
            Assert.Equal(tags.Count > 0, anyCode);
            Assert.All(tags, tag => Assert.Equal("B12", tag.Text.PlantCode));
            closer += tags.Count;

            // 20 mm for 25 squares of 2.2 pixels is 2.75 pixels a mm; tilted by up to 30 degrees it is less.
            Assert.All(tags, tag => Assert.InRange(tag.PixelsPerMm, 2.2, 3.1));
        }

        Assert.True(closer >= 8 && closer > first, $"{first} at first, {closer} closer");
    }

    [Fact]
    public void A_blurred_tag_on_gravel_looks_like_a_label_and_bare_gravel_does_not()
    {
        int labels = 0;
        for (int seed = 1; seed <= 8; seed++)
        {
            Random random = new(seed);
            using Mat tag = TagScene.Draw("B12", 4, asPhoto: true, random, size => DrawnGround.Paint(BackgroundKind.Gravel, size, random), shakePx: 4);
            labels += FrameReader.LookForTags(tag, new FrameOptions()).Label ? 1 : 0;
            using Mat bare = DrawnGround.Paint(BackgroundKind.Gravel, tag.Size(), random);
            Assert.False(FrameReader.LookForTags(bare, new FrameOptions()).Label);
        }

        Assert.True(labels >= 5, $"{labels} of 8");
    }
}
