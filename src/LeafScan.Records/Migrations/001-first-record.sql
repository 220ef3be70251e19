-- Times are ISO-8601 UTC text ("2026-07-02T13:14:00.000Z"); dates are the local calendar day of the visit ("2026-07-02").
-- A column ending in _key holds the folded form of a name, so that "B12" and "b12" are one plant.

CREATE TABLE place (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL UNIQUE,
    created_utc TEXT NOT NULL
) STRICT;

CREATE TABLE block (
    id INTEGER PRIMARY KEY,
    place_id INTEGER NOT NULL REFERENCES place (id),
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL,
    created_utc TEXT NOT NULL,
    UNIQUE (place_id, name_key)
) STRICT;

CREATE TABLE plant (
    id INTEGER PRIMARY KEY,
    place_id INTEGER NOT NULL REFERENCES place (id),
    block_id INTEGER REFERENCES block (id),
    code TEXT NOT NULL CHECK (length(code) > 0),
    code_key TEXT NOT NULL,
    name TEXT,
    species TEXT,
    created_utc TEXT NOT NULL,
    UNIQUE (place_id, code_key)
) STRICT;

CREATE TABLE walk (
    id INTEGER PRIMARY KEY,
    place_id INTEGER NOT NULL REFERENCES place (id),
    walked_on TEXT NOT NULL CHECK (walked_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    recorded_utc TEXT NOT NULL,
    UNIQUE (place_id, walked_on)
) STRICT;

-- One command that writes. A row without an end was cut off; what it had committed stands.
CREATE TABLE run (
    id INTEGER PRIMARY KEY,
    command TEXT NOT NULL,
    tool_version TEXT NOT NULL,
    started_utc TEXT NOT NULL,
    ended_utc TEXT,
    photos_added INTEGER,
    photos_already_here INTEGER,
    photos_refused INTEGER,
    ending TEXT CHECK (ending IN ('finished', 'stopped', 'failed')),
    CHECK ((ended_utc IS NULL) = (ending IS NULL))
) STRICT;

-- A photo is its bytes: the same bytes twice are one photo.
CREATE TABLE photo (
    id INTEGER PRIMARY KEY,
    sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    file_name TEXT NOT NULL,
    path_seen TEXT NOT NULL,
    byte_length INTEGER NOT NULL CHECK (byte_length >= 0),
    format TEXT NOT NULL CHECK (format IN ('jpeg', 'png', 'heic')),
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    taken TEXT,
    kind TEXT NOT NULL,
    walk_id INTEGER NOT NULL REFERENCES walk (id),
    plant_id INTEGER REFERENCES plant (id),
    plant_by TEXT NOT NULL CHECK (plant_by IN ('byFolder', 'byFileName', 'byHand', 'unknown')),
    run_id INTEGER REFERENCES run (id),
    recorded_utc TEXT NOT NULL,
    CHECK ((plant_id IS NULL) = (plant_by = 'unknown'))
) STRICT;

CREATE INDEX photo_by_plant ON photo (plant_id, walk_id);
CREATE INDEX photo_by_walk ON photo (walk_id);

-- Measuring again adds a reading; the old one stays, no longer current.
CREATE TABLE reading (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photo (id),
    is_current INTEGER NOT NULL CHECK (is_current IN (0, 1)),
    tool_version TEXT NOT NULL,
    options_hash TEXT NOT NULL,
    model_version TEXT,
    measured_utc TEXT NOT NULL,
    kind TEXT NOT NULL,
    pixels_per_mm REAL CHECK (pixels_per_mm > 0),
    flags TEXT NOT NULL CHECK (json_valid(flags)),
    run_id INTEGER REFERENCES run (id)
) STRICT;

CREATE INDEX reading_by_photo ON reading (photo_id);
CREATE UNIQUE INDEX reading_current ON reading (photo_id) WHERE is_current = 1;

CREATE TABLE leaf (
    id INTEGER PRIMARY KEY,
    reading_id INTEGER NOT NULL REFERENCES reading (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    area_px REAL NOT NULL CHECK (area_px > 0),
    area_mm2 REAL CHECK (area_mm2 > 0),
    share_sound REAL NOT NULL CHECK (share_sound BETWEEN 0 AND 1),
    share_stippled REAL NOT NULL CHECK (share_stippled BETWEEN 0 AND 1),
    share_yellowed REAL NOT NULL CHECK (share_yellowed BETWEEN 0 AND 1),
    share_browned REAL NOT NULL CHECK (share_browned BETWEEN 0 AND 1),
    share_chewed REAL NOT NULL CHECK (share_chewed BETWEEN 0 AND 1),
    share_unassessed REAL NOT NULL CHECK (share_unassessed BETWEEN 0 AND 1),
    damage REAL NOT NULL CHECK (damage BETWEEN 0 AND 1),
    damage_low REAL NOT NULL CHECK (damage_low BETWEEN 0 AND 1),
    damage_high REAL NOT NULL CHECK (damage_high BETWEEN 0 AND 1),
    speck_count INTEGER NOT NULL CHECK (speck_count >= 0),
    speck_density_per_cm2 REAL CHECK (speck_density_per_cm2 >= 0),
    speck_diameter_median_px REAL NOT NULL CHECK (speck_diameter_median_px >= 0),
    flags TEXT NOT NULL CHECK (json_valid(flags)),
    UNIQUE (reading_id, ordinal),
    CHECK (abs(share_sound + share_stippled + share_yellowed + share_browned + share_chewed + share_unassessed - 1) < 0.001),
    CHECK (damage_low <= damage_high)
) STRICT;

-- Shapes are apart from the numbers: a series over thousands of leaves must not read a single outline.
CREATE TABLE leaf_shape (
    leaf_id INTEGER PRIMARY KEY REFERENCES leaf (id),
    outline TEXT NOT NULL CHECK (json_valid(outline)),
    speck_centres TEXT NOT NULL CHECK (json_valid(speck_centres)),
    causes TEXT NOT NULL CHECK (json_valid(causes))
) STRICT;

CREATE TABLE refused_file (
    id INTEGER PRIMARY KEY,
    walk_id INTEGER NOT NULL REFERENCES walk (id),
    file_name TEXT NOT NULL,
    path_seen TEXT NOT NULL,
    sha256 TEXT,
    reason TEXT NOT NULL,
    advice TEXT NOT NULL,
    run_id INTEGER REFERENCES run (id),
    refused_utc TEXT NOT NULL,
    mended_utc TEXT,
    UNIQUE (walk_id, path_seen)
) STRICT;

CREATE TABLE care (
    id INTEGER PRIMARY KEY,
    plant_id INTEGER NOT NULL REFERENCES plant (id),
    done_on TEXT NOT NULL CHECK (done_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    what TEXT NOT NULL CHECK (what IN ('rinse', 'soap', 'oil', 'predators', 'miticide', 'pruning', 'nothing')),
    note TEXT,
    recorded_utc TEXT NOT NULL
) STRICT;

CREATE INDEX care_by_plant ON care (plant_id, done_on);

-- What was changed by hand, with the old value and the reason.
CREATE TABLE edit (
    id INTEGER PRIMARY KEY,
    table_name TEXT NOT NULL,
    row_id INTEGER NOT NULL,
    field TEXT NOT NULL,
    old_value TEXT,
    new_value TEXT,
    reason TEXT NOT NULL,
    edited_utc TEXT NOT NULL
) STRICT;

CREATE INDEX edit_by_row ON edit (table_name, row_id);
