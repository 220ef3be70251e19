namespace LeafScan.Leaves.Greenness;

/// <summary>Clear red of fall colour: sound, whatever green it has lost.</summary>
internal static class FallRed
{
    // Scarlet lies beyond any dead leaf in ln(R/G); crimson lies among the reddest of them, but keeps its blue, which rust has lost.
    private const float ScarletFrom = 1.2f;
    private const float CrimsonFrom = 0.8f;
    private const float CrimsonBlueFrom = -0.45f;

    /// <summary>Whether a colour is one.</summary>
    /// <param name="redToGreen">ln(R/G).</param>
    /// <param name="blueToGreen">ln(B/G).</param>
    public static bool Is(float redToGreen, float blueToGreen) => redToGreen >= ScarletFrom || (redToGreen >= CrimsonFrom && blueToGreen >= CrimsonBlueFrom);
}
