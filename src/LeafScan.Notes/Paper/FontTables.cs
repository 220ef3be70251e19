using System.Buffers.Binary;

namespace LeafScan.Notes.Paper;

/// <summary>
/// Which letters a TrueType or OpenType font has and how wide they are: its tables cmap (formats 4 and 12), hhea, hmtx and
/// head, as ISO/IEC 14496-22 lays them down. What draws the text does not say when a letter is missing, so it is asked here.
/// </summary>
internal sealed class FontTables
{
    private readonly byte[] _file;
    private readonly int _widths;
    private readonly int _widthCount;
    private readonly double _unitsPerEm;
    private readonly bool _placesAreLong;
    private readonly int _places;
    private readonly int _outlines;
    private readonly List<(int First, int Last, Func<int, int> Glyph)> _ranges;

    private FontTables(byte[] file)
    {
        _file = file;
        _unitsPerEm = Word(Table("head") + 18);
        _widthCount = Word(Table("hhea") + 34);
        _widths = Table("hmtx");
        _ranges = Ranges();
        _placesAreLong = Word(Table("head") + 50) != 0;
        _places = TableOrNone("loca");
        _outlines = TableOrNone("glyf");
    }

    /// <summary>Reads a font file.</summary>
    public static FontTables Load(string file) => new(File.ReadAllBytes(file));

    /// <summary>Whether the font has the letter.</summary>
    public bool Has(int codePoint) => Glyph(codePoint) != 0;

    /// <summary>Width of the letter in font sizes; that of the missing-letter sign when it has none.</summary>
    public double Advance(int codePoint) => Word(_widths + (4 * Math.Min(Glyph(codePoint), _widthCount - 1))) / _unitsPerEm;

    /// <summary>
    /// Whether the letter is drawn from parts that are themselves drawn from parts (composite glyphs in the table glyf), as
    /// Arabic letters with dots and letters with two accents are. PDFsharp 6.2.4 leaves the inner parts out of a subset.
    /// </summary>
    public bool IsOfPartsOfParts(int codePoint) => HasOutlines && Parts(Glyph(codePoint)).Any(part => Parts(part).Count > 0);

    private bool HasOutlines => _places >= 0 && _outlines >= 0;

    // Flags of a part: places are words, another part follows, and how many numbers tell its scale.
    private List<int> Parts(int glyph)
    {
        (int from, int to) = (Place(glyph), Place(glyph + 1));
        if (from == to || (short)Word(_outlines + from) >= 0)
        {
            return [];
        }

        List<int> parts = [];
        for (int at = _outlines + from + 10; ;)
        {
            int flags = Word(at);
            parts.Add(Word(at + 2));
            at += 4 + ((flags & 0x01) != 0 ? 4 : 2) + ((flags & 0x08) != 0 ? 2 : (flags & 0x40) != 0 ? 4 : (flags & 0x80) != 0 ? 8 : 0);
            if ((flags & 0x20) == 0)
            {
                return parts;
            }
        }
    }

    private int Place(int glyph) => _placesAreLong ? (int)Long(_places + (4 * glyph)) : 2 * Word(_places + (2 * glyph));

    private int Glyph(int codePoint)
    {
        int low = 0;
        int high = _ranges.Count - 1;
        while (low <= high)
        {
            int middle = (low + high) / 2;
            (int first, int last, Func<int, int> glyph) = _ranges[middle];
            if (codePoint < first)
            {
                high = middle - 1;
            }
            else if (codePoint > last)
            {
                low = middle + 1;
            }
            else
            {
                return glyph(codePoint);
            }
        }

        return 0;
    }

    private int Table(string name) => TableOrNone(name) is >= 0 and var at ? at : throw new InvalidDataException($"The font has no table {name}.");

    private int TableOrNone(string name)
    {
        int count = Word(4);
        for (int i = 0; i < count; i++)
        {
            int entry = 12 + (16 * i);
            if (System.Text.Encoding.ASCII.GetString(_file, entry, 4) == name)
            {
                return (int)Long(entry + 8);
            }
        }

        return -1;
    }

    // The largest of the Unicode tables: format 12 reaches beyond 65,535.
    private List<(int First, int Last, Func<int, int> Glyph)> Ranges()
    {
        int map = Table("cmap");
        int count = Word(map + 2);
        int small = 0;
        for (int i = 0; i < count; i++)
        {
            int table = map + (int)Long(map + 4 + (8 * i) + 4);
            switch (Word(table))
            {
                case 12:
                    return Format12(table);
                case 4:
                    small = table;
                    break;
            }
        }

        return small == 0 ? throw new InvalidDataException("The font has no table of Unicode letters.") : Format4(small);
    }

    private List<(int First, int Last, Func<int, int> Glyph)> Format12(int table)
    {
        List<(int, int, Func<int, int>)> ranges = [];
        int groups = (int)Long(table + 12);
        for (int i = 0; i < groups; i++)
        {
            int group = table + 16 + (12 * i);
            int first = (int)Long(group);
            int glyph = (int)Long(group + 8);
            ranges.Add((first, (int)Long(group + 4), letter => glyph + letter - first));
        }

        return ranges;
    }

    private List<(int First, int Last, Func<int, int> Glyph)> Format4(int table)
    {
        List<(int, int, Func<int, int>)> ranges = [];
        int segments = Word(table + 6) / 2;
        for (int i = 0; i < segments; i++)
        {
            int last = Word(table + 14 + (2 * i));
            int first = Word(table + 16 + (2 * segments) + (2 * i));
            int delta = Word(table + 16 + (4 * segments) + (2 * i));
            int at = table + 16 + (6 * segments) + (2 * i);
            int offset = Word(at);
            ranges.Add((first, last, letter =>
            {
                if (offset == 0)
                {
                    return (letter + delta) & 0xFFFF;
                }

                int glyph = Word(at + offset + (2 * (letter - first)));
                return glyph == 0 ? 0 : (glyph + delta) & 0xFFFF;
            }
            ));
        }

        return ranges;
    }

    private int Word(int at) => BinaryPrimitives.ReadUInt16BigEndian(_file.AsSpan(at));

    private uint Long(int at) => BinaryPrimitives.ReadUInt32BigEndian(_file.AsSpan(at));
}
