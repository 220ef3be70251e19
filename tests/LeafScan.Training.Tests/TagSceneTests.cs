using LeafScan.Frame;
using LeafScan.Training.FrameCheck;
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
}
