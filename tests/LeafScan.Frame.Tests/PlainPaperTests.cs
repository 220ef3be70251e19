using LeafScan.Photos;
using LeafScan.Photos.Colour;
using OpenCvSharp;

namespace LeafScan.Frame.Tests;

public sealed class PlainPaperTests
{
    // Levels of a smooth surface as it appears, B, G, R.
    private static readonly Scalar EveningSun = new(183, 208, 226);

    private static readonly Scalar LightBulb = new(147, 195, 226);

    private static readonly Scalar BlueShade = new(222, 210, 190);

    private static readonly Scalar White = new(224, 226, 228);

    [Fact]
    public void Paper_in_evening_sun_or_blue_shade_is_made_neutral_and_says_so()
    {
        foreach (Scalar paper in (Scalar[])[EveningSun, BlueShade])
        {
            using Mat photo = Photo(paper);
            FrameReading frame = FrameReader.Read(photo, new FrameOptions());
            Assert.Contains(Flag.WhiteFromPaper.Name, frame.Flags);
            using Mat balanced = FrameReader.Balanced(photo, frame)!;
            Assert.InRange(Chroma(balanced), 0, 2.5);
        }
    }

    [Fact]
    public void Of_the_strong_colour_of_a_light_bulb_most_is_taken_out()
    {
        using Mat photo = Photo(LightBulb);
        FrameReading frame = FrameReader.Read(photo, new FrameOptions());
        Assert.Contains(Flag.WhiteFromPaper.Name, frame.Flags);
        using Mat balanced = FrameReader.Balanced(photo, frame)!;
        Assert.InRange(Chroma(balanced), 3, Chroma(photo) / 2);
    }

    // CIE 15: neutral is a* = b* = 0.
    private static double Chroma(Mat photo)
    {
        using Mat corner = photo.SubMat(0, 60, 0, 60);
        Scalar seen = Cv2.Mean(corner);
        LabColour lab = LabColour.FromSrgb((byte)seen.Val2, (byte)seen.Val1, (byte)seen.Val0);
        return Math.Sqrt((lab.A * lab.A) + (lab.B * lab.B));
    }

    [Fact]
    public void Paper_in_neutral_light_is_left_as_it_is()
    {
        using Mat photo = Photo(White);
        FrameReading frame = FrameReader.Read(photo, new FrameOptions());
        Assert.Null(frame.PaperWhite);
        Assert.DoesNotContain(Flag.WhiteFromPaper.Name, frame.Flags);
        Assert.Null(FrameReader.Balanced(photo, frame));
    }

    [Theory]
    [InlineData("rough")]
    [InlineData("leaf to the rim")]
    [InlineData("silvery leaf")]
    [InlineData("dark")]
    [InlineData("burnt out")]
    [InlineData("wood")]
    [InlineData("two halves")]
    public void What_is_no_paper_gives_no_white(string ground)
    {
        using Mat photo = ground switch
        {
            "rough" => Photo(LightBulb, grain: 26),
            "leaf to the rim" => Photo(new Scalar(60, 140, 90)),
            "silvery leaf" => Photo(new Scalar(170, 200, 180)),
            "dark" => Photo(new Scalar(40, 62, 75)),
            "burnt out" => Photo(new Scalar(190, 235, 255), falloff: 0),
            "wood" => Photo(new Scalar(75, 130, 190)),
            _ => Photo(LightBulb),
        };
        if (ground == "two halves")
        {
            using Mat half = photo.SubMat(0, photo.Rows, 0, photo.Cols / 2);
            half.SetTo(new Scalar(60, 80, 70));
        }

        FrameReading frame = FrameReader.Read(photo, new FrameOptions());
        Assert.Null(frame.PaperWhite);
        Assert.DoesNotContain(Flag.WhiteFromPaper.Name, frame.Flags);
    }

    [Fact]
    public void It_can_be_switched_off()
    {
        using Mat photo = Photo(LightBulb);
        Assert.Null(FrameReader.Read(photo, new FrameOptions { PlainPaper = false }).PaperWhite);
        Assert.Null(FrameReader.Read(photo, new FrameOptions { Balance = false }).PaperWhite);
    }

    // A leaf on a smooth surface: light falls off by a third, and there is noise as of a phone.
    private static Mat Photo(Scalar ground, double grain = 2.5, double falloff = 0.18)
    {
        Mat photo = new(900, 1200, MatType.CV_8UC3, ground);
        Cv2.Ellipse(photo, new Point(600, 450), new Size(330, 170), 20, 0, 360, new Scalar(50, 120, 70), -1);
        using Mat value = new();
        photo.ConvertTo(value, MatType.CV_32FC3);
        float far = (float)(1 - falloff);
        using Mat ramp = Mat.FromPixelData(1, 2, MatType.CV_32FC3, new float[] { 1, 1, 1, far, far, far });
        using Mat light = new();
        Cv2.Resize(ramp, light, photo.Size());
        Cv2.Multiply(value, light, value);
        using Mat noise = new(photo.Size(), MatType.CV_32FC3);
        Cv2.SetTheRNG(34);
        Cv2.Randn(noise, Scalar.All(0), Scalar.All(grain));
        if (grain > 10)
        {
            // Grain of stone is larger than a pixel.
            Cv2.GaussianBlur(noise, noise, default, 2);
            Cv2.Multiply(noise, Scalar.All(5), noise);
        }

        Cv2.Add(value, noise, value);
        value.ConvertTo(photo, MatType.CV_8UC3);
        return photo;
    }
}
