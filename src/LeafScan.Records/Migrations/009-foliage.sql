-- What only a twig or a whole plant has. A leaf has no row here, and neither has a reading from before this layout: its figures were
-- not kept. Numbers of a crown are there all together or not at all. The sectors are in the form of the reading document.
CREATE TABLE foliage (
    leaf_id INTEGER PRIMARY KEY REFERENCES leaf (id),
    greenness REAL CHECK (greenness BETWEEN 0 AND 1),
    new_growth REAL CHECK (new_growth BETWEEN 0 AND 1),
    healthy_sha256 TEXT CHECK (length(healthy_sha256) > 0),
    needle_length_mm REAL CHECK (needle_length_mm >= 0),
    specks_per_cm_of_needle REAL CHECK (specks_per_cm_of_needle >= 0),
    thinning REAL CHECK (thinning BETWEEN 0 AND 1),
    thinning_low REAL CHECK (thinning_low BETWEEN 0 AND 1),
    thinning_high REAL CHECK (thinning_high BETWEEN 0 AND 1),
    worst_side TEXT CHECK (worst_side IN ('left', 'right', 'none')),
    worst_height TEXT CHECK (worst_height IN ('low', 'middle', 'high', 'none')),
    fall_colour REAL CHECK (fall_colour BETWEEN 0 AND 1),
    sectors TEXT CHECK (json_valid(sectors)),
    CHECK (thinning_low <= thinning_high),
    CHECK ((thinning IS NULL) + (thinning_low IS NULL) + (thinning_high IS NULL) + (worst_side IS NULL) + (worst_height IS NULL)
        + (fall_colour IS NULL) + (sectors IS NULL) IN (0, 7))
) STRICT;
