namespace LeafScan.Web.Documents;

/// <summary>A client's note in words. Pages and picture come from /pages and /picture.</summary>
internal sealed record ClientNote
{
    /// <summary>The plant it is on; null for a place.</summary>
    public required long? PlantId { get; init; }

    public required long PlaceId { get; init; }

    public required string Place { get; init; }

    public required string? Code { get; init; }

    public required string Title { get; init; }

    public required string Heading { get; init; }

    public required string? Client { get; init; }

    public required DateOnly Date { get; init; }

    public required string? By { get; init; }

    public required string? Contact { get; init; }

    /// <summary>Walk the note is on; null when nothing was measured.</summary>
    public required DateOnly? Walk { get; init; }

    /// <summary>Walk it is laid beside; null when there is none.</summary>
    public required DateOnly? Beside { get; init; }

    /// <summary>What its figures are of: leaf, twig or plant; null for a place and where nothing was measured.</summary>
    public required string? Kind { get; init; }

    /// <summary>Kinds of readings the plant has; empty for a place.</summary>
    public required IReadOnlyList<string> Kinds { get; init; }

    public required string? Verdict { get; init; }

    /// <summary>The parts that a person may write, in their order.</summary>
    public required IReadOnlyList<ClientNotePart> Parts { get; init; }
}

/// <summary>A part of a note that a person may write in their own words.</summary>
/// <param name="Part">greeting, seen, done, next, cautions or closing.</param>
/// <param name="Heading">Its heading on the note; null for greeting and closing.</param>
/// <param name="Words">The words that stand on the note now, one line a paragraph; empty for none.</param>
/// <param name="IsOwn">Whether a person wrote them.</param>
/// <param name="ForWalk">Walk to whose note they belong; null when they stand until they are changed, or are composed.</param>
internal sealed record ClientNotePart(string Part, string? Heading, string Words, bool IsOwn, DateOnly? ForWalk);

/// <summary>Words for a part of a note; empty words take what stands away again.</summary>
/// <param name="Words">The words.</param>
/// <param name="ForWalk">Walk to whose note they belong; null when they stand until they are changed.</param>
internal sealed record NotePartWish(string? Words, DateOnly? ForWalk);

/// <summary>How a note comes out on paper.</summary>
/// <param name="Pages">Number of pages.</param>
/// <param name="Paper">a4 or letter.</param>
/// <param name="HasPicture">Whether there is a photo on it.</param>
/// <param name="Picture">What the photo shows, or why there is none.</param>
/// <param name="LettersMissing">Parts with letters that cannot be set on paper here; the page for the browser has them all.</param>
internal sealed record NotePaper(int Pages, string Paper, bool HasPicture, string? Picture, IReadOnlyList<string> LettersMissing);

/// <summary>Who writes notes and in which form. In PUT a field that is left out stays; an empty text clears it.</summary>
internal sealed record NoteSender
{
    public string? By { get; init; }

    /// <summary>How to reach them.</summary>
    public string? Contact { get; init; }

    /// <summary>Country in whose form days are written, two letters after ISO 3166. In PUT with client it is that client's.</summary>
    public string? Country { get; init; }

    /// <summary>metric or us; null for as the country.</summary>
    public string? Units { get; init; }

    /// <summary>a4 or letter; null for as the country.</summary>
    public string? Paper { get; init; }

    /// <summary>In PUT: the client whose country it is; null for one's own.</summary>
    public string? Client { get; init; }
}
