using LeafScan.Web.Uploads;

namespace LeafScan.Web.Measuring;

/// <summary>
/// Keeps the folder of drawn pictures within its bounds: what was not looked at for longest goes first. All of it can be drawn again while
/// the photo's file is there.
/// </summary>
internal sealed class DrawnRoom(PhotoFiles files, ServerOptions options)
{
    // Down to this share at once, so that not every new picture is followed by a search through the folder.
    private const double After = 0.8;

    // A look within this time counts as the same look; writing a time for each would be a write for each picture shown.
    private static readonly TimeSpan SameLook = TimeSpan.FromMinutes(10);

    private readonly Lock _one = new();
    private DateTime _looked = DateTime.MinValue;

    /// <summary>Notes that a picture is looked at.</summary>
    public void Seen(string path)
    {
        try
        {
            DateTime now = options.Clock.GetUtcNow().UtcDateTime;
            if (now - File.GetLastWriteTimeUtc(path) > SameLook)
            {
                File.SetLastWriteTimeUtc(path, now);
            }
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            // Then it goes earlier than it need; it is drawn again when somebody asks.
        }
    }

    /// <summary>Removes the oldest pictures when there are too many bytes of them. Cheap when nothing was written since.</summary>
    /// <returns>How many were removed.</returns>
    public int Tidy()
    {
        lock (_one)
        {
            DirectoryInfo folder = new(files.Drawn);
            if (!folder.Exists || folder.LastWriteTimeUtc == _looked)
            {
                return 0;
            }

            FileInfo[] all = [.. folder.EnumerateFiles().Where(file => file.Exists)];
            long bytes = all.Sum(file => file.Length);
            int removed = 0;
            if (bytes > options.DrawnMostBytes)
            {
                long wanted = (long)(options.DrawnMostBytes * After);

                // The newest stays whatever its size: somebody is about to get it.
                foreach (FileInfo file in all.OrderBy(file => file.LastWriteTimeUtc).SkipLast(1))
                {
                    if (bytes <= wanted)
                    {
                        break;
                    }

                    PhotoFiles.TryDelete(file.FullName);
                    bytes -= file.Length;
                    removed++;
                }
            }

            folder.Refresh();
            _looked = folder.LastWriteTimeUtc;
            return removed;
        }
    }
}
