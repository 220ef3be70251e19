using System.CommandLine;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Tissue;
using LeafScan.Training.Judging;
using Microsoft.ML;

namespace LeafScan.Training.Commands;

/// <summary>train-speck-judge: grows the trees that tell feeding specks from look-alikes.</summary>
internal static class TrainSpeckJudgeCommand
{
    public static Command Build()
    {
        Argument<string[]> folders = new("FOLDER") { Description = "Folders of photos with mask and specks known.", Arity = ArgumentArity.OneOrMore };
        Option<FileInfo> to = new("--out") { Description = "Model file to write, usually models/speck-judge.zip; its card is written beside it.", Required = true };
        Option<int> seed = new("--seed") { Description = "Fixes the split and the trees.", DefaultValueFactory = _ => 1 };
        Option<int> most = new("--most") { Description = "At most so many photos of each folder, evenly spread over their names.", DefaultValueFactory = _ => 160 };
        Option<FileInfo?> keep = new("--candidates") { Description = "Keeps the candidates in this file and takes them from there when it is there. Remove it after any change of photos or network." };
        Option<string[]> without = new("--without") { Description = "Leaves left out altogether, so that other photos of them can be scored.", AllowMultipleArgumentsPerToken = true };
        Option<string[]> score = new("--score") { Description = "Folders that are only scored, at several chances: never trained on.", AllowMultipleArgumentsPerToken = true };
        Command command = new("train-speck-judge", "Trains the model that tells feeding specks from look-alikes.") { folders, to, seed, most, keep, without, score };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            parsed.GetValue(folders)!, parsed.GetValue(to)!.FullName, parsed.GetValue(seed), parsed.GetValue(most), parsed.GetValue(keep)?.FullName, parsed.GetValue(without) ?? [], parsed.GetValue(score) ?? [], cancel)));
        return command;
    }

    private static int Run(string[] folders, string to, int seed, int most, string? keep, string[] without, string[] score, CancellationToken cancel)
    {
        if (folders.Concat(score).FirstOrDefault(f => !Directory.Exists(f)) is { } missing)
        {
            Console.Error.WriteLine($"There is no folder \"{missing}\"; nothing was trained. Check the name and try again.");
            return 1;
        }

        if (ModelFiles.Tissue is not { } network)
        {
            Console.Error.WriteLine($"The tissue network leaf-tissue.onnx is not in {ModelFiles.Folder}; nothing was trained. Put it there first: the judge learns from its answers.");
            return 4;
        }

        SampleReader reader = new(network, new TissueOptions());
        List<CandidateSample> samples = SampleGatherer.Gather(folders, most, keep, reader, Console.Error.WriteLine, cancel);
        samples.RemoveAll(s => without.Contains(s.Group));
        JudgeTrainer trainer = new(new JudgeTrainerOptions { Seed = seed });
        List<CandidateSample> apart = samples.FindAll(trainer.IsApart);
        List<CandidateSample> rest = samples.FindAll(s => !trainer.IsApart(s));
        if (!rest.Exists(s => s.Labels.Contains(true)) || apart.Count == 0)
        {
            Console.Error.WriteLine("These folders hold too few leaves with specks; nothing was trained. About a hundred photos with their truth are needed.");
            return 3;
        }

        double chance = new TissueOptions().SpeckChance;
        JudgeCard card = JudgeCard.Of(samples, apart, trainer.JudgeOf(trainer.Train(rest)), chance, seed);

        // The figures come from leaves that these trees never saw; what is written has seen them all.
        ITransformer model = trainer.Train(samples);
        trainer.Save(model, to);
        File.WriteAllText(Path.ChangeExtension(to, ".md"), card.Text);
        Console.Out.WriteLine(card.Tables);
        if (score.Length > 0)
        {
            List<CandidateSample> scored = SampleGatherer.Gather(score, int.MaxValue, keep is null ? null : keep + ".scored", reader, Console.Error.WriteLine, cancel);
            Console.Out.WriteLine(JudgeCard.AtSeveralChances(scored, trainer.JudgeOf(model)));
        }

        return 0;
    }
}
