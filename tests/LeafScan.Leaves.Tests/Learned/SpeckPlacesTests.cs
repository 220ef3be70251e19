using System.Text.Json;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Learned;

/// <summary>Places of single specks: how their bytes are read, which are left when specks were found, and what the shipped network names.</summary>
public class SpeckPlacesTests
{
    [Fact]
    public void A_cell_without_a_sure_place_gives_none()
        => Assert.Empty(SpeckPlaces.Of(new byte[8 * 8 * SpeckPlaces.Depth], new Size(32, 32), new Rect(0, 0, 32, 32)));

    // Byte 159 of the score is -10 + 16 * 159 / 255, nearly nought: half a chance. Offsets: byte 128 of -2 to 2 is 4 / 510,
    // whose hyperbolic tangent times seven pixels is .055; byte 255 gives 7 tanh 2 = 6.748.
    [Fact]
    public void A_place_lies_at_its_offset_from_the_middle_of_its_cell()
    {
        byte[] bytes = new byte[8 * 8 * SpeckPlaces.Depth];
        int cell = ((3 * 8) + 2) * SpeckPlaces.Depth;
        bytes[cell + 1] = 159;
        bytes[cell + 3 + 2] = 128;
        bytes[cell + 3 + 3] = 255;

        SpeckPlace place = Assert.Single(SpeckPlaces.Of(bytes, new Size(32, 32), new Rect(100, 200, 32, 32)));

        Assert.Equal(0.5, place.Chance, 0.01);
        Assert.Equal(100 + 9.5 + 0.055, place.X, 0.01);
        Assert.Equal(200 + 13.5 + 6.748, place.Y, 0.01);
    }

    [Fact]
    public void Places_beyond_the_part_that_was_looked_at_are_left_out()
    {
        byte[] bytes = new byte[8 * 8 * SpeckPlaces.Depth];
        Array.Fill<byte>(bytes, 200);

        Assert.All(SpeckPlaces.Of(bytes, new Size(32, 32), new Rect(5, 5, 20, 18)), p =>
        {
            Assert.InRange(p.X, 5, 24);
            Assert.InRange(p.Y, 5, 22);
        });
    }

    [Fact]
    public void An_answer_of_another_size_is_refused()
        => Assert.Throws<InvalidOperationException>(() => SpeckPlaces.Of(new byte[10], new Size(32, 32), new Rect(0, 0, 32, 32)));

    [Fact]
    public void A_found_speck_accounts_for_the_nearest_place_only_and_places_on_sound_leaf_are_none()
    {
        using Mat codes = new(40, 40, MatType.CV_8UC1, Scalar.All((int)MaskCode.Sound));
        Cv2.Circle(codes, new Point(12, 12), 6, Scalar.All((int)MaskCode.Speck), -1);
        SpeckPlace[] places = [new(11, 12, 0.6f), new(14, 12, 0.9f), new(12, 15, 0.7f), new(30, 30, 0.9f)];

        List<SpeckPlace> left = SpeckPlaces.Beyond(places, [new SpeckMark(11.2, 12, 5)], codes);

        Assert.Equal([places[1], places[2]], left);
    }

    // Demo leaves with thousands of specks, whose places are known. The centre map has one peak for specks that touch.
    [Fact]
    public void The_network_names_more_of_the_specks_that_touch_than_its_centre_map_shows()
    {
        (int truth, int byPeaks, int byPlaces) all = (0, 0, 0);
        foreach (string name in (string[])["leaf-1", "leaf-3", "leaf-5"])
        {
            (int truth, int byPeaks, int byPlaces) one = Touching("walk-2026-08-03/B07/" + name);
            all = (all.truth + one.truth, all.byPeaks + one.byPeaks, all.byPlaces + one.byPlaces);
        }

        Assert.True(all.truth > 1000, $"{all.truth} specks touch");
        Assert.True(all.byPlaces > 1.04 * all.byPeaks, $"{all.byPlaces} named, {all.byPeaks} peaks, {all.truth} true");
    }

    // Specks with a neighbour nearer than nine tenths of their width; of these, how many have a peak, and a place, of their own.
    private static (int Truth, int ByPeaks, int ByPlaces) Touching(string name)
    {
        using Mat photo = Cv2.ImRead(Path.Combine(Repository.Root, "sample-images", name + ".jpg"));
        using Mat truth = Cv2.ImRead(Path.Combine(Repository.Root, "sample-images", "truth", name + ".truth.png"), ImreadModes.Grayscale);
        using JsonDocument about = JsonDocument.Parse(File.ReadAllText(Path.Combine(Repository.Root, "sample-images", "truth", name + ".truth.json")));
        using Mat leaf = new();
        Cv2.Compare(truth, Scalar.All(0), leaf, CmpTypes.GT);
        using Mat prior = new();
        Cv2.GaussianBlur(leaf, prior, default, 1.5);
        using Network network = Network.Load(Path.Combine(Repository.Root, "models", "leaf-tissue.onnx"), 2);
        using Planes planes = Planes.Of(photo, prior);
        List<(double X, double Y)> peaks = [], places = [];
        TissueAnswer.Ask(network, planes, new Rect(0, 0, photo.Width, photo.Height), scores =>
        {
            peaks = SpeckPeaks.Find(scores, leaf, 0.3).ConvertAll(p => (p.X, p.Y));
            places = [.. scores.Places.Where(p => leaf.AsRow<byte>((int)p.Y)[(int)p.X] != 0).Select(p => ((double)p.X, (double)p.Y))];
        });

        double[][] specks = [.. about.RootElement.GetProperty("specks").EnumerateArray().Select(s => s.EnumerateArray().Select(v => v.GetDouble()).ToArray())];
        bool[] touching = Array.ConvertAll(specks, s => specks.Any(o => o != s && Math.Sqrt(Math.Pow(o[0] - s[0], 2) + Math.Pow(o[1] - s[1], 2)) < 0.9 * s[2]));
        return (touching.Count(t => t), Own(peaks), Own(places));

        // Nearest pairs first, each speck and each mark once.
        int Own(List<(double X, double Y)> marks)
        {
            HashSet<int> met = [], used = [];
            var pairs = from t in Enumerable.Range(0, specks.Length)
                        from m in Enumerable.Range(0, marks.Count)
                        let far = Math.Sqrt(Math.Pow(marks[m].X - specks[t][0], 2) + Math.Pow(marks[m].Y - specks[t][1], 2))
                        where far <= Math.Max(3, specks[t][2] / 2)
                        orderby far
                        select (t, m);
            foreach ((int t, int m) in pairs)
            {
                if (!met.Contains(t) && used.Add(m))
                {
                    met.Add(t);
                }
            }

            return met.Count(t => touching[t]);
        }
    }
}
