using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Tests.Support;
using LeafScan.Photos;

namespace LeafScan.Leaves.Tests.FineTexture;

/// <summary>
/// Real 256-pixel photos with a class word each (Hughes and Salathe 2015, arXiv:1511.08060), even-numbered ones only: the
/// odd ones were used to set the steps of <see cref="LeafScan.Leaves.FineTexture.TextureFeatures"/>. No pixel of them was
/// learned from.
/// </summary>
public class TomatoPhotoTests
{
    private static readonly Lazy<Dictionary<string, List<LeafReading>>> Readings = new(ReadAll);

    [SharedPhotosFact]
    public void Stippled_share_ranks_mite_leaves_above_sound_leaves_in_hard_sun()
    {
        double auc = Auc(Of("mites").Select(r => r.Shares.Stippled), Of("healthy").Select(r => r.Shares.Stippled));
        Assert.True(auc >= 0.90, $"AUC {auc:0.000}");
    }

    [SharedPhotosFact]
    public void Mite_score_ranks_mite_leaves_above_each_look_alike()
    {
        foreach (string other in new[] { "target-spot", "septoria", "bacterial-spot", "mosaic", "yellow-curl" })
        {
            double auc = Auc(Of("mites").Select(MiteScore), Of(other).Select(MiteScore));
            Assert.True(auc >= 0.85, $"{other}: AUC {auc:0.000}");
        }
    }

    private static List<LeafReading> Of(string name) => Readings.Value[name];

    private static double MiteScore(LeafReading r) => r.Causes.FirstOrDefault(c => c.Cause == "miteStippling")?.Score ?? 0;

    // Share of pairs in the right order, ties half: the Mann-Whitney statistic over the number of pairs.
    private static double Auc(IEnumerable<double> high, IEnumerable<double> low)
    {
        double[] others = low.ToArray();
        return high.Average(h => others.Average(o => h > o ? 1 : h == o ? 0.5 : 0));
    }

    private static Dictionary<string, List<LeafReading>> ReadAll()
    {
        Dictionary<string, List<LeafReading>> all = [];
        foreach (string path in Directory.EnumerateFiles(Path.Combine(SharedPhotos.Folder!, "photos", "tomato-leaves"), "*.jpg").Order(StringComparer.Ordinal))
        {
            string name = Path.GetFileNameWithoutExtension(path);
            int number = int.Parse(name[^3..], System.Globalization.CultureInfo.InvariantCulture);

            // Healthy leaves over 30 were taken in soft light: another light, no fair comparison.
            if (number % 2 != 0 || (name.StartsWith("healthy", StringComparison.Ordinal) && number > 30))
            {
                continue;
            }

            using PhotoOutcome opened = PhotoReader.Open(path, new PhotoLimits());
            using LeafMeasurement measured = LeafMeter.Measure(opened.Photo!, new MeasureOptions());
            if (measured.Reading is { Leaves.Count: > 0 } reading)
            {
                string key = name[..^4];
                if (!all.TryGetValue(key, out List<LeafReading>? list))
                {
                    all[key] = list = [];
                }

                list.Add(reading.Leaves[0]);
            }
        }

        return all;
    }
}
