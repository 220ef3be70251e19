using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Records;

namespace LeafScan.Web.Measuring;

/// <summary>How photos of the page are measured: as commands do, with what the person's printer makes of 100 mm.</summary>
internal static class Options
{
    public static MeasureOptions For(string dataFolder) => new() { Frame = new FrameOptions { Printed = Settings.Load(dataFolder).PrintedScale } };
}
