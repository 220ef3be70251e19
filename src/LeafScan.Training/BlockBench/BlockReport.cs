using System.Globalization;
using System.Text;

namespace LeafScan.Training.BlockBench;

/// <summary>What a block bench found, as Markdown and as a document.</summary>
/// <param name="Passes">The block, once for each number of jobs.</param>
/// <param name="Sizes">Cost by size.</param>
internal sealed record BlockReport(IReadOnlyList<BlockPass> Passes, SizeCost Sizes)
{
    /// <summary>Photos a second with most jobs over those with one.</summary>
    public double SpeedUp => Passes.MaxBy(pass => pass.Jobs)!.PhotosPerSecond / Passes.MinBy(pass => pass.Jobs)!.PhotosPerSecond;

    /// <summary>The tables.</summary>
    public string Markdown()
    {
        StringBuilder text = new();
        text.Append("| jobs | photos | refused | seconds | photos a second | processor seconds a photo | most memory by photo, MB |\n| ---: | ---: | ---: | ---: | ---: | ---: | --- |\n");
        foreach (BlockPass pass in Passes)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"| {pass.Jobs} | {pass.Photos} | {pass.Refused} | {pass.Seconds:0.0} | {pass.PhotosPerSecond:0.000} | {pass.ProcessorSeconds / (pass.Photos + pass.Refused):0.00} | {string.Join(", ", pass.Memory.Select(mark => string.Create(CultureInfo.InvariantCulture, $"{mark.Photos}: {mark.MostMb:0}")))} |\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"\nSpeed-up: {SpeedUp:0.00}.\n\n| megapixels | seconds | processor seconds | line |\n| ---: | ---: | ---: | ---: |\n");
        foreach (SizePoint point in Sizes.Points)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {point.Megapixels:0.0} | {point.Seconds:0.00} | {point.ProcessorSeconds:0.00} | {Sizes.FixedSeconds + (Sizes.SecondsPerMegapixel * point.Megapixels):0.00} |\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"\nLine: {Sizes.FixedSeconds:0.00} s and {Sizes.SecondsPerMegapixel:0.000} s a megapixel; it tells {Sizes.RSquared * 100:0.0} % of the variance and misses a point by {Sizes.LargestMiss * 100:0} % at most.\n");
        return text.ToString();
    }

    /// <summary>The document.</summary>
    public object Document() => new
    {
        passes = Passes.Select(pass => new { pass.Jobs, pass.Photos, pass.Refused, pass.Seconds, pass.PhotosPerSecond, pass.ProcessorSeconds, pass.Memory }),
        speedUp = SpeedUp,
        sizes = Sizes,
        processors = Environment.ProcessorCount,
    };
}
