using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests;

/// <summary>Steps run side by side where there are processors for it, and that must change nothing.</summary>
public class SideBySideTests
{
    [Fact]
    public void A_photo_reads_the_same_with_one_processor_and_with_several()
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-side-{Guid.NewGuid():n}.png");
        int before = Bands.Threads;
        try
        {
            using (DrawnLeaf leaf = new DrawnLeaf(1400, 700).WithSpecks(4, 40).WithPatch(new Point(400, 350), new Size(60, 40), DrawnLeaf.Brown).Photographed())
            {
                // A bite and a hole, so that every step has something to find.
                Cv2.Circle(leaf.Pixels, new Point(900, 30), 70, new Scalar(236, 238, 240), -1, LineTypes.AntiAlias);
                Cv2.Circle(leaf.Pixels, new Point(1000, 400), 25, new Scalar(236, 238, 240), -1, LineTypes.AntiAlias);
                Cv2.ImWrite(file, leaf.Pixels);
            }

            List<string> read = [];
            foreach (int threads in (int[])[1, 2, 5])
            {
                Bands.Threads = threads;
                using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
                using LeafMeasurement measured = LeafMeter.Measure(outcome.Photo!, new MeasureOptions());
                read.Add(ReadingJson.Write(new ReadingDocument { Tool = "test", Photos = [measured.Reading!], Refused = [] }) + Cv2.Sum(measured.Mask!));
            }

            Assert.Single(read.Distinct());
            Assert.Contains("\"speckCount\"", read[0], StringComparison.Ordinal);
        }
        finally
        {
            Bands.Threads = before;
            File.Delete(file);
        }
    }
}
