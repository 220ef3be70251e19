using System.CommandLine;
using System.Globalization;
using LeafScan.Leaves.Kinds;
using LeafScan.Training.Kinds;

namespace LeafScan.Training.Commands;

/// <summary>train-photo-kind: trains the model that says whether a photo shows a leaf, a twig, a plant, a tap sheet or a tag.</summary>
internal static class TrainPhotoKindCommand
{
    private const double SureFrom = 0.9;

    public static Command Build()
    {
        Argument<string[]> folders = new("FOLDER")
        {
            Description = "Folders of real photos, FOLDER or FOLDER:KIND (leaf, twig, plant, tap, tag, unusable; leaf when not said). Photos whose name ends in an even number are kept for checking. A folder of leaves with NAME.mask.png beside them is laid into scenes.",
            Arity = ArgumentArity.ZeroOrMore,
        };
        Option<FileInfo> to = new("--out") { Description = "The model to write.", DefaultValueFactory = _ => new FileInfo("models/photo-kind.zip") };
        Option<int> seed = new("--seed") { Description = "Seed of all chance, 1 to 800.", DefaultValueFactory = _ => 1 };
        Option<int> perKind = new("--per-kind") { Description = "Rendered and drawn pictures of each kind.", DefaultValueFactory = _ => 60 };
        Option<string[]> check = new("--check") { Description = "Folders of real photos that are only checked, FOLDER or FOLDER:KIND.", AllowMultipleArgumentsPerToken = true, DefaultValueFactory = _ => [] };
        Option<bool> checkOnly = new("--check-only") { Description = "Trains nothing; checks the model that is there." };
        seed.Validators.Add(result =>
        {
            if (result.Tokens is [{ } word] && int.TryParse(word.Value, out int value) && value is < 1 or > 800)
            {
                result.AddError("The seed is 1 to 800; nothing was trained.");
            }
        });
        Command command = new("train-photo-kind", "Trains and checks the model that tells leaf, twig, plant, tap sheet, tag and unusable photos apart.") { folders, to, seed, perKind, check, checkOnly };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            new KindTrainingOptions { Folders = parsed.GetValue(folders)!, Seed = parsed.GetValue(seed), PerKind = parsed.GetValue(perKind) },
            parsed.GetValue(to)!.FullName,
            parsed.GetValue(check)!,
            parsed.GetValue(checkOnly),
            cancel)));
        return command;
    }

    private static int Run(KindTrainingOptions options, string model, string[] check, bool checkOnly, CancellationToken cancel)
    {
        try
        {
            foreach (string argument in options.Folders.Concat(check))
            {
                string folder = RealPhotos.Parse(argument).Folder;
                if (!Directory.Exists(folder))
                {
                    throw new ArgumentException($"There is no folder \"{folder}\".");
                }
            }
        }
        catch (ArgumentException problem)
        {
            Console.Error.WriteLine($"{problem.Message} Nothing was trained; check the name and try again.");
            return 1;
        }

        if (checkOnly && !File.Exists(model))
        {
            Console.Error.WriteLine($"There is no model \"{model}\"; nothing was checked. Name one with --out, or train one.");
            return 1;
        }

        if (!checkOnly)
        {
            int rows = KindTrainer.Train(KindSet.Training(options).TakeWhile(_ => !Stopped(cancel)), options.Seed, model);
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Trained on {rows} pictures; wrote {model}."));
        }

        using KindModel trained = KindModel.Load(model);
        Tell("Rendered and drawn pictures of seeds kept aside", KindReport.Of(trained, KindSet.KeptAsidePictures(30)));
        Tell("Real photos of the training folders with even numbers", KindReport.Of(trained, options.Folders
            .Select(RealPhotos.Parse).SelectMany(f => RealPhotos.Read(f.Folder, f.Kind, number => number % 2 == 0))));
        Tell("Real photos never trained on", KindReport.Of(trained, check
            .Select(RealPhotos.Parse).SelectMany(f => RealPhotos.Read(f.Folder, f.Kind, _ => true))));
        return 0;
    }

    private static bool Stopped(CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        return false;
    }

    private static void Tell(string title, KindReport report)
    {
        Console.Out.WriteLine($"{title}:\n\n{report.Table(SureFrom)}");
        foreach (string line in report.Doubts(SureFrom))
        {
            Console.Error.WriteLine(line);
        }
    }
}
