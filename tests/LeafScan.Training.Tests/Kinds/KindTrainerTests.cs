using LeafScan.Leaves.Kinds;
using LeafScan.Training.Kinds;
using OpenCvSharp;

namespace LeafScan.Training.Tests.Kinds;

public sealed class KindTrainerTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-kinds-").FullName;

    [Fact]
    public void What_is_learnt_is_still_there_after_saving_and_loading_under_the_right_name()
    {
        // Six plain colours stand for the six kinds: whoever mixes up the order of the kinds fails here.
        Scalar[] colours = [new(60, 130, 70), new(40, 60, 200), new(200, 60, 40), new(235, 235, 235), new(120, 120, 120), new(5, 5, 5)];
        string file = Path.Combine(_folder, "new", "kinds.zip");
        int rows = KindTrainer.Train(PhotoKinds.All.SelectMany(kind => Enumerable.Range(0, 40).Select(i => Plain(kind, colours, i))), 1, file);
        Assert.Equal(240, rows);
        using KindModel model = KindModel.Load(file);
        foreach (PhotoKind kind in PhotoKinds.All)
        {
            using KindExample example = Plain(kind, colours, 1000);
            KindJudgement judged = model.Judge(example.Pixels);
            Assert.Equal(kind, judged.Kind);
            Assert.True(judged.Chance > 0.8, $"{kind}: {judged.Chance}");
        }
    }

    [Theory]
    [InlineData("leaf-012.jpg", 12)]
    [InlineData("IMG_3042_3.jpg", 3)]
    [InlineData("rose.jpg", null)]
    public void The_last_number_of_a_name_decides_what_is_kept_for_checking(string file, int? number) =>
        Assert.Equal(number, RealPhotos.NumberOf(file));

    [Fact]
    public void A_folder_may_say_its_kind()
    {
        Assert.Equal(("photos", PhotoKind.Leaf), RealPhotos.Parse("photos"));
        Assert.Equal(("photos", PhotoKind.Tap), RealPhotos.Parse("photos:tap"));
        Assert.Contains("no kind of photo", Assert.Throws<ArgumentException>(() => RealPhotos.Parse("photos:tree")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_seed_draws_the_same_pictures_and_another_seed_others()
    {
        using KindExample tag = DrawnTag.Draw(5);
        using KindExample again = DrawnTag.Draw(5);
        using KindExample other = DrawnTag.Draw(6);
        Assert.Equal(0, Cv2.Norm(tag.Pixels, again.Pixels));
        Assert.False(tag.Pixels.Size() == other.Pixels.Size() && Cv2.Norm(tag.Pixels, other.Pixels) == 0);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static KindExample Plain(PhotoKind kind, Scalar[] colours, int seed)
    {
        Mat picture = new(60, 80, MatType.CV_8UC3, colours[(int)kind - 1]);
        DrawnUnusable.Noise(picture, new Random(seed), 3);
        return new KindExample(kind, "plain", $"{kind}-{seed}", picture);
    }
}
