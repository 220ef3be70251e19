using OpenCvSharp;

namespace LeafScan.Taps.Spots;

/// <summary>Sums over the pixels of one spot: middle and spread weighted by shade.</summary>
internal sealed class SpotSums
{
    private double _mass;
    private double _x;
    private double _y;
    private double _xx;
    private double _yy;
    private double _xy;
    private double _peak;
    private int _peakX;
    private int _peakY;

    /// <summary>Adds a pixel.</summary>
    public void Add(int x, int y, double shade)
    {
        _mass += shade;
        _x += shade * x;
        _y += shade * y;
        _xx += shade * x * x;
        _yy += shade * y * y;
        _xy += shade * x * y;
        if (shade > _peak)
        {
            (_peak, _peakX, _peakY) = (shade, x, y);
        }
    }

    /// <summary>The spot; null when nothing was added.</summary>
    public Spot? ToSpot(bool large, double largestPx)
    {
        if (_mass <= 0)
        {
            return null;
        }

        double x = _x / _mass;
        double y = _y / _mass;
        double xx = Math.Max(0, (_xx / _mass) - (x * x));
        double yy = Math.Max(0, (_yy / _mass) - (y * y));
        double xy = (_xy / _mass) - (x * y);
        double mean = (xx + yy) / 2;
        double off = Math.Sqrt(Math.Max(0, (((xx - yy) / 2) * ((xx - yy) / 2)) + (xy * xy)));
        double along = Math.Sqrt(mean + off);
        double across = Math.Sqrt(Math.Max(0.05, mean - off));
        return new Spot
        {
            X = x,
            Y = y,
            PeakX = _peakX,
            PeakY = _peakY,
            Peak = _peak,
            Mass = _mass,
            Long = along,
            Short = across,
            Spread = along * across,
            Stretch = new Point2d(xx - yy, 2 * xy),
            Large = large,
            Coarse = large || Spot.IsCoarse(along, across, largestPx),
        };
    }
}
