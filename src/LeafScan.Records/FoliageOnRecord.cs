namespace LeafScan.Records;

/// <summary>What only a twig or a whole plant has, the numbers without the sectors of a crown.</summary>
/// <param name="NeedleLengthMm">Length of all needles in view, mm; null without a scale and where needles cannot be seen one by one. Twigs only.</param>
/// <param name="SpecksPerCmOfNeedle">Specks per cm of needle, a lower bound; null where they cannot be counted. Twigs only.</param>
/// <param name="Crown">Gaps and sides; null for a twig.</param>
public sealed record FoliageOnRecord(double? NeedleLengthMm, double? SpecksPerCmOfNeedle, CrownOnRecord? Crown);

/// <summary>Gaps and sides of a whole plant. Left and right are those of the photo.</summary>
/// <param name="Thinning">Share of the crown that is gap, 0..1.</param>
/// <param name="ThinningLow">Lower end of its 90 % interval.</param>
/// <param name="ThinningHigh">Upper end.</param>
/// <param name="WorstSide">left, right, or none where neither side stands out.</param>
/// <param name="WorstHeight">low, middle, high, or none.</param>
/// <param name="FallColour">Share of the foliage in fall colour, 0..1; it counts as sound.</param>
public sealed record CrownOnRecord(double Thinning, double ThinningLow, double ThinningHigh, string WorstSide, string WorstHeight, double FallColour);
