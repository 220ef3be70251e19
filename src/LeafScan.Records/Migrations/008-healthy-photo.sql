-- The sound colour of a plant off a photo of it in health, with the name of that photo; null for none.
ALTER TABLE plant ADD COLUMN healthy TEXT CHECK (healthy IS NULL OR json_valid(healthy));
