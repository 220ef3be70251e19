using LeafScan.Photos.Pictures;
using LeafScan.Photos.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Photos.Tests.Pictures;

public class PictureWriterTests
{
    [Fact]
    public void A_mask_comes_back_to_the_bit()
    {
        using TempFolder folder = new();
        using Mat mask = new(50, 70, MatType.CV_8UC1, Scalar.All(0));
        Cv2.Circle(mask, new Point(30, 20), 12, Scalar.All(3), -1);
        PictureWriter.WritePng(mask, folder.File("m.png"));
        using Mat back = Cv2.ImRead(folder.File("m.png"), ImreadModes.Unchanged);
        Assert.Equal(MatType.CV_8UC1, back.Type());
        using Mat difference = new();
        Cv2.Absdiff(mask, back, difference);
        Assert.Equal(0, Cv2.CountNonZero(difference));
    }

    [Fact]
    public void Colours_keep_their_order()
    {
        using TempFolder folder = new();
        using Mat red = new(40, 40, MatType.CV_8UC3, new Scalar(10, 20, 200));
        PictureWriter.WriteJpeg(red, folder.File("sub/r.jpg"));
        using Mat back = Cv2.ImRead(folder.File("sub/r.jpg"));
        Assert.InRange(back.At<Vec3b>(20, 20).Item2, 190, 210);
    }

    [Fact]
    public void A_full_disk_is_said_in_words()
    {
        using Mat grey = new(40, 40, MatType.CV_8UC1, Scalar.All(9));
        PictureWriteException problem = Assert.Throws<PictureWriteException>(() => PictureWriter.WritePng(grey, "/proc/no/such.png"));
        Assert.Contains("nothing that was there is lost", problem.Message, StringComparison.Ordinal);
    }
}
