using System.Security.Cryptography;
using LeafScan.Photos.Gate;

namespace LeafScan.Photos;

/// <summary>What a file tells before it is decoded. Cheap: the file is read once, no pixels are made.</summary>
/// <param name="Sha256">SHA-256 of the bytes, 64 lower-case hex digits: the photo's identity; null when the file could not be read.</param>
/// <param name="Taken">When the shutter opened, by the camera's own clock; null when the file does not say.</param>
/// <param name="Refusal">Why the gate refuses the file; null when it may be opened (which may still find damage).</param>
public sealed record PhotoGlance(string? Sha256, CaptureTime? Taken, PhotoRefusal? Refusal)
{
    /// <summary>Glances at a file: never throws for a bad one.</summary>
    /// <param name="path">The file.</param>
    /// <param name="limits">What is refused before anything is decoded.</param>
    public static PhotoGlance At(string path, PhotoLimits limits)
    {
        if (FileBytes.Read(path, limits, out byte[] bytes) is { } unread)
        {
            return new PhotoGlance(null, null, unread);
        }

        string sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        PhotoRefusal? refusal = PhotoGate.Check(Path.GetFileName(path), bytes, limits, out _);
        return new PhotoGlance(sha256, refusal is null ? CaptureTimeReader.Read(bytes) : null, refusal);
    }
}
