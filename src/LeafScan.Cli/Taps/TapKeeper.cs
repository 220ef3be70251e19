using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Taps;

namespace LeafScan.Cli.Taps;

/// <summary>Brings a tap that was read from photos on the record of its plant, beside the count with the lens where there is one.</summary>
internal sealed class TapKeeper(RecordStore store, Plant plant, NewTap words)
{
    private DateOnly? _day;

    /// <summary>The plant.</summary>
    public Plant Plant => plant;

    /// <summary>Takes the day from the first photo that tells one.</summary>
    public void SeePhoto(PhotoFacts facts) => _day ??= facts.Taken is { } taken ? DateOnly.FromDateTime(taken.Local) : null;

    /// <summary>Keeps the tap. Without any count there is nothing to keep.</summary>
    /// <returns>The entry; null when neither photos nor person counted.</returns>
    public TapOnRecord? Keep(TapReading? reading) =>
        words.MitesByLens is null && reading?.Crawling is null
            ? null
            : store.AddTap(words with { Day = _day ?? words.Day, MitesByPhoto = reading?.Crawling });

    /// <summary>What became of it, in words.</summary>
    public string Sentence(TapOnRecord? kept) => kept is null
        ? $"Nothing was kept for {plant.Code}: the photos gave no count. Take two photos some seconds apart, or count with the lens and add --mites."
        : TapNotes.Sentence(plant, kept);
}
