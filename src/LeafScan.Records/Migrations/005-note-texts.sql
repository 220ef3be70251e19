-- Text blocks that a person wrote for a client's note, and the country in whose form a client reads days.
-- A text with a day belongs to the note on the walk of that day; without one it stands until it is changed.

CREATE TABLE note_text (
    id INTEGER PRIMARY KEY,
    plant_id INTEGER REFERENCES plant (id),
    place_id INTEGER REFERENCES place (id),
    block TEXT NOT NULL CHECK (block IN ('greeting', 'seen', 'done', 'next', 'cautions', 'closing')),
    for_day TEXT CHECK (for_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    words TEXT CHECK (length(words) > 0),
    written_utc TEXT NOT NULL,
    CHECK ((plant_id IS NULL) <> (place_id IS NULL))
) STRICT;

CREATE UNIQUE INDEX note_text_one ON note_text (coalesce(plant_id, 0), coalesce(place_id, 0), block, coalesce(for_day, ''));

ALTER TABLE client ADD COLUMN country TEXT CHECK (country GLOB '[A-Z][A-Z]');
