-- A photograph or scan that goes with a line of the book: a receipt, most of all. Its bytes are a file beside
-- the record, named by their SHA-256, which is on the disk before the row is kept. The same bytes may go with
-- several lines and are one file.
CREATE TABLE photograph (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job (id),
  entry INTEGER NOT NULL,
  content TEXT NOT NULL CHECK (length(content) = 64 AND content NOT GLOB '*[^0-9a-f]*'),
  kind TEXT NOT NULL CHECK (kind IN ('jpeg', 'png', 'webp', 'heic', 'pdf')),
  size INTEGER NOT NULL CHECK (size > 0),
  kept_at INTEGER NOT NULL,
  UNIQUE (job, entry, content),
  FOREIGN KEY (job, entry) REFERENCES entry (job, id)
) STRICT;

CREATE TRIGGER photograph_is_new BEFORE INSERT ON photograph
WHEN EXISTS (SELECT 1 FROM photograph
             WHERE id = NEW.id OR (job = NEW.job AND entry = NEW.entry AND content = NEW.content))
BEGIN SELECT RAISE(ABORT, 'photograph: it goes with that line already'); END;
CREATE TRIGGER photograph_stays BEFORE UPDATE ON photograph
BEGIN SELECT RAISE(ABORT, 'photograph: what is kept is never changed'); END;
CREATE TRIGGER photograph_is_kept BEFORE DELETE ON photograph
BEGIN SELECT RAISE(ABORT, 'photograph: what is kept is never taken out'); END;
