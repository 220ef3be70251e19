using OpenCvSharp;

namespace LeafScan.Photos.Decoding;

/// <summary>What the decoder gave.</summary>
/// <param name="Pixels">8-bit B, G, R, sRGB, upright; null when nothing could be decoded.</param>
/// <param name="Damaged">The decoder or the end marker says that the file is cut off or corrupt.</param>
/// <param name="Grey">The file has no colour.</param>
/// <param name="Problem">What the decoder said, shortened, when it gave nothing.</param>
internal sealed record DecodedPicture(Mat? Pixels, bool Damaged, bool Grey, string Problem);
