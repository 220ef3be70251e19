namespace LeafScan.Photos.Gate;

/// <summary>Reads a file whole, with every way in which that can fail put into words.</summary>
internal static class FileBytes
{
    /// <summary>The bytes, or the reason why there are none.</summary>
    public static PhotoRefusal? Read(string path, PhotoLimits limits, out byte[] bytes)
    {
        bytes = [];
        string name = Path.GetFileName(path);
        try
        {
            if (Directory.Exists(path))
            {
                return new PhotoRefusal(name, "This is a folder, not a photo.", "Name the photos in it, or give the folder where a folder is asked for.");
            }

            FileInfo info = new(path);
            if (!info.Exists)
            {
                return new PhotoRefusal(name, "The file does not exist.", "Check the name and the folder.");
            }

            if (info.Length == 0)
            {
                return new PhotoRefusal(name, "The file is empty.", "Copy the photo again from the phone.");
            }

            if (info.Length > limits.LargestFileBytes)
            {
                return new PhotoRefusal(name, $"The file has {info.Length / 1_000_000} MB, more than the {limits.LargestFileBytes / 1_000_000} MB that are read.", "Save it as JPEG at normal quality.");
            }

            bytes = File.ReadAllBytes(path);
            return null;
        }
        catch (UnauthorizedAccessException)
        {
            return new PhotoRefusal(name, "The file may not be read by this user.", "Give yourself the right to read it, or copy it elsewhere.");
        }
        catch (Exception problem) when (problem is IOException or ArgumentException or NotSupportedException)
        {
            return new PhotoRefusal(name, "The file could not be read from the disk.", "Check the disk or the card and try again.");
        }
    }
}
