using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Web.Measuring;

/// <summary>How photos of the page are measured: as commands do, with what the person's printer makes of 100 mm.</summary>
internal static class Options
{
    /// <summary>Of a photo of a plant that is known, against its healthy photo where it has one.</summary>
    public static MeasureOptions For(RecordStore store, long? plantId) => For(store.Folder).For(plantId is { } id ? store.FindPlant(id) : null);

    public static MeasureOptions For(string dataFolder) => new() { Frame = new FrameOptions { Printed = Settings.Load(dataFolder).PrintedScale } };
}
