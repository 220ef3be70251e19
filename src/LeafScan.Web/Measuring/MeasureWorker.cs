using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Walks;
using LeafScan.Walks.Measuring;
using LeafScan.Walks.Tags;
using LeafScan.Web.Progress;
using LeafScan.Web.Uploads;
using Microsoft.Extensions.Hosting;

namespace LeafScan.Web.Measuring;

/// <summary>
/// Measures received photos one after another in the background. What waits stands in the record, so memory does not grow with it and a
/// killed server takes up where it was: a photo is waiting until its reading or refusal is on record.
/// </summary>
internal sealed class MeasureWorker(RecordStore store, PhotoFiles files, MeasureGate gate, PhotoAgain again, ProgressBell bell, ServerOptions options, ServerHealth health, DrawnRoom room) : BackgroundService
{
    private static readonly TimeSpan PatienceAfterTrouble = TimeSpan.FromSeconds(5);

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // The start of the server must not wait for the first photo.
        await Task.Yield();
        LearnedModels.ShareProcessors(1, Environment.ProcessorCount);
        while (!stoppingToken.IsCancellationRequested)
        {
            Task news = bell.Next;
            try
            {
                if (await TakeOneAsync(stoppingToken).ConfigureAwait(false))
                {
                    health.Clear();
                    continue;
                }
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            // Whatever it is, the photo still waits: say so, and try again in a while.
#pragma warning disable CA1031
            catch (Exception trouble)
#pragma warning restore CA1031
            {
                options.Log(trouble);
                health.Tell(trouble);
                news = Task.Delay(PatienceAfterTrouble, stoppingToken);
            }

            await news.WaitAsync(stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task<bool> TakeOneAsync(CancellationToken stop)
    {
        if (store.PhotosToMeasureAgain().FirstOrDefault(again.CanTry) is > 0 and long photoId)
        {
            await again.MeasureAsync(photoId, stop).ConfigureAwait(false);
            return true;
        }

        if (store.NextWaitingUpload() is not { } upload)
        {
            return false;
        }

        await gate.RunAsync(() => Measure(upload), stop).ConfigureAwait(false);
        return true;
    }

    private void Measure(UploadOnRecord upload)
    {
        NewUpload what = upload.Upload;
        if (store.FindPhoto(what.Sha256) is { } known)
        {
            // Killed after the reading was on record and before that was noted, or added by a command meanwhile.
            if (known.Kind == PhotoKind.Tag.Name() && known.WalkId == what.WalkId)
            {
                ReachBack(known, Options.For(store.Folder));
            }

            store.EndUpload(upload.Id, known.Id);
            bell.Ring();
            return;
        }

        string path = files.PathOf(what.StoredAs);
        if (!File.Exists(path))
        {
            Refuse(upload, path, "file missing", new PhotoRefusal(what.FileName, "The file of this photo is no longer in the data folder.", "Send the photo again."));
            return;
        }

        store.NoteMeasuring(upload.Id);
        bell.Ring();
        MeasureJob job = new() { Options = Options.For(store.Folder), Limits = options.Photos, MasksFolder = files.Drawn };
        WalkFile file = WalkTags.ReadOne(FileOf(what, path, job.Limits), store.Photos(what.WalkId), job.Options, job.Limits);
        job = job with { Options = job.Options.For(PlantOf(what, file)) };
        PhotoResult result = OnePhoto.Measure(file.Item, job with { Tags = new Dictionary<string, TagSeen> { [path] = file.Tag } }, options.Log, CancellationToken.None);
        if (result.Refusal is { } refusal)
        {
            Refuse(upload, path, result.Facts is null ? "no photo" : "no leaf", refusal);
        }
        else
        {
            Keep(upload, file, result, job.Options);
        }
    }

    private static WalkFile FileOf(NewUpload what, string path, PhotoLimits limits)
    {
        string label = what.Folder.Length == 0 ? what.FileName : $"{what.Folder}/{what.FileName}";
        CaptureTime? taken = PhotoGlance.At(path, limits).Taken;
        return new WalkFile(
            new PhotoItem(path, what.FileName, what.Sha256), what.Sha256, taken is { } time ? DateOnly.FromDateTime(time.Local) : null,
            PlantFromPath.Decide("/walk", "/walk/" + label), LeafFromPath.Decide("/walk", "/walk/" + label), null, null, null)
        {
            Taken = taken,
        };
    }

    // Whom the photo will belong to, as far as it is on record already.
    private Plant? PlantOf(NewUpload what, WalkFile file)
    {
        if (what.PlantId is { } chosen)
        {
            return store.FindPlant(chosen);
        }

        return file.Plant.Code is { } code && store.FindWalk(what.WalkId) is { } walk && store.FindPlace(walk.PlaceId) is { } place && store.FindPlants(code, place.Name) is [Plant only] ? only : null;
    }

    private void Keep(UploadOnRecord upload, WalkFile file, PhotoResult result, MeasureOptions how)
    {
        NewUpload what = upload.Upload;

        // What a person chose goes before what folders and tags tell.
        PlantGuess? chosen = what.PlantId is { } plant && store.FindPlant(plant) is { } known ? PlantGuess.ByHand(known.Code) : null;
        PhotoRecorded recorded = store.RecordPhoto(new NewPhoto
        {
            WalkId = what.WalkId,
            Facts = result.Facts! with { FileName = what.FileName },
            Reading = result.Reading! with { Flags = [.. result.Reading!.Flags, .. (file with { PlantUnsure = file.PlantUnsure && chosen is null }).Doubts] },
            Origin = new ReadingOrigin(ToolVersion.Current, how.Hash(), LearnedModels.VersionInUse),
            Plant = chosen ?? file.Plant,
            LeafAge = file.Leaf.Age,
            LeafTag = file.Leaf.Tag,
        });
        DrawnNames.KeepMask(store, files, recorded.Photo);
        room.Tidy();
        if (file.Tag.Any)
        {
            ReachBack(recorded.Photo, how);
        }

        store.EndUpload(upload.Id, recorded.Photo.Id);
        bell.Ring();
    }

    // A tag that was sent after its leaves: the order of sending must not decide about plants.
    private void ReachBack(PhotoOnRecord tag, MeasureOptions how)
    {
        IReadOnlyList<(PhotoOnRecord Photo, PlantGuess Plant)> moves = WalkTags.ReachBack(tag, store.Photos(tag.WalkId), store.PhotosDecidedByHand(tag.WalkId), how, options.Photos);
        if (moves.Count == 0)
        {
            return;
        }

        store.MovePhotosByTag([.. moves.Select(move => (move.Photo.Id, move.Plant))]);
        store.TellUploadsAgain([.. moves.Select(move => move.Photo.Id)]);
        bell.Ring();
    }

    private void Refuse(UploadOnRecord upload, string path, string word, PhotoRefusal refusal)
    {
        store.RecordRefusal(new NewRefusal { WalkId = upload.Upload.WalkId, PathSeen = path, Sha256 = upload.Upload.Sha256, Refusal = refusal with { FileName = upload.Upload.FileName } });
        store.RefuseUpload(upload.Id, word, refusal.Reason, refusal.Advice);
        bell.Ring();
    }
}
