using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Walks.Measuring;
using OpenCvSharp;

namespace LeafScan.Training.Fuzz;

/// <summary>Photo files: the first look at a walk's file, the gate, the decoder, the measuring, the document.</summary>
internal sealed class PhotoTarget : IFuzzTarget
{
    // A pixel has changed when it differs by more than any noise of decoding; a picture has when one pixel in two hundred did.
    private const int ChangedLevels = 24;
    private const double ChangedShare = 0.005;

    private readonly List<PictureOriginal> _originals;
    private readonly List<Mat?> _pixels;
    private readonly string _path;
    private readonly MeasureJob _job = new();

    public PhotoTarget(string folder)
    {
        _path = Path.Combine(folder, "photo");
        _originals = PictureOriginals.Make(folder);
        _pixels = [.. _originals.Select(original => original.Format is null ? null : PictureOriginals.Pixels(original, _path))];
    }

    public string Name => "photos";

    /// <summary>Whether HEIC is among the originals.</summary>
    public bool HasHeic => _originals.Exists(original => original.Format == PhotoFormat.Heic);

    public FuzzFile Next(Random random)
    {
        int original = random.Next(_originals.Count);
        FuzzFile file = PictureDamage.Of(_originals[original].Bytes, _originals[original].Format, original, random);
        return file with { Damage = $"{_originals[original].Name}: {file.Damage}" };
    }

    public FuzzResult Try(FuzzFile file)
    {
        File.WriteAllBytes(_path, file.Bytes);
        PhotoGlance glance = PhotoGlance.At(_path, _job.Limits);
        Exception? own = null;
        PhotoResult result = OnePhoto.Measure(
            new PhotoItem(_path, "photo", "photo"), _job, error =>
            {
                own = error;
                return null;
            }, CancellationToken.None);
        if (own is not null)
        {
            return new FuzzResult("fault", own.ToString());
        }

        if (result.Refusal is { } refusal)
        {
            return refusal.Reason.Length > 0 && refusal.Advice.Length > 0 ? new FuzzResult("refused") : new FuzzResult("refused", "a refusal without reason or advice");
        }

        PhotoReading reading = result.Reading!;
        if (glance.Refusal is not null)
        {
            return new FuzzResult("read", "the first look refused the file, the measuring did not");
        }

        ReadingDocument document = new() { Tool = ToolVersion.Current, Photos = [reading], Refused = [] };
        if (ReadingJson.Read(ReadingJson.Write(document)).Photos.Count != 1)
        {
            return new FuzzResult("read", "the document does not come back as it was written");
        }

        bool flagged = reading.Flags.Contains(Flag.DamagedFile.Name);
        return flagged ? new FuzzResult("read, with damagedFile")
            : file.IsPlain ? new FuzzResult("read", "a reading of a plainly damaged file without damagedFile")
            : new FuzzResult(HasChanged(file.Original) ? "read, picture changed without a sign" : "read, picture as it was");
    }

    private bool HasChanged(int original)
    {
        using PhotoOutcome outcome = PhotoReader.Open(_path, _job.Limits);
        if (_pixels[original] is not { } sound || outcome.Photo is not { } photo || photo.Pixels.Size() != sound.Size())
        {
            return true;
        }

        using Mat differs = new();
        Cv2.Absdiff(sound, photo.Pixels, differs);
        using Mat flat = differs.Reshape(1);
        using Mat much = new();
        Cv2.Threshold(flat, much, ChangedLevels, 255, ThresholdTypes.Binary);
        return Cv2.CountNonZero(much) > ChangedShare * flat.Total();
    }

    public void Dispose() => _pixels.ForEach(pixels => pixels?.Dispose());
}
