-- What the record keeps. Facts are added and never changed: every table below refuses UPDATE and DELETE, and
-- the numbered ones refuse a number that does not follow the last. Moments are whole seconds UTC. Bytes are
-- kept as they were handed in; what they mean is known to the program, not to this file.

-- Who he is, by version; the highest holds.
CREATE TABLE person (
  version INTEGER PRIMARY KEY CHECK (version >= 1),
  document TEXT NOT NULL CHECK (length(document) > 0),
  schema_version INTEGER NOT NULL CHECK (schema_version >= 1),
  made_at INTEGER NOT NULL
) STRICT;

CREATE TABLE job (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 120),
  made_at INTEGER NOT NULL
) STRICT;

-- A job's document, by version; the highest holds.
CREATE TABLE job_version (
  job INTEGER NOT NULL REFERENCES job (id),
  version INTEGER NOT NULL CHECK (version >= 1),
  document TEXT NOT NULL CHECK (length(document) > 0),
  schema_version INTEGER NOT NULL CHECK (schema_version >= 1),
  made_at INTEGER NOT NULL,
  PRIMARY KEY (job, version)
) STRICT;

-- Every answer of a forecast service, and every file that stood in for one. An answer with a body is an issue;
-- "not modified" names the issue it confirms; a refusal has neither.
CREATE TABLE forecast (
  id INTEGER PRIMARY KEY,
  job INTEGER REFERENCES job (id),
  place TEXT NOT NULL CHECK (length(place) > 0),
  source TEXT NOT NULL CHECK (length(source) > 0),
  url TEXT NOT NULL,
  status INTEGER NOT NULL CHECK (status BETWEEN 0 AND 599),
  body BLOB,
  confirms INTEGER REFERENCES forecast (id),
  last_modified TEXT,
  etag TEXT,
  expires INTEGER,
  fetched_at INTEGER NOT NULL,
  CHECK (body IS NULL OR confirms IS NULL)
) STRICT;
CREATE INDEX forecast_by_place ON forecast (place, source, id);
CREATE INDEX forecast_by_confirmed ON forecast (confirms) WHERE confirms IS NOT NULL;

-- The site book. revision counts each job's entries from 1; key is the sender's own mark, so that an entry
-- sent twice is one entry; a correction names the entry that it corrects.
CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  key TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 200),
  kind TEXT NOT NULL CHECK (length(kind) > 0),
  at INTEGER NOT NULL,
  zone TEXT NOT NULL CHECK (length(zone) > 0),
  noted_at INTEGER NOT NULL,
  body TEXT NOT NULL CHECK (length(body) > 0),
  corrects INTEGER,
  UNIQUE (job, revision),
  UNIQUE (job, key),
  UNIQUE (job, id),
  FOREIGN KEY (job, corrects) REFERENCES entry (job, id)
) STRICT;

-- A plan, with all that it stood on.
CREATE TABLE plan (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL,
  job_version INTEGER NOT NULL,
  person_version INTEGER REFERENCES person (version),
  book_revision INTEGER NOT NULL CHECK (book_revision >= 0),
  forecast INTEGER NOT NULL REFERENCES forecast (id),
  program TEXT NOT NULL,
  zones TEXT NOT NULL,
  made_at INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  FOREIGN KEY (job, job_version) REFERENCES job_version (job, version)
) STRICT;
CREATE INDEX plan_by_job ON plan (job, id);

-- A sheet handed out: morning, phone, customer, van and the like.
CREATE TABLE sheet (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job (id),
  plan INTEGER REFERENCES plan (id),
  kind TEXT NOT NULL CHECK (length(kind) > 0),
  made_at INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE INDEX sheet_by_job ON sheet (job, kind, id);

-- Numbered without a gap in each series. key as in entry.
CREATE TABLE invoice (
  id INTEGER PRIMARY KEY,
  series TEXT NOT NULL,
  number INTEGER NOT NULL CHECK (number >= 1),
  job INTEGER NOT NULL REFERENCES job (id),
  key TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 200),
  book_revision INTEGER NOT NULL CHECK (book_revision >= 0),
  issued_at INTEGER NOT NULL,
  bytes BLOB NOT NULL,
  UNIQUE (series, number),
  UNIQUE (job, key)
) STRICT;

-- Numbers follow one another. These also stop INSERT OR REPLACE, which would delete without asking.
CREATE TRIGGER person_follows BEFORE INSERT ON person
WHEN NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM person)
BEGIN SELECT RAISE(ABORT, 'person: the version does not follow the last'); END;
CREATE TRIGGER job_is_new BEFORE INSERT ON job
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.id OR name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'job: the name is taken'); END;
CREATE TRIGGER job_version_follows BEFORE INSERT ON job_version
WHEN NEW.version <> (SELECT coalesce(max(version), 0) + 1 FROM job_version WHERE job = NEW.job)
BEGIN SELECT RAISE(ABORT, 'job_version: the version does not follow the last'); END;
CREATE TRIGGER forecast_is_new BEFORE INSERT ON forecast
WHEN EXISTS (SELECT 1 FROM forecast WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'forecast: the number is taken'); END;
CREATE TRIGGER entry_follows BEFORE INSERT ON entry
WHEN NEW.revision <> (SELECT coalesce(max(revision), 0) + 1 FROM entry WHERE job = NEW.job)
  OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR (job = NEW.job AND key = NEW.key))
BEGIN SELECT RAISE(ABORT, 'entry: it does not follow the last, or its key is taken'); END;
CREATE TRIGGER plan_is_new BEFORE INSERT ON plan
WHEN EXISTS (SELECT 1 FROM plan WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'plan: the number is taken'); END;
CREATE TRIGGER sheet_is_new BEFORE INSERT ON sheet
WHEN EXISTS (SELECT 1 FROM sheet WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'sheet: the number is taken'); END;
CREATE TRIGGER invoice_follows BEFORE INSERT ON invoice
WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM invoice WHERE series = NEW.series)
  OR EXISTS (SELECT 1 FROM invoice WHERE id = NEW.id OR (job = NEW.job AND key = NEW.key))
BEGIN SELECT RAISE(ABORT, 'invoice: the number does not follow the last, or the key is taken'); END;

CREATE TRIGGER person_stays BEFORE UPDATE ON person
BEGIN SELECT RAISE(ABORT, 'person: what is kept is never changed'); END;
CREATE TRIGGER person_is_kept BEFORE DELETE ON person
BEGIN SELECT RAISE(ABORT, 'person: what is kept is never taken out'); END;
CREATE TRIGGER job_stays BEFORE UPDATE ON job
BEGIN SELECT RAISE(ABORT, 'job: what is kept is never changed'); END;
CREATE TRIGGER job_is_kept BEFORE DELETE ON job
BEGIN SELECT RAISE(ABORT, 'job: what is kept is never taken out'); END;
CREATE TRIGGER job_version_stays BEFORE UPDATE ON job_version
BEGIN SELECT RAISE(ABORT, 'job_version: what is kept is never changed'); END;
CREATE TRIGGER job_version_is_kept BEFORE DELETE ON job_version
BEGIN SELECT RAISE(ABORT, 'job_version: what is kept is never taken out'); END;
CREATE TRIGGER forecast_stays BEFORE UPDATE ON forecast
BEGIN SELECT RAISE(ABORT, 'forecast: what is kept is never changed'); END;
CREATE TRIGGER forecast_is_kept BEFORE DELETE ON forecast
BEGIN SELECT RAISE(ABORT, 'forecast: what is kept is never taken out'); END;
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'entry: what is kept is never changed'); END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'entry: what is kept is never taken out'); END;
CREATE TRIGGER plan_stays BEFORE UPDATE ON plan
BEGIN SELECT RAISE(ABORT, 'plan: what is kept is never changed'); END;
CREATE TRIGGER plan_is_kept BEFORE DELETE ON plan
BEGIN SELECT RAISE(ABORT, 'plan: what is kept is never taken out'); END;
CREATE TRIGGER sheet_stays BEFORE UPDATE ON sheet
BEGIN SELECT RAISE(ABORT, 'sheet: what is kept is never changed'); END;
CREATE TRIGGER sheet_is_kept BEFORE DELETE ON sheet
BEGIN SELECT RAISE(ABORT, 'sheet: what is kept is never taken out'); END;
CREATE TRIGGER invoice_stays BEFORE UPDATE ON invoice
BEGIN SELECT RAISE(ABORT, 'invoice: what is kept is never changed'); END;
CREATE TRIGGER invoice_is_kept BEFORE DELETE ON invoice
BEGIN SELECT RAISE(ABORT, 'invoice: what is kept is never taken out'); END;
