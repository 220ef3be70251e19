using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Client;

/// <summary>The few colours of a note. Each differs from paper and from the others by lightness too, so that grey print loses nothing.</summary>
internal static class NoteInks
{
    /// <summary>Headings and the figure: a dark leaf green.</summary>
    public static readonly PaperInk Leaf = new(0x1F, 0x4D, 0x3A);

    /// <summary>Rules and the ground of boxes.</summary>
    public static readonly PaperInk Rule = new(0xB9, 0xC4, 0xBC);

    /// <summary>Lines of a chart that carry a meaning: 3 to 1 on white (WCAG 2.2, 1.4.11).</summary>
    public static readonly PaperInk Line = new(0x7E, 0x8C, 0x83);

    /// <summary>Ground of the box with the figure.</summary>
    public static readonly PaperInk Ground = new(0xF1, 0xF4, 0xF0);

    /// <summary>Text.</summary>
    public static readonly PaperInk Text = new(0x22, 0x22, 0x22);

    /// <summary>Small print: 7 to 1 on white (WCAG 2.2, 1.4.6).</summary>
    public static readonly PaperInk Small = new(0x54, 0x54, 0x54);
}
