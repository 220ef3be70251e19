using System.CommandLine;
using System.Globalization;
using LeafScan.Cli.Screen;
using LeafScan.Notes.Cards;
using LeafScan.Notes.Client;
using LeafScan.Notes.Paper;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>card: the measure as one picture for a message.</summary>
internal static class CardCommand
{
    private static readonly string[] Endings = [".jpg", ".png", ".json"];

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = new("PLANT") { Description = "Code of the plant; its last walk is shown.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<DateOnly?> walk = OptionChecks.NewDay("--walk", "Day of the walk of the plant. Default: the last.");
        Option<string?> photo = new("--photo") { Description = "One photo in place of a plant: its name or number on record, or any photo file.", HelpName = "PHOTO" };
        Option<int?> leaf = new("--leaf") { Description = "Only this leaf of the photo, 1 for the largest. Default: all its leaves.", HelpName = "N" };
        leaf.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && !(int.TryParse(result.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number is >= 1 and <= 1000))
            {
                result.AddError("--leaf takes the leaf's number, 1 for the largest.");
            }
        });
        Option<string> file = PrintCommand.NewOutOption("File to write: a picture for a message, or the same as a document for programs.", Endings);
        Option<string?> country = NoteCommand.NewCountryOption();
        Option<bool> plain = new("--no-picture") { Description = "Without a photo." };
        ExampleCommand command = new(
            "card", "Writes one picture for a message: photo, what was found on it, number with its range, day and plant.",
            "leafscan card EU-1 --out eu-1.jpg", "leafscan card --photo IMG_0411.jpg --leaf 1 --out leaf.png", "leafscan card EU-1 --out eu-1.json")
        {
            code, place, walk, photo, leaf, file, country, plain,
        };
        command.SetAction((parsed, cancel) =>
        {
            string? plant = parsed.GetValue(code);
            string? one = parsed.GetValue(photo);
            int? number = parsed.GetValue(leaf);
            if (plant is null == one is null || (plant is not null && number is not null) || (one is not null && parsed.GetValue(walk) is not null))
            {
                throw new CommandException(ExitCode.WrongUse, "Say which plant, if need be with --walk, or which photo with --photo, if need be with --leaf. Nothing was written.");
            }

            using RecordStore? store = plant is not null || RecordStore.Exists(DataPlace.Of(parsed, world).FolderPath) ? DataPlace.OpenExisting(parsed, world) : null;
            NoteAsked asked = new(parsed.GetValue(country));
            bool draws = !parsed.GetValue(plain) && !parsed.GetValue(file)!.EndsWith(".json", StringComparison.OrdinalIgnoreCase);
            CardComposer Composer(long? placeId)
            {
                NoteLook look = NoteSetup.Look(store, placeId, asked);
                return new CardComposer(new CardRequest
                {
                    Forms = look.Forms,
                    By = look.By,
                    Contact = look.Contact,
                    Draw = draws ? (shown, which) => NoteSetup.Draw(store!, shown, CardPage.Choice with { Leaf = which }, parsed, world, cancel) : null,
                });
            }

            MeasureCard card = plant is not null
                ? OfPlant(store!, PlantChoice.One(store!, plant, parsed.GetValue(place)), parsed.GetValue(walk), Composer)
                : OfPhoto(store, one!, number, parsed.GetValue(place), parsed, world, draws, Composer, cancel);
            Write(world, parsed.GetValue(file)!, card);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static MeasureCard OfPlant(RecordStore store, Plant plant, DateOnly? day, Func<long?, CardComposer> composer) =>
        composer(plant.PlaceId).OfPlant(store, plant, day) ?? throw new CommandException(
            ExitCode.NothingMeasurable,
            day is { } told
                ? $"Nothing that counts was measured on {plant.Code} on {Words.Day(told)}; nothing was written. Its walks: leafscan series {plant.Code}"
                : $"Nothing that counts was measured on {plant.Code} yet; nothing was written. Add photos first: leafscan walk add FOLDER");

    private static MeasureCard OfPhoto(
        RecordStore? store, string word, int? leaf, string? place, ParseResult parsed, Surroundings world, bool draws, Func<long?, CardComposer> composer, CancellationToken cancel)
    {
        PhotoOnRecord? known = File.Exists(word) ? OnRecord(store, word) : PhotoChoice.One(
            store ?? throw new CommandException(ExitCode.WrongUse, $"There is no file {word} and no record. Nothing was written."), word, null, place);
        if (store is not null && known is { IsInBin: false })
        {
            NeedLeaf(store.ReadingOf(known.Id)?.Leaves.Count ?? 0, leaf, word);
            long? placeId = store.Places().FirstOrDefault(one => one.Name == known.PlaceName)?.Id;
            return composer(placeId).OfPhoto(store, known, leaf) ?? throw NothingCounts(word);
        }

        DrawnPhoto drawn = NotePictures.Draw(word, null, CardPage.Choice with { Options = PrinterScale.Options(parsed, world, null) }, cancel);
        if (drawn.Reading is not { } reading)
        {
            throw new CommandException(ExitCode.NothingMeasurable, $"{Path.GetFileName(word)}: {drawn.Refusal!.Reason} {drawn.Refusal.Advice}");
        }

        NeedLeaf(reading.Leaves.Count, leaf, word);
        if (leaf is not null && draws)
        {
            drawn = NotePictures.Draw(word, null, CardPage.Choice with { Options = PrinterScale.Options(parsed, world, null), Leaf = leaf }, cancel);
        }

        return composer(null).OfFile(draws ? drawn : drawn with { Picture = null }, leaf) ?? throw NothingCounts(word);
    }

    private static PhotoOnRecord? OnRecord(RecordStore? store, string file) =>
        store is not null && PhotoGlance.At(file, new PhotoLimits()).Sha256 is { } fingerprint ? store.FindPhoto(fingerprint) : null;

    private static void NeedLeaf(int count, int? leaf, string word)
    {
        if (leaf > count)
        {
            throw new CommandException(ExitCode.WrongUse, $"{Path.GetFileName(word)} has {Words.Count(count, "leaf", "leaves")}, so there is no leaf {Words.Number(leaf.Value)}. Nothing was written.");
        }
    }

    private static CommandException NothingCounts(string word) =>
        new(ExitCode.NothingMeasurable, $"No leaf of {Path.GetFileName(word)} could be judged well enough for a number; nothing was written. Photograph it again in shade.");

    private static void Write(Surroundings world, string target, MeasureCard card)
    {
        string ending = Path.GetExtension(target).ToUpperInvariant();
        if (ending == ".JSON")
        {
            JsonOut.Write(world, target, CardDocument.Of(card));
        }
        else
        {
            PrintCommand.NeedFonts();
            PaperPage page = CardPage.Of(card);
            SafeFile.Write(target, stream =>
            {
                if (ending == ".PNG")
                {
                    PngPaper.Write(stream, page, CardPage.DotsPerInch);
                }
                else
                {
                    PngPaper.WriteJpeg(stream, page, CardPage.DotsPerInch);
                }
            });
            TellLetters(world, card);
        }

        world.Out.WriteLine(Words.OneLine($"Written: {target}. {CardWords.Sentence(card).Replace('\u00A0', ' ')}"));
    }

    private static void TellLetters(Surroundings world, MeasureCard card)
    {
        if (new[] { card.Heading, card.By, card.Contact }.Concat(card.Under).Any(text => text is not null && !Notes.Letters.Typesetter.CanSet(text)))
        {
            world.Err.WriteLine($"Some letters cannot be set here and stand as {Notes.Letters.Typesetter.MissingLetter}.");
        }
    }
}
