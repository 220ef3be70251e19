using LeafScan.Taps.Spots;
using OpenCvSharp;

namespace LeafScan.Taps.Moves;

/// <summary>
/// In a quick burst a slow mite moves less from photo to photo than they can be lined up. From the first photo to the
/// last it has moved enough.
/// </summary>
internal static class Creeping
{
    // Mites go their own ways; what goes one way together is a breath of wind.
    private const int FewAlike = 3;
    private const double NearlyAlike = 0.8;

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
        List<(Track Track, Point2d Way)> creeping = [];
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
                track.MovedPx = moved;
                track.From = (track.Shot, track.Spot);
                track.To = (shot, number);
                creeping.Add((track, way));
            }
        }

        Point2d sum = creeping.Aggregate(new Point2d(0, 0), (all, one) => all + one.Way);
        bool together = creeping.Count >= FewAlike && Math.Sqrt((sum.X * sum.X) + (sum.Y * sum.Y)) > NearlyAlike * creeping.Sum(one => one.Track.MovedPx);
        foreach ((Track track, Point2d _) in creeping)
        {
            track.Did = together ? LinkKind.Blown : LinkKind.Crawled;
        }
    }
}
