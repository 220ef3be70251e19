namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>More than two photos of one sheet: what walks goes its way evenly, and so does the hand.</summary>
public static class TapBurst
{
    /// <summary>The photos between the first and the second of a description, both of them included.</summary>
    /// <param name="spec">The description.</param>
    /// <param name="photos">Photos, 2 or more.</param>
    public static IReadOnlyList<ReadOnlyMemory<byte>> Render(TapSpec spec, int photos)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(photos, 2);
        RenderedTap ends = TapRenderer.Render(spec);
        return [ends.First, .. Enumerable.Range(1, photos - 2).Select(i => TapRenderer.Render(Until(spec, i / (photos - 1.0), i)).Second), ends.Second];
    }

    private static TapSpec Until(TapSpec spec, double share, int number)
    {
        double rest = 1 - share;
        TapView a = spec.First;
        TapView b = spec.Second;
        return spec with
        {
            Things = [.. spec.Things.Select(thing => thing with { MoveX = share * thing.MoveX, MoveY = share * thing.MoveY, TurnDegrees = share * thing.TurnDegrees })],
            Second = b with
            {
                ShiftXPx = (rest * a.ShiftXPx) + (share * b.ShiftXPx),
                ShiftYPx = (rest * a.ShiftYPx) + (share * b.ShiftYPx),
                TurnDegrees = (rest * a.TurnDegrees) + (share * b.TurnDegrees),
                Zoom = (rest * a.Zoom) + (share * b.Zoom),
                LeanX = (rest * a.LeanX) + (share * b.LeanX),
                LeanY = (rest * a.LeanY) + (share * b.LeanY),
                Camera = b.Camera with { Seed = b.Camera.Seed ^ (7919 * number), Taken = a.Camera.Taken?.AddSeconds(Math.Round(share * spec.SecondsBetween)) },
            },
        };
    }
}
