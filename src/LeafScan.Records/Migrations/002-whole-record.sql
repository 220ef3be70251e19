-- Clients, all that is known of a plant, the age and label of leaves, taps, weather, details of care, undo and the bin.
-- Foreign keys are not enforced while a step runs (the photo table is built anew); the runner checks them before it commits.

CREATE TABLE client (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL CHECK (length(name) > 0),
    name_key TEXT NOT NULL UNIQUE,
    created_utc TEXT NOT NULL
) STRICT;

ALTER TABLE place ADD COLUMN client_id INTEGER REFERENCES client (id);

-- Row and position are text: nurseries count them in letters, numbers and both.
ALTER TABLE plant ADD COLUMN cultivar TEXT;
ALTER TABLE plant ADD COLUMN row_name TEXT;
ALTER TABLE plant ADD COLUMN position TEXT;
ALTER TABLE plant ADD COLUMN mite_season TEXT CHECK (mite_season IN ('warm', 'cool', 'boxwood'));
ALTER TABLE plant ADD COLUMN light TEXT;
ALTER TABLE plant ADD COLUMN date_in TEXT CHECK (date_in GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]');
ALTER TABLE plant ADD COLUMN damage_at_delivery REAL CHECK (damage_at_delivery BETWEEN 0 AND 1);
ALTER TABLE plant ADD COLUMN is_check INTEGER NOT NULL DEFAULT 0 CHECK (is_check IN (0, 1));

CREATE INDEX plant_by_block ON plant (block_id);
CREATE INDEX plant_by_species ON plant (place_id, species COLLATE NOCASE);

-- A check on a column cannot be changed in place: "byTag" needs the table built anew.
CREATE TABLE photo_new (
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
    plant_by TEXT NOT NULL CHECK (plant_by IN ('byFolder', 'byFileName', 'byTag', 'byHand', 'unknown')),
    leaf_age TEXT CHECK (leaf_age IN ('old', 'new')),
    leaf_tag TEXT CHECK (length(leaf_tag) > 0),
    run_id INTEGER REFERENCES run (id),
    recorded_utc TEXT NOT NULL,
    deleted_utc TEXT,
    CHECK ((plant_id IS NULL) = (plant_by = 'unknown'))
) STRICT;

INSERT INTO photo_new (id, sha256, file_name, path_seen, byte_length, format, width_px, height_px, taken, kind, walk_id, plant_id, plant_by, run_id, recorded_utc)
SELECT id, sha256, file_name, path_seen, byte_length, format, width_px, height_px, taken, kind, walk_id, plant_id, plant_by, run_id, recorded_utc FROM photo;
DROP TABLE photo;
ALTER TABLE photo_new RENAME TO photo;

CREATE INDEX photo_by_plant ON photo (plant_id, walk_id);
CREATE INDEX photo_by_walk ON photo (walk_id);
CREATE INDEX photo_in_bin ON photo (deleted_utc) WHERE deleted_utc IS NOT NULL;

-- Age and label of one leaf of a photo that shows several; what the photo says counts where there is no row.
CREATE TABLE leaf_note (
    photo_id INTEGER NOT NULL REFERENCES photo (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    age TEXT CHECK (age IN ('old', 'new')),
    tag TEXT CHECK (length(tag) > 0),
    PRIMARY KEY (photo_id, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE tap (
    id INTEGER PRIMARY KEY,
    plant_id INTEGER NOT NULL REFERENCES plant (id),
    tapped_on TEXT NOT NULL CHECK (tapped_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    strikes INTEGER CHECK (strikes > 0),
    sheet_width_mm REAL CHECK (sheet_width_mm > 0),
    sheet_height_mm REAL CHECK (sheet_height_mm > 0),
    branches INTEGER CHECK (branches > 0),
    hours_since_wet REAL CHECK (hours_since_wet >= 0),
    mites_by_lens INTEGER CHECK (mites_by_lens >= 0),
    mites_by_photo INTEGER CHECK (mites_by_photo >= 0),
    predators INTEGER CHECK (predators >= 0),
    note TEXT,
    recorded_utc TEXT NOT NULL,
    deleted_utc TEXT,
    CHECK (mites_by_lens IS NOT NULL OR mites_by_photo IS NOT NULL)
) STRICT;

CREATE INDEX tap_by_plant ON tap (plant_id, tapped_on);

ALTER TABLE care ADD COLUMN done_at TEXT CHECK (done_at GLOB '[0-2][0-9]:[0-5][0-9]');
ALTER TABLE care ADD COLUMN active TEXT;
ALTER TABLE care ADD COLUMN mode_group TEXT;
ALTER TABLE care ADD COLUMN label_number TEXT;
ALTER TABLE care ADD COLUMN target TEXT;
ALTER TABLE care ADD COLUMN conditions TEXT;
ALTER TABLE care ADD COLUMN deleted_utc TEXT;

CREATE INDEX care_left_alone ON care (plant_id) WHERE what = 'nothing';

CREATE TABLE weather (
    place_id INTEGER NOT NULL REFERENCES place (id),
    day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    low_c REAL NOT NULL CHECK (low_c BETWEEN -90 AND 60),
    high_c REAL NOT NULL CHECK (high_c BETWEEN -90 AND 60),
    source TEXT NOT NULL,
    recorded_utc TEXT NOT NULL,
    PRIMARY KEY (place_id, day),
    CHECK (low_c <= high_c)
) STRICT, WITHOUT ROWID;

-- Edits of one change have one number and are undone together.
ALTER TABLE edit ADD COLUMN change_id INTEGER;
ALTER TABLE edit ADD COLUMN undone_utc TEXT;
UPDATE edit SET change_id = id;

CREATE INDEX edit_by_change ON edit (change_id);

-- What the list of plants shows, kept in the same transaction as the photos: a list of thousands of plants must not read every leaf.
CREATE TABLE plant_day (
    plant_id INTEGER NOT NULL REFERENCES plant (id),
    walked_on TEXT NOT NULL,
    photos INTEGER NOT NULL CHECK (photos > 0),
    leaves INTEGER NOT NULL CHECK (leaves >= 0),
    damage_sum REAL NOT NULL,
    PRIMARY KEY (plant_id, walked_on)
) STRICT, WITHOUT ROWID;

INSERT INTO plant_day (plant_id, walked_on, photos, leaves, damage_sum)
SELECT photo.plant_id, walk.walked_on, count(DISTINCT photo.id), count(leaf.id), coalesce(sum(leaf.damage), 0)
FROM photo JOIN walk ON walk.id = photo.walk_id
LEFT JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
LEFT JOIN leaf ON leaf.reading_id = reading.id
WHERE photo.plant_id IS NOT NULL GROUP BY photo.plant_id, walk.walked_on;
