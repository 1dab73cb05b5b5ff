-- Hourly weather of past years by region, each row as one file brought it, and what was reckoned from it. Hours
-- overlap where a region was given twice: the later row holds. Places in millionths of a degree; what the bytes
-- mean is known elsewhere.
CREATE TABLE past (
  id INTEGER PRIMARY KEY,
  region TEXT NOT NULL CHECK (length(region) BETWEEN 1 AND 120),
  latitude INTEGER NOT NULL CHECK (latitude BETWEEN -90000000 AND 90000000),
  longitude INTEGER NOT NULL CHECK (longitude BETWEEN -180000000 AND 180000000),
  attribution TEXT NOT NULL,
  hours_from INTEGER NOT NULL CHECK (hours_from % 3600 = 0),
  hours_to INTEGER NOT NULL CHECK (hours_to % 3600 = 0 AND hours_to > hours_from),
  bytes BLOB NOT NULL CHECK (length(bytes) > 0),
  made_at INTEGER NOT NULL
) STRICT;

-- What costs seconds and hangs on nothing but what stands in its key.
CREATE TABLE reckoned (
  id INTEGER PRIMARY KEY,
  key TEXT NOT NULL UNIQUE CHECK (length(key) > 0),
  bytes BLOB NOT NULL,
  made_at INTEGER NOT NULL
) STRICT;

CREATE TRIGGER past_is_new BEFORE INSERT ON past
WHEN EXISTS (SELECT 1 FROM past WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'past: the number is taken'); END;
CREATE TRIGGER past_stays BEFORE UPDATE ON past
BEGIN SELECT RAISE(ABORT, 'past: what is kept is never changed'); END;
CREATE TRIGGER past_is_kept BEFORE DELETE ON past
BEGIN SELECT RAISE(ABORT, 'past: what is kept is never changed'); END;
CREATE TRIGGER reckoned_is_new BEFORE INSERT ON reckoned
WHEN EXISTS (SELECT 1 FROM reckoned WHERE id = NEW.id OR key = NEW.key)
BEGIN SELECT RAISE(ABORT, 'reckoned: the key is taken'); END;
CREATE TRIGGER reckoned_stays BEFORE UPDATE ON reckoned
BEGIN SELECT RAISE(ABORT, 'reckoned: what is kept is never changed'); END;
CREATE TRIGGER reckoned_is_kept BEFORE DELETE ON reckoned
BEGIN SELECT RAISE(ABORT, 'reckoned: what is kept is never changed'); END;
