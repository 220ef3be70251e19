namespace LeafScan.Training.Rendering.LookAlikes;

/// <summary>
/// What lies on or belongs to one blade and could be taken for damage. Nothing of it changes the truth of the tissue below,
/// apart from the dead part of a mine, which is browned, and what a mine or a dropping covers, which is no speck any more.
/// Sizes are our own choice, by eye.
/// </summary>
public sealed record LookAlikeSpec
{
    /// <summary>Seed of all places and shapes.</summary>
    public required int Seed { get; init; }

    /// <summary>Water drops: lenses that shine; the tissue below is what it was.</summary>
    public int Drops { get; init; }

    /// <summary>Middle radius of a drop in mm, 1.1 by default.</summary>
    public double DropMm { get; init; } = 1.1;

    /// <summary>Winding trails of leaf miners: pale where the skin is left (sound in the truth), brown where dead (browned).</summary>
    public int Mines { get; init; }

    /// <summary>Width of a mine at its end in mm, 1.6 by default; it begins at a fifth of that.</summary>
    public double MineMm { get; init; } = 1.6;

    /// <summary>Share of a mine's length, from its beginning, that is dead and brown, 0..1; 0.3 by default.</summary>
    public double MineBrown { get; init; } = 0.3;

    /// <summary>Dark shiny droppings as lace bugs leave them: sound in the truth, never specks.</summary>
    public int Droppings { get; init; }

    /// <summary>Pale dots that belong to the cultivar: sound.</summary>
    public int PaleDots { get; init; }

    /// <summary>Middle radius of a pale dot in mm, 0.4 by default.</summary>
    public double PaleDotMm { get; init; } = 0.4;

    /// <summary>Pale bases of hairs, evenly spread over the blade: sound. Millimetres from one to the next, 0 for none.</summary>
    public double HairBaseGapMm { get; init; }

    /// <summary>How far the islands between the smallest veins differ, 0..1: sound.</summary>
    public double Marbling { get; init; }
}
