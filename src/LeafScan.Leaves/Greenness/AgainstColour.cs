using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>Judges foliage as a whole against a sound colour that is not its own: no single specks, only colour that is gone.</summary>
internal static class AgainstColour
{
    // Less loss than this is noise whatever the threshold.
    private const double LeastLoss = 0.08;

    /// <summary>Judges.</summary>
    /// <param name="codes"><see cref="MaskCode"/>; changed where asked. What could not be judged stays so.</param>
    /// <param name="planes">Colour.</param>
    /// <param name="sound">The sound colour.</param>
    /// <param name="look">Thresholds; those of a whole plant spare clear red.</param>
    /// <param name="slack">By how much the colour may be off, ln units: widens the bounds.</param>
    /// <param name="change">Writes what is found into the codes; specks that are damage either way stay specks.</param>
    /// <returns>Damage as judged, with a stricter and with a more generous threshold, 0..1.</returns>
    public static (double Damage, double Low, double High) Judge(Mat codes, ColourPlanes planes, OwnGreen sound, FoliageLook look, double slack, bool change)
    {
        using Mat loss = GreenLoss.Of(planes, sound);
        using Mat red = new();
        Cv2.GaussianBlur(loss, loss, default, 1);
        Cv2.GaussianBlur(planes.RedToGreen, red, default, 1);
        double half = sound.HalfLost(look.DiscolouredFrom);
        (float from, float brown) = ((float)half, (float)sound.BrownedFrom(look.BrownedFrom));
        (float strict, float generous) = ((float)((1.2 * half) + slack), (float)Math.Max(LeastLoss, (0.8 * half) - slack));
        bool sparesRed = look.Kind == "plant";
        long judged = 0;
        (long hurt, long least, long most) = (0, 0, 0);
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = codes.AsRow<byte>(y);
            ReadOnlySpan<float> lost = loss.AsRow<float>(y);
            ReadOnlySpan<float> calm = red.AsRow<float>(y);
            ReadOnlySpan<float> blue = planes.BlueToGreen.AsRow<float>(y);
            for (int x = 0; x < code.Length; x++)
            {
                if (code[x] is (byte)MaskCode.Background or (byte)MaskCode.Unassessed)
                {
                    continue;
                }

                judged++;
                float gone = sparesRed && FallRed.Is(calm[x], blue[x]) ? 0 : lost[x];
                bool isHurt = gone >= from;
                hurt += isHurt ? 1 : 0;
                least += gone >= strict ? 1 : 0;
                most += gone >= generous ? 1 : 0;
                if (change && !(isHurt && code[x] == (byte)MaskCode.Speck))
                {
                    code[x] = (byte)(!isHurt ? MaskCode.Sound : calm[x] >= brown ? MaskCode.Browned : MaskCode.Yellowed);
                }
            }
        }

        double all = Math.Max(1, judged);
        return (hurt / all, least / all, most / all);
    }
}
