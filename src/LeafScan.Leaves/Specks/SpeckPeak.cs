namespace LeafScan.Leaves.Specks;

/// <summary>A place at which the colour way answers more than all about it.</summary>
/// <param name="X">Column, pixels of the patch.</param>
/// <param name="Y">Row.</param>
/// <param name="DiameterPx">Diameter of the discs to which the filter that answers best is made.</param>
/// <param name="Response">Its answer, in strength.</param>
internal readonly record struct SpeckPeak(int X, int Y, double DiameterPx, float Response);
