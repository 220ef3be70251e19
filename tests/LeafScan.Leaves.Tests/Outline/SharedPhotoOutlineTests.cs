using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Outline;

/// <summary>
/// Real leaves with outlines made outside this project: leaves cut out of field photos with hand-checked masks, and the same
/// leaves with painted damage, whose truth is exact.
/// </summary>
public class SharedPhotoOutlineTests
{
    [SharedPhotosFact]
    public void Painted_leaves_on_sheets_agree_with_their_truth()
    {
        List<double> scores = ImplantScores("\"mode\": \"sheet\"");
        Assert.InRange(OutlineScore.Quantile(scores, 0.5), 0.99, 1);
        Assert.InRange(OutlineScore.Quantile(scores, 0.1), 0.975, 1);
    }

    [SharedPhotosFact]
    public void Painted_leaves_in_the_field_agree_with_their_truth()
        => Assert.InRange(OutlineScore.Quantile(ImplantScores("\"mode\": \"field\""), 0.5), 0.93, 1);

    [SharedPhotosFact]
    public void Leaves_in_the_field_agree_with_their_masks()
    {
        List<double> scores = [];
        foreach (string file in Directory.GetFiles(Path.Combine(SharedPhotos.Folder!, "leaf-cutouts"), "*.mask.png"))
        {
            using Mat truth = Cv2.ImRead(file, ImreadModes.Grayscale);
            Cv2.Threshold(truth, truth, 127, 255, ThresholdTypes.Binary);
            scores.Add(Score(file.Replace(".mask.png", ".jpg", StringComparison.Ordinal), truth));
        }

        Assert.InRange(OutlineScore.Quantile(scores, 0.5), 0.96, 1);
        Assert.InRange(OutlineScore.Quantile(scores, 0.1), 0.83, 1);
    }

    private static List<double> ImplantScores(string mode)
    {
        List<double> scores = [];
        foreach (string file in Directory.GetFiles(Path.Combine(SharedPhotos.Folder!, "implants"), "*.truth.json"))
        {
            if (!File.ReadAllText(file).Contains(mode, StringComparison.Ordinal))
            {
                continue;
            }

            using Mat codes = Cv2.ImRead(file.Replace(".json", ".png", StringComparison.Ordinal), ImreadModes.Grayscale);
            using Mat truth = new();
            Cv2.InRange(codes, new Scalar(1), new Scalar(4), truth);
            scores.Add(Score(file.Replace(".truth.json", ".jpg", StringComparison.Ordinal), truth));
        }

        return scores;
    }

    private static double Score(string file, Mat truth)
    {
        using PhotoOutcome opened = PhotoReader.Open(file, new PhotoLimits());
        Assert.NotNull(opened.Photo);
        using OutlineResult found = OutlineFinder.Find(opened.Photo.Pixels, new OutlineOptions(), CancellationToken.None);
        return OutlineScore.Of(found, truth);
    }
}
