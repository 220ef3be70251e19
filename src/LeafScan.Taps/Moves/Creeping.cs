using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>
/// In a quick burst a slow mite moves less from photo to photo than they can be lined up. From the first photo to the
/// last it has moved enough.
/// </summary>
internal static class Creeping
{
    /// <summary>Marks things that never moved between two photos but did over all of them.</summary>
    /// <param name="tracks">Things followed through all photos; changed.</param>
    /// <param name="evidence">All photos.</param>
    /// <param name="options">Limits.</param>
    public static void Mark(IEnumerable<Track> tracks, TapEvidence evidence, TapOptions options)
    {
        if (evidence.Moves.Count < 2)
        {
            return;
        }

        // Errors of one pair after the other add up at worst.
        double least = MoveLimits.Of(options, evidence.ErrorsPx.Sum(), 1, null).LeastPx;
        foreach (Track track in tracks.Where(track => track is { Linked: true, Did: LinkKind.Still, Last: not null }))
        {
            (int shot, int number) = track.Last!.Value;
            Spot from = evidence.Shots[track.Shot].Spots[track.Spot];
            Spot to = evidence.Shots[shot].Spots[number];
            Point2d way = evidence.ToFirst[shot].Map(to.X, to.Y) - evidence.ToFirst[track.Shot].Map(from.X, from.Y);
            double moved = Math.Sqrt((way.X * way.X) + (way.Y * way.Y));
            if (shot > track.Shot + 1 && moved > Math.Max(1.5 * least, 0.3 * from.DiameterPx)
                && MoveFinder.CouldWalk(from, evidence.Shots[track.Shot], options) && MoveFinder.CouldWalk(to, evidence.Shots[shot], options))
            {
                track.Did = LinkKind.Crawled;
                track.MovedPx = moved;
                track.From = (track.Shot, track.Spot);
                track.To = (shot, number);
            }
        }
    }
}
