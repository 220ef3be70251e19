-- Thresholds that a person set were a file beside the record and stayed behind when it was exported or backed up. A row without a value
-- was dropped; it stays, so that undo finds it.

CREATE TABLE own_threshold (
    id INTEGER PRIMARY KEY,
    measure TEXT NOT NULL CHECK (length(measure) > 0),
    plants TEXT CHECK (length(plants) > 0),
    client TEXT CHECK (length(client) > 0),
    value REAL,
    region TEXT NOT NULL,
    source TEXT NOT NULL,
    set_utc TEXT NOT NULL
) STRICT;

CREATE UNIQUE INDEX own_threshold_one ON own_threshold (measure, coalesce(plants, '') COLLATE NOCASE, coalesce(client, '') COLLATE NOCASE);

-- When something that a plant's verdict hangs on was last changed, by whichever program: the number of the change, rising. A plant or a
-- place without a row was not changed since this layout. Kept by triggers, so that no way of writing can forget it.

CREATE TABLE last_change (
    only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
    number INTEGER NOT NULL
) STRICT;

INSERT INTO last_change VALUES (1, 0);

CREATE TABLE plant_change (
    plant_id INTEGER PRIMARY KEY,
    number INTEGER NOT NULL
) STRICT;

CREATE TABLE weather_change (
    place_id INTEGER PRIMARY KEY,
    number INTEGER NOT NULL
) STRICT;

-- One door for all of them: a line put in here moves the number of that plant.
CREATE VIEW changed_plant AS SELECT plant_id FROM plant_change;

CREATE TRIGGER changed_plant_told INSTEAD OF INSERT ON changed_plant WHEN NEW.plant_id IS NOT NULL BEGIN
    UPDATE last_change SET number = number + 1;
    INSERT INTO plant_change VALUES (NEW.plant_id, (SELECT number FROM last_change)) ON CONFLICT (plant_id) DO UPDATE SET number = excluded.number;
END;

CREATE TRIGGER plant_added AFTER INSERT ON plant BEGIN INSERT INTO changed_plant VALUES (NEW.id); END;
CREATE TRIGGER plant_changed AFTER UPDATE ON plant BEGIN INSERT INTO changed_plant VALUES (NEW.id); END;

CREATE TRIGGER photo_added AFTER INSERT ON photo BEGIN INSERT INTO changed_plant VALUES (NEW.plant_id); END;
CREATE TRIGGER photo_changed AFTER UPDATE ON photo BEGIN INSERT INTO changed_plant VALUES (OLD.plant_id), (NEW.plant_id); END;

-- Leaves come in the transaction of their reading and never change.
CREATE TRIGGER reading_added AFTER INSERT ON reading BEGIN INSERT INTO changed_plant SELECT plant_id FROM photo WHERE id = NEW.photo_id; END;
CREATE TRIGGER reading_changed AFTER UPDATE ON reading BEGIN INSERT INTO changed_plant SELECT plant_id FROM photo WHERE id = NEW.photo_id; END;

CREATE TRIGGER leaf_note_added AFTER INSERT ON leaf_note BEGIN INSERT INTO changed_plant SELECT plant_id FROM photo WHERE id = NEW.photo_id; END;
CREATE TRIGGER leaf_note_changed AFTER UPDATE ON leaf_note BEGIN INSERT INTO changed_plant SELECT plant_id FROM photo WHERE id = NEW.photo_id; END;
CREATE TRIGGER leaf_note_gone AFTER DELETE ON leaf_note BEGIN INSERT INTO changed_plant SELECT plant_id FROM photo WHERE id = OLD.photo_id; END;

CREATE TRIGGER care_added AFTER INSERT ON care BEGIN INSERT INTO changed_plant VALUES (NEW.plant_id); END;
CREATE TRIGGER care_changed AFTER UPDATE ON care BEGIN INSERT INTO changed_plant VALUES (OLD.plant_id), (NEW.plant_id); END;

CREATE TRIGGER tap_added AFTER INSERT ON tap BEGIN INSERT INTO changed_plant VALUES (NEW.plant_id); END;
CREATE TRIGGER tap_changed AFTER UPDATE ON tap BEGIN INSERT INTO changed_plant VALUES (OLD.plant_id), (NEW.plant_id); END;

CREATE TRIGGER weather_changed AFTER UPDATE ON weather BEGIN
    UPDATE last_change SET number = number + 1;
    INSERT INTO weather_change VALUES (NEW.place_id, (SELECT number FROM last_change)) ON CONFLICT (place_id) DO UPDATE SET number = excluded.number;
END;

CREATE TRIGGER weather_added AFTER INSERT ON weather BEGIN
    UPDATE last_change SET number = number + 1;
    INSERT INTO weather_change VALUES (NEW.place_id, (SELECT number FROM last_change)) ON CONFLICT (place_id) DO UPDATE SET number = excluded.number;
END;
