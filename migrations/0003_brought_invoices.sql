-- A job brought in from another record brings its invoices, whose numbers were counted there. A series with such
-- a number is counted on where it was begun and no longer here, so that no number is ever given twice.
ALTER TABLE invoice ADD COLUMN brought INTEGER NOT NULL DEFAULT 0 CHECK (brought IN (0, 1));

CREATE TABLE closed_series (
  series TEXT NOT NULL PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job (id),
  closed_at INTEGER NOT NULL
) STRICT;

CREATE TRIGGER closed_series_is_new BEFORE INSERT ON closed_series
WHEN EXISTS (SELECT 1 FROM closed_series WHERE series = NEW.series OR rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'closed_series: the series is closed already'); END;
CREATE TRIGGER closed_series_stays BEFORE UPDATE ON closed_series
BEGIN SELECT RAISE(ABORT, 'closed_series: what is kept is never changed'); END;
CREATE TRIGGER closed_series_is_kept BEFORE DELETE ON closed_series
BEGIN SELECT RAISE(ABORT, 'closed_series: what is kept is never taken out'); END;

DROP TRIGGER invoice_follows;
CREATE TRIGGER invoice_follows BEFORE INSERT ON invoice
WHEN EXISTS (SELECT 1 FROM invoice WHERE id = NEW.id OR (job = NEW.job AND key = NEW.key)
             OR (series = NEW.series AND number = NEW.number))
  OR NEW.brought <> EXISTS (SELECT 1 FROM closed_series WHERE series = NEW.series)
  OR (NEW.brought = 0
      AND NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM invoice WHERE series = NEW.series))
BEGIN SELECT RAISE(ABORT, 'invoice: the number does not follow the last, or the key is taken'); END;
