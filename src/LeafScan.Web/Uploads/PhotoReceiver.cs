using System.Buffers;
using System.Security.Cryptography;

namespace LeafScan.Web.Uploads;

/// <summary>How receiving a photo ended.</summary>
internal enum ReceiptResult
{
    /// <summary>It lies on the disk, whole.</summary>
    Whole,

    /// <summary>More bytes came than are allowed.</summary>
    TooLarge,

    /// <summary>The bytes are not those that the address names.</summary>
    OtherBytes,

    /// <summary>No byte came.</summary>
    Empty,
}

/// <summary>Writes a body to the disk as it comes, never holding more of it than one buffer, and takes its fingerprint on the way.</summary>
internal static class PhotoReceiver
{
    private const int BufferBytes = 1 << 16;
    private const int HeadBytes = 16;

    /// <summary>Receives a photo into a file.</summary>
    /// <param name="body">What comes.</param>
    /// <param name="sha256">Fingerprint it must have, lower-case hex.</param>
    /// <param name="part">File to write; the caller removes it unless the result is whole.</param>
    /// <param name="mostBytes">Most bytes.</param>
    /// <param name="cancel">Stops.</param>
    public static async Task<(ReceiptResult Result, string Ending)> ReceiveAsync(Stream body, string sha256, string part, long mostBytes, CancellationToken cancel)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = ArrayPool<byte>.Shared.Rent(BufferBytes);
        byte[] head = new byte[HeadBytes];
        long length = 0;
        try
        {
            FileStream file = new(part, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, useAsync: true);
            await using (file.ConfigureAwait(false))
            {
                int read;
                while ((read = await body.ReadAsync(buffer.AsMemory(0, BufferBytes), cancel).ConfigureAwait(false)) > 0)
                {
                    if (length + read > mostBytes)
                    {
                        return (ReceiptResult.TooLarge, "");
                    }

                    if (length < HeadBytes)
                    {
                        buffer.AsSpan(0, (int)Math.Min(read, HeadBytes - length)).CopyTo(head.AsSpan((int)length));
                    }

                    length += read;
                    hash.AppendData(buffer, 0, read);
                    await file.WriteAsync(buffer.AsMemory(0, read), cancel).ConfigureAwait(false);
                }

                // On the disk, not only on its way there, before anybody is told that it arrived.
                file.Flush(flushToDisk: true);
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }

        return length == 0 ? (ReceiptResult.Empty, "")
            : Convert.ToHexStringLower(hash.GetHashAndReset()) == sha256 ? (ReceiptResult.Whole, PhotoFiles.Ending(head))
            : (ReceiptResult.OtherBytes, "");
    }
}
