-- A twig's or a whole plant's damage is no leaf's: the sums per plant and day are kept apart by what the photos show.
CREATE TABLE plant_day_new (
    plant_id INTEGER NOT NULL REFERENCES plant (id),
    walked_on TEXT NOT NULL,
    kind TEXT NOT NULL,
    photos INTEGER NOT NULL CHECK (photos > 0),
    leaves INTEGER NOT NULL CHECK (leaves >= 0),
    damage_sum REAL NOT NULL,
    PRIMARY KEY (plant_id, walked_on, kind)
) STRICT, WITHOUT ROWID;

INSERT INTO plant_day_new (plant_id, walked_on, kind, photos, leaves, damage_sum)
SELECT photo.plant_id, walk.walked_on, coalesce(reading.kind, photo.kind), count(DISTINCT photo.id), count(leaf.id), coalesce(sum(leaf.damage), 0)
FROM photo JOIN walk ON walk.id = photo.walk_id
LEFT JOIN reading ON reading.photo_id = photo.id AND reading.is_current = 1
LEFT JOIN leaf ON leaf.reading_id = reading.id
WHERE photo.plant_id IS NOT NULL AND photo.deleted_utc IS NULL GROUP BY photo.plant_id, walk.walked_on, coalesce(reading.kind, photo.kind);

DROP TABLE plant_day;
ALTER TABLE plant_day_new RENAME TO plant_day;
