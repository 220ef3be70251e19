-- What two photos of a tap sheet gave, and what a person said of the specks on them.

-- One reading of a pair of photos; never changed. The photos lie beside the record, named by their fingerprints.
CREATE TABLE tap_sheet (
    id INTEGER PRIMARY KEY,
    first_sha256 TEXT NOT NULL CHECK (length(first_sha256) = 64 AND first_sha256 NOT GLOB '*[^0-9a-f]*'),
    second_sha256 TEXT NOT NULL CHECK (length(second_sha256) = 64 AND second_sha256 NOT GLOB '*[^0-9a-f]*'),
    tool_version TEXT NOT NULL,
    reading TEXT NOT NULL CHECK (json_valid(reading)),
    read_utc TEXT NOT NULL
) STRICT;

CREATE INDEX tap_sheet_by_photos ON tap_sheet (first_sha256, second_sha256);

-- What a person said of one place of the first photo, in its pixels. It counts for every reading of the same two photos, so that reading
-- them again does not lose it; a later word on the same speck goes before an earlier one, and both stay.
CREATE TABLE tap_correction (
    id INTEGER PRIMARY KEY,
    sheet_id INTEGER NOT NULL REFERENCES tap_sheet (id),
    x REAL NOT NULL,
    y REAL NOT NULL,
    said TEXT NOT NULL CHECK (said IN ('mite', 'notMite', 'predator')),
    who TEXT,
    made_utc TEXT NOT NULL,
    taken_back_utc TEXT
) STRICT;

CREATE INDEX tap_correction_by_sheet ON tap_correction (sheet_id);

ALTER TABLE tap ADD COLUMN sheet_id INTEGER REFERENCES tap_sheet (id);

CREATE INDEX tap_by_sheet ON tap (sheet_id) WHERE sheet_id IS NOT NULL;
