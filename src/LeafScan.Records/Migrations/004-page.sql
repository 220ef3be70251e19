-- What the page brings: photos on their way in, what became of them, and what people corrected on leaves.

-- One photo that was received whole and lies on the disk. It stays "waiting" until its reading or refusal is on record, so that a
-- server that was killed in between takes it up again. Files are named relative to the data folder.
CREATE TABLE upload (
    id INTEGER PRIMARY KEY,
    walk_id INTEGER NOT NULL REFERENCES walk (id),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    file_name TEXT NOT NULL CHECK (length(file_name) > 0),
    folder TEXT NOT NULL,
    plant_id INTEGER REFERENCES plant (id),
    stored_as TEXT NOT NULL CHECK (length(stored_as) > 0),
    state TEXT NOT NULL CHECK (state IN ('waiting', 'measured', 'refused')),
    photo_id INTEGER REFERENCES photo (id),
    word TEXT,
    reason TEXT,
    advice TEXT,
    received_utc TEXT NOT NULL,
    UNIQUE (walk_id, sha256),
    CHECK ((state = 'measured') = (photo_id IS NOT NULL)),
    CHECK ((state = 'refused') = (reason IS NOT NULL))
) STRICT;

CREATE INDEX upload_waiting ON upload (id) WHERE state = 'waiting';
CREATE INDEX upload_by_print ON upload (sha256);

-- In the order of happening; the number is what a page names to go on where it stopped listening, so it is never used again.
CREATE TABLE upload_event (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    upload_id INTEGER NOT NULL REFERENCES upload (id),
    state TEXT NOT NULL CHECK (state IN ('waiting', 'measuring', 'measured', 'refused')),
    at_utc TEXT NOT NULL
) STRICT;

CREATE INDEX upload_event_by_upload ON upload_event (upload_id);

-- What a person said of one leaf. The leaf is known by its outline at that time, because measuring again numbers leaves anew. A row is
-- settled once a reading has taken it (or its taking back) into account.
CREATE TABLE correction (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photo (id),
    what TEXT NOT NULL CHECK (what IN ('notALeaf', 'notMites', 'outline')),
    leaf_outline TEXT NOT NULL CHECK (json_valid(leaf_outline)),
    outline TEXT CHECK (json_valid(outline)),
    who TEXT,
    made_utc TEXT NOT NULL,
    taken_back_utc TEXT,
    is_settled INTEGER NOT NULL DEFAULT 0 CHECK (is_settled IN (0, 1)),
    CHECK ((what = 'outline') = (outline IS NOT NULL))
) STRICT;

CREATE INDEX correction_by_photo ON correction (photo_id);
CREATE INDEX correction_unsettled ON correction (photo_id) WHERE is_settled = 0;
