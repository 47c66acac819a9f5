// The tables of an archive file, and how a file of an earlier version becomes one of the next.
#pragma once

#include <array>

namespace shankline {

/// The number in the file's header, "shnk". A file with another number belongs to another program.
inline constexpr int archive_application = 0x73686e6b;

/// Step n makes version n out of version n - 1; all of it in one transaction. A step is never
/// edited once a release wrote files with it: a later step mends what has to be mended.
///
/// Searches cannot be led astray by one damaged page: whatever an index says is said a second time
/// elsewhere. `head` says how many entries there are, and ids have no gaps; `dancers` says how many
/// a dancer has, and turns have none. Entries are verified by their digests as they are read.
inline constexpr std::array<const char*, 3> archive_steps{
    // 1: entries and bodies that cannot be changed, except for erasing.
    R"sql(
CREATE TABLE entries(
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('cut', 'note', 'forgetting', 'forgotten')),
  saved TEXT NOT NULL,
  program TEXT NOT NULL,
  salt TEXT NOT NULL,
  dancer TEXT,
  pair TEXT NOT NULL,
  date TEXT NOT NULL,
  alterations TEXT NOT NULL,
  about TEXT NOT NULL,
  summary TEXT NOT NULL,
  outcome TEXT NOT NULL,
  body TEXT NOT NULL,
  before TEXT NOT NULL,
  digest TEXT NOT NULL
) STRICT;
CREATE INDEX entries_of_dancer ON entries(dancer, id) WHERE dancer IS NOT NULL;
CREATE TABLE bodies(
  id INTEGER PRIMARY KEY REFERENCES entries(id),
  order_text TEXT NOT NULL,
  options TEXT NOT NULL,
  solution TEXT NOT NULL,
  drawing BLOB NOT NULL,
  sheets TEXT NOT NULL
) STRICT;
CREATE TABLE head(
  one INTEGER PRIMARY KEY CHECK (one = 1),
  id INTEGER NOT NULL,
  hash TEXT NOT NULL
) STRICT;
INSERT INTO head VALUES(1, 0, '0000000000000000000000000000000000000000000000000000000000000000');
CREATE TABLE erasing(id INTEGER PRIMARY KEY) STRICT;
CREATE TRIGGER entries_stay BEFORE DELETE ON entries
  BEGIN SELECT RAISE(ABORT, 'entries are never taken out'); END;
CREATE TRIGGER entries_hold BEFORE UPDATE ON entries
  WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE id = old.id)
  BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER bodies_stay BEFORE DELETE ON bodies
  WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE id = old.id)
  BEGIN SELECT RAISE(ABORT, 'entries are never taken out'); END;
CREATE TRIGGER bodies_hold BEFORE UPDATE ON bodies
  BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
)sql",
    // 2: the entries of a dancer are counted, so that one that an index loses is missed.
    R"sql(
DROP TRIGGER entries_hold;
DROP INDEX entries_of_dancer;
ALTER TABLE entries ADD COLUMN turn INTEGER;
UPDATE entries SET turn = counted.turn
  FROM (SELECT id, row_number() OVER (PARTITION BY dancer ORDER BY id) AS turn
        FROM entries WHERE dancer IS NOT NULL) AS counted
  WHERE entries.id = counted.id;
CREATE UNIQUE INDEX turns ON entries(dancer, turn) WHERE dancer IS NOT NULL;
CREATE TABLE dancers(
  dancer TEXT PRIMARY KEY NOT NULL,
  entries INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO dancers
  SELECT dancer, count(*) FROM entries WHERE dancer IS NOT NULL GROUP BY dancer;
CREATE TRIGGER entries_hold BEFORE UPDATE ON entries
  WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE id = old.id)
  BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
)sql",
    // 3: codes that were forgotten on a server, so that they are known when the archive moves back.
    R"sql(
CREATE TABLE forgotten_codes(
  salt TEXT NOT NULL,
  digest TEXT PRIMARY KEY NOT NULL,
  saved TEXT NOT NULL
) STRICT, WITHOUT ROWID;
)sql"};

inline constexpr int archive_version = static_cast<int>(archive_steps.size());

/// SHA-256 of what these steps make, as SQLite 3.40 words it: type, name, table and SQL of every
/// object, by type and name, each with its length in front and a line end. It saves making the
/// tables to compare with.
inline constexpr const char* archive_schema_digest =
    "99b6a7377e9914646c53013a7f4be8d12e9862c9f4d32266f97fc6f97302acdd";

} // namespace shankline
