using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Kinds;

/// <summary>The model that is shipped in models/, loaded from beside the test as from beside the program.</summary>
public class KindModelTests
{
    internal static readonly string ModelFile = Path.Combine(LearnedModels.Folder, "photo-kind.zip");

    [Fact]
    public void The_shipped_model_loads_and_its_chances_add_up_to_one()
    {
        Assert.True(LearnedModels.TellsKinds);
        using KindModel model = KindModel.Load(ModelFile);
        using DrawnLeaf leaf = new();
        KindJudgement judged = model.Judge(leaf.Photographed().Pixels);
        Assert.Equal(PhotoKinds.All.Count, judged.Chances.Count);
        Assert.Equal(1, judged.Chances.Sum(), 0.001);
        Assert.Equal(PhotoKind.Leaf, judged.Kind);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1, 5000)]
    [InlineData(5000, 1)]
    [InlineData(64, 40_000)]
    [InlineData(3, 2)]
    public void Any_shape_gets_an_answer(int rows, int cols)
    {
        using KindModel model = KindModel.Load(ModelFile);
        using Mat picture = new(rows, cols, MatType.CV_8UC3, new Scalar(60, 130, 70));
        KindJudgement judged = model.Judge(picture);
        Assert.All(judged.Chances, chance => Assert.InRange(chance, 0, 1));
        Assert.Equal(1, judged.Chances.Sum(), 0.001);
    }

    [Fact]
    public void The_picture_is_left_as_it_was_and_the_answer_is_the_same_again()
    {
        using KindModel model = KindModel.Load(ModelFile);
        using DrawnLeaf leaf = new();
        using Mat before = leaf.Pixels.Clone();
        IReadOnlyList<float> first = model.Judge(leaf.Pixels).Chances;
        Assert.Equal(first, model.Judge(leaf.Pixels).Chances);
        Assert.Equal(0, Cv2.Norm(before, leaf.Pixels));
    }

    [Fact]
    public async Task Several_threads_get_what_one_gets()
    {
        using KindModel model = KindModel.Load(ModelFile);
        using DrawnLeaf leaf = new();
        IReadOnlyList<float> alone = model.Judge(leaf.Pixels).Chances;
        IReadOnlyList<float>[] together = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => model.Judge(leaf.Pixels).Chances)));
        Assert.All(together, chances => Assert.Equal(alone, chances));
    }

    [Fact]
    public void A_file_that_is_no_model_is_refused_in_words()
    {
        string file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, "Not a model.");
            InvalidDataException problem = Assert.Throws<InvalidDataException>(() => KindModel.Load(file));
            Assert.Contains("no photo-kind model", problem.Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
