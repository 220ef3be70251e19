using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Training.Judging;
using LeafScan.Training.Rendering.Damage;
using Microsoft.ML;

namespace LeafScan.Training.Tests.Judging;

public class JudgeTrainerTests
{
    [Fact]
    public void Trees_learn_what_tells_specks_from_glints_and_say_the_same_with_the_same_seed()
    {
        List<CandidateSample> samples = [.. Enumerable.Range(0, 12).Select(i => Sample($"leaf-{i}", i))];
        float[] first = Train(samples, out _);
        float[] second = Train(samples, out _);
        Assert.Equal(first, second);
        CandidateSample unseen = Sample("leaf-99", 99);
        _ = Train(samples, out SpeckJudge judge);
        JudgeFigures figures = JudgeFigures.Of(judge, [unseen], 0.5);
        Assert.InRange(figures.Auc, 0.97, 1);
        Assert.True(figures.After.F1 > figures.Before.F1 + 0.2, $"{figures.After} {figures.Before}");
    }

    [Fact]
    public void A_saved_model_answers_as_before_also_from_several_threads()
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-judge-{Guid.NewGuid():N}.zip");
        try
        {
            JudgeTrainer trainer = new(Small);
            ITransformer model = trainer.Train([Sample("a", 1), Sample("b", 2)]);
            trainer.Save(model, file);
            IReadOnlyList<float[]> asked = Sample("c", 3).Features;
            float[] expected = trainer.JudgeOf(model).Chances(asked);
            SpeckJudge loaded = SpeckJudge.Load(file);
            float[][] answers = new float[8][];
            Parallel.For(0, answers.Length, i => answers[i] = loaded.Chances(asked));
            Assert.All(answers, a => Assert.Equal(expected, a));
            Assert.Empty(loaded.Chances(Array.Empty<float[]>()));
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void Photos_of_one_leaf_never_stand_on_both_sides_of_the_split()
    {
        JudgeTrainer trainer = new(new JudgeTrainerOptions { Seed = 5, Apart = 0.5 });
        bool[] sides = [.. Enumerable.Range(0, 200).Select(i => trainer.IsApart(Sample($"group-{i}", i)))];
        Assert.InRange(sides.Count(s => s), 70, 130);
        Assert.Equal(sides, Enumerable.Range(0, 200).Select(i => trainer.IsApart(Sample($"group-{i}", i + 1000))));
    }

    [Fact]
    public void A_model_made_for_other_features_is_refused_in_one_sentence()
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-judge-{Guid.NewGuid():N}.zip");
        try
        {
            MLContext context = new(1);
            IDataView rows = context.Data.LoadFromEnumerable([new Other { Features = 1, Label = true }, new Other { Features = 0 }]);
            context.Model.Save(context.Transforms.CopyColumns("Copy", nameof(Other.Features)).Fit(rows), rows.Schema, file);
            Assert.Contains("other features", Assert.Throws<InvalidDataException>(() => SpeckJudge.Load(file)).Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    // y = 0, 0, 1, 1 and scores .1, .4, .35, .8 give an area of .75: worked example in scikit-learn's documentation of roc_auc_score.
    [Fact]
    public void Area_under_the_curve_agrees_with_a_published_example()
        => Assert.Equal(0.75, JudgeFigures.AucOf([false, false, true, true], [0.1f, 0.4f, 0.35f, 0.8f]), 12);

    [Fact]
    public void Samples_kept_in_a_file_come_back_as_they_were()
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-samples-{Guid.NewGuid():N}.bin");
        try
        {
            CandidateSample sample = Sample("leaf", 4);
            SampleFile.Write(file, [sample]);
            CandidateSample back = Assert.Single(SampleFile.Read(file)!);
            Assert.Equal(sample.Group, back.Group);
            Assert.Equal(sample.Truth, back.Truth);
            Assert.Equal(sample.Marks, back.Marks);
            Assert.Equal(sample.Labels, back.Labels);
            Assert.Equal(sample.Before, back.Before);
            Assert.Equal(sample.Features, back.Features);
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static JudgeTrainerOptions Small => new() { Seed = 3, Trees = 20, Leaves = 6, LeastRows = 10 };

    private static float[] Train(List<CandidateSample> samples, out SpeckJudge judge)
    {
        JudgeTrainer trainer = new(Small);
        judge = trainer.JudgeOf(trainer.Train(samples));
        return judge.Chances(samples[0].Features);
    }

    // Specks and glints alike in score; only the colour of their light differs. Every third is a speck.
    private static CandidateSample Sample(string group, int seed)
    {
        Random random = new(seed);
        const int count = 240;
        SpeckMark[] marks = new SpeckMark[count];
        float[][] features = new float[count][];
        bool[] labels = new bool[count];
        bool[] before = new bool[count];
        for (int i = 0; i < count; i++)
        {
            labels[i] = i % 3 == 0;
            before[i] = random.NextDouble() < 0.5;
            marks[i] = new SpeckMark(20 * (i % 16), 20 * (i / 16), 6);
            features[i] = new float[SpeckCandidate.FeatureCount];
            features[i][(int)SpeckFeature.CentreScore] = random.NextSingle();
            features[i][(int)SpeckFeature.CentreGreenToRed] = (float)((labels[i] ? 0.4 : 0.9) + (0.1 * (random.NextDouble() + random.NextDouble() - 1)));
        }

        return new CandidateSample(
            group + seed, "drawn", group, [.. marks.Where((_, i) => labels[i]).Select(m => new Speck(m.X, m.Y, m.DiameterPx, 0.6))], marks, features, labels, before);
    }

    private sealed class Other
    {
        public float Features { get; set; }

        public bool Label { get; set; }
    }
}
