using LeafScan.Notes.Client;
using LeafScan.Notes.Letters;
using LeafScan.Notes.Paper;

namespace LeafScan.Notes.Cards;

/// <summary>
/// Lays a card out as one upright picture, 1080 pixels wide: that is what a phone shows across its screen and what messengers pass
/// on without making it smaller. Letters are no smaller than a phone can show them.
/// </summary>
public static class CardPage
{
    /// <summary>Width of the picture in pixels.</summary>
    public const int WidthPx = 1080;

    /// <summary>Resolution at which <see cref="Of(MeasureCard)"/> is drawn.</summary>
    public const double DotsPerInch = 254;

    /// <summary>How its photo is drawn: cut close, and once without the lines.</summary>
    public static PictureChoice Choice { get; } = new() { WithPlain = true, LeastShape = 0.42 };

    private const double WidthMm = 108;

    private const double EdgeMm = 6;

    private const double TextMm = 3.7;

    private const double SmallMm = 3.2;

    // 9 to 16, a phone's screen: pictures get smaller before a card gets taller than that.
    private const double HeightMostMm = WidthMm * 16 / 9;

    private static readonly double[] PhotoHighMm = [62, 56, 52, 48, 44, 40, 36];

    /// <summary>The card as a page of 10 pixels a mm.</summary>
    public static PaperPage Of(MeasureCard card)
    {
        PaperPage page = Of(card, PhotoHighMm[0]);
        for (int i = 1; i < PhotoHighMm.Length && page.HeightMm > HeightMostMm; i++)
        {
            page = Of(card, PhotoHighMm[i]);
        }

        return page;
    }

    private static PaperPage Of(MeasureCard card, double photoHigh)
    {
        const double Room = WidthMm - (2 * EdgeMm);
        PageBlock whole = new();
        Head(whole, card, Room);
        Number(whole, card, Room);
        if (card.Picture is { } picture)
        {
            Pictures(whole, picture, Room, photoHigh);
        }
        else if (card.PictureMissing is { } missing)
        {
            whole.Text(missing, SmallMm, Room, NoteInks.Small).Skip(2.5);
        }

        Foot(whole, card, Room);
        double height = Math.Ceiling(whole.HeightMm + (2 * EdgeMm));
        return new PaperPage(WidthMm, height, TitleOf(card), [.. whole.Shapes.Select(shape => PageBlock.Moved(shape, EdgeMm, EdgeMm))]) { Description = CardWords.Sentence(card) };
    }

    /// <summary>Plant and day in one line.</summary>
    public static string TitleOf(MeasureCard card) => card.Day is { } day ? $"{card.Heading}, {card.Forms.Day(day)}" : card.Heading;

    // Sizes of the name and the lines it may take in each; a longer name takes more lines and is never cut.
    private static readonly (double Size, int Lines)[] Sizes = [(6.4, 1), (5.6, 1), (5, 1), (5.6, 2), (4.6, 2), (3.9, 3), (3.7, 99)];

    private static void Head(PageBlock whole, MeasureCard card, double room)
    {
        double size = Sizes.FirstOrDefault(mm => Typesetter.Wrap(card.Heading, mm.Size, true, room).Count <= mm.Lines, Sizes[^1]).Size;

        whole.Text(card.Heading, size, room, NoteInks.Text, bold: true).Skip(0.5);
        List<string> lines = [.. card.Under];
        if (card.Day is { } day)
        {
            // Beside the place where there is one: a line less.
            string words = card.Forms.Day(day);
            lines = lines.Count < 2 ? [.. lines, words] : [.. lines[..^1], $"{lines[^1]}, {words}"];
        }

        foreach (string line in lines)
        {
            whole.Text(line, TextMm, room, NoteInks.Small);
        }

        whole.Skip(1.6).Add(new ThinLine(0, whole.HeightMm, room, whole.HeightMm, 0.5) { Ink = NoteInks.Leaf }).Skip(2.4);
    }

    private static void Number(PageBlock whole, MeasureCard card, double room)
    {
        const double NumberMm = 14;
        const double GapMm = 5;
        string number = NoteForms.Percent(card.Damage);
        double left = Typesetter.WidthMm(number, NumberMm, bold: true) + GapMm;
        PageBlock words = new();
        words.Text(CardWords.Shows(card), 4.2, room - left, NoteInks.Text, bold: true).Text(CardWords.Likely(card), 4.2, room - left, NoteInks.Text);
        PageBlock row = new();
        row.Text(number, NumberMm, room, NoteInks.Leaf, bold: true);
        row.Beside(words, left, Math.Max(0, (row.HeightMm - words.HeightMm) / 2));
        whole.Beside(row, 0, whole.HeightMm).Skip(0.4);
        whole.Text(CardWords.Kinds(card), TextMm, room, NoteInks.Text).Skip(2.4);
    }

    private static void Pictures(PageBlock whole, NotePicture picture, double room, double photoHigh)
    {
        const double GapMm = 3;
        double shape = (double)picture.HeightPx / picture.WidthPx;
        bool isTall = shape > 1;
        double wide = isTall ? Math.Min((room - GapMm) / 2, 1.5 * photoHigh / shape) : Math.Min(room, photoHigh / shape);
        (string Caption, ReadOnlyMemory<byte> Jpeg)[] both =
        [
            .. picture.Plain.IsEmpty ? [] : new[] { ("As photographed", picture.Plain) },
            ($"What was found. {picture.Caption}", picture.Jpeg),
        ];
        if (isTall && both.Length == 2)
        {
            PageBlock first = Shown(both[0], wide, shape, wide);
            first.Beside(Shown(both[1], wide, shape, wide), wide + GapMm);
            whole.Beside(first, 0, whole.HeightMm).Skip(2.5);
            return;
        }

        foreach ((string Caption, ReadOnlyMemory<byte> Jpeg) one in both)
        {
            whole.Beside(Shown(one, wide, shape, room), 0, whole.HeightMm).Skip(2.4);
        }
    }

    private static PageBlock Shown((string Caption, ReadOnlyMemory<byte> Jpeg) picture, double wide, double shape, double captionRoom)
    {
        const double GapMm = 3;
        const double LeastRoomMm = 24;
        PageBlock block = new();
        block.Add(new PaperPicture(0, 0, wide, wide * shape, picture.Jpeg));
        if (captionRoom - wide - GapMm is >= LeastRoomMm and var beside)
        {
            // A picture that is not as broad as the card has its words at its side.
            return block.Beside(new PageBlock().Text(picture.Caption, SmallMm, beside, NoteInks.Small), wide + GapMm).Skip(Math.Max(0, (wide * shape) - block.HeightMm));
        }

        return block.Skip((wide * shape) + 0.8).Text(picture.Caption, SmallMm, captionRoom, NoteInks.Small);
    }

    private static void Foot(PageBlock whole, MeasureCard card, double room)
    {
        whole.Add(new ThinLine(0, whole.HeightMm, room, whole.HeightMm, 0.2) { Ink = NoteInks.Rule }).Skip(1.8);
        whole.Text(CardWords.Basis(card), SmallMm, room, NoteInks.Text).Skip(0.5);
        if (CardWords.Doubts(card) is { Length: > 0 } doubts)
        {
            whole.Text($"Doubt: {doubts}", SmallMm, room, NoteInks.Text).Skip(0.5);
        }

        whole.Text(CardWords.Limits, SmallMm, room, NoteInks.Small);
        string sender = string.Join(", ", new[] { card.By, card.Contact }.Where(word => !string.IsNullOrWhiteSpace(word)));
        if (sender.Length > 0)
        {
            whole.Skip(0.5).Text(sender, SmallMm, room, NoteInks.Text, bold: true);
        }
    }
}
