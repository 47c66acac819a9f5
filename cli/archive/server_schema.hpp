// The tables of an archive on a server, its functions and its rights, and how a database of an
// earlier version becomes one of the next.
#pragma once

#include <array>

namespace shankline {

/// Step n makes version n out of version n - 1; all of it in one transaction. A step is never
/// edited once a release prepared databases with it: a later step mends what has to be mended.
///
/// {keeper}, {bench} and {reader} stand for the names of the roles, 'keeper' in quotation marks for
/// the name as a text.
///
/// The keeper's role owns everything. A bench has no right to the entries' table at all: it appends
/// through a function that runs with the keeper's rights, and reads a view. The server works out
/// the digests itself, so nobody can append an entry that the chain does not hold.
inline constexpr std::array<const char*, 1> server_steps{
    R"sql(
CREATE TABLE shankline.entries(
  id bigint PRIMARY KEY,
  kind text COLLATE "C" NOT NULL CHECK (kind IN ('cut', 'note', 'forgetting', 'forgotten')),
  saved text COLLATE "C" NOT NULL,
  program text COLLATE "C" NOT NULL,
  salt text COLLATE "C" NOT NULL,
  dancer text COLLATE "C",
  turn bigint,
  pair text COLLATE "C" NOT NULL,
  date text COLLATE "C" NOT NULL,
  alterations text COLLATE "C" NOT NULL,
  about text COLLATE "C" NOT NULL,
  summary text COLLATE "C" NOT NULL,
  outcome text COLLATE "C" NOT NULL,
  body text COLLATE "C" NOT NULL,
  before text COLLATE "C" NOT NULL,
  digest text COLLATE "C" NOT NULL,
  written_by text COLLATE "C" NOT NULL
);
CREATE UNIQUE INDEX turns ON shankline.entries(dancer, turn) WHERE dancer IS NOT NULL;
CREATE UNIQUE INDEX digests ON shankline.entries(digest);
CREATE TABLE shankline.bodies(
  id bigint PRIMARY KEY REFERENCES shankline.entries(id),
  order_text text COLLATE "C" NOT NULL,
  options text COLLATE "C" NOT NULL,
  solution text COLLATE "C" NOT NULL,
  drawing bytea NOT NULL,
  sheets text COLLATE "C" NOT NULL
);
-- Deflated already.
ALTER TABLE shankline.bodies ALTER COLUMN drawing SET STORAGE EXTERNAL;
CREATE TABLE shankline.head(
  one integer PRIMARY KEY CHECK (one = 1),
  id bigint NOT NULL,
  hash text COLLATE "C" NOT NULL
) WITH (fillfactor = 10);
INSERT INTO shankline.head VALUES(1, 0, repeat('0', 64));
CREATE TABLE shankline.dancers(
  dancer text COLLATE "C" PRIMARY KEY,
  entries bigint NOT NULL
) WITH (fillfactor = 50);
CREATE TABLE shankline.erasing(id bigint PRIMARY KEY);
-- A code that was forgotten, so that an outbox does not bring it back: its digest with this archive's
-- salt, and when it was forgotten.
CREATE TABLE shankline.secret(one integer PRIMARY KEY CHECK (one = 1), salt text NOT NULL);
INSERT INTO shankline.secret
  VALUES(1, replace(gen_random_uuid()::text || gen_random_uuid()::text, '-', ''));
CREATE TABLE shankline.forgotten_codes(
  digest text COLLATE "C" PRIMARY KEY,
  saved text COLLATE "C" NOT NULL
);

-- The language keeps plans for a whole session; functions in plain SQL were planned anew in every
-- transaction, which took three times as long as all else that an append does.
CREATE FUNCTION shankline.code_digest(a_dancer text) RETURNS text LANGUAGE plpgsql STABLE
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN encode(sha256(convert_to((SELECT s.salt FROM shankline.secret s) || a_dancer, 'UTF8')),
                'hex');
END $$;

CREATE FUNCTION shankline.head_digest(a_kind text, a_saved text, a_program text, a_salt text,
    a_dancer text, a_pair text, a_date text, a_alterations text, a_about text, a_summary text,
    a_outcome text, a_body text) RETURNS text LANGUAGE plpgsql IMMUTABLE
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN encode(sha256(convert_to(concat('shankline-entry/1', chr(10),
    'kind ', octet_length(a_kind), ':', a_kind, chr(10),
    'saved ', octet_length(a_saved), ':', a_saved, chr(10),
    'program ', octet_length(a_program), ':', a_program, chr(10),
    'salt ', octet_length(a_salt), ':', a_salt, chr(10),
    'dancer ', octet_length(a_dancer), ':', a_dancer, chr(10),
    'pair ', octet_length(a_pair), ':', a_pair, chr(10),
    'date ', octet_length(a_date), ':', a_date, chr(10),
    'alterations ', octet_length(a_alterations), ':', a_alterations, chr(10),
    'about ', octet_length(a_about), ':', a_about, chr(10),
    'summary ', octet_length(a_summary), ':', a_summary, chr(10),
    'outcome ', octet_length(a_outcome), ':', a_outcome, chr(10),
    'body ', octet_length(a_body), ':', a_body, chr(10)), 'UTF8')), 'hex');
END $$;

CREATE FUNCTION shankline.body_digest(a_order text, a_options text, a_solution text,
    a_drawing bytea, a_sheets text) RETURNS text LANGUAGE plpgsql IMMUTABLE AS $$
BEGIN
  RETURN encode(sha256(convert_to(concat('shankline-body/1', chr(10),
    'order ', octet_length(a_order), ':', a_order, chr(10),
    'options ', octet_length(a_options), ':', a_options, chr(10),
    'solution ', octet_length(a_solution), ':', a_solution, chr(10),
    'drawing ', octet_length(a_drawing), ':'), 'UTF8') || a_drawing ||
    convert_to(concat(chr(10), 'sheets ', octet_length(a_sheets), ':', a_sheets, chr(10)),
               'UTF8')), 'hex');
END $$;

CREATE FUNCTION shankline.chain_hash(a_before text, a_digest text) RETURNS text
  LANGUAGE plpgsql IMMUTABLE AS $$
BEGIN
  RETURN encode(sha256(convert_to(
    concat('shankline-chain/1', chr(10), a_before, chr(10), a_digest, chr(10)), 'UTF8')), 'hex');
END $$;

-- Whether a note holds more than figures and words that the program offers.
CREATE FUNCTION shankline.has_words(a_outcome text) RETURNS boolean LANGUAGE plpgsql IMMUTABLE
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN EXISTS (SELECT FROM jsonb_object_keys(a_outcome::jsonb) AS k(name)
    WHERE k.name NOT IN ('seen', 'gap', 'comfort', 'hours', 'days', 'further'));
EXCEPTION WHEN others THEN
  RETURN true;
END $$;

CREATE FUNCTION shankline.without_words(a_outcome text) RETURNS text LANGUAGE plpgsql IMMUTABLE
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN coalesce((SELECT jsonb_object_agg(k.name, k.value)
    FROM jsonb_each(a_outcome::jsonb) AS k(name, value)
    WHERE k.name IN ('seen', 'gap', 'comfort', 'hours', 'days', 'further')), '{}')::text;
EXCEPTION WHEN others THEN
  RETURN '{}';
END $$;

-- It hides columns and no rows, so nothing leaks through conditions of a search, and the server may
-- follow an index through it. With a security barrier it would sort the whole table for every page.
CREATE VIEW shankline.seen AS
  SELECT e.id, e.kind, e.saved, e.program,
    -- With the salt, short words could be guessed from the digest.
    CASE WHEN e.is_open THEN e.salt ELSE '' END AS salt, coalesce(e.dancer, '') AS dancer,
    coalesce(e.turn, 0) AS turn, e.pair, e.date, e.alterations, e.about, e.summary,
    CASE WHEN e.is_open THEN e.outcome ELSE shankline.without_words(e.outcome) END AS outcome,
    e.body, e.before, e.digest, NOT e.is_open AS withheld,
    e.is_open OR e.digest = shankline.head_digest(e.kind, e.saved, e.program, e.salt,
      coalesce(e.dancer, ''), e.pair, e.date, e.alterations, e.about, e.summary, e.outcome,
      e.body) AS sound,
    e.dancer AS of_dancer, e.turn AS at_turn
  FROM (SELECT *, kind <> 'note' OR written_by = session_user::text
          OR pg_has_role(session_user, 'keeper', 'MEMBER')
          OR NOT shankline.has_words(outcome) AS is_open
        FROM shankline.entries) AS e;

-- Adds one entry to the end, with the keeper's rights, and reads it back. Few statements, since each
-- costs as much as an index. An entry that is there already stays as it is, so that whoever does not
-- know whether it was saved may send it again.
CREATE FUNCTION shankline.append(a_kind text, a_saved text, a_program text, a_salt text,
    a_dancer text, a_pair text, a_date text, a_alterations text, a_about text, a_summary text,
    a_outcome text, a_body text, a_digest text, a_order text, a_options text, a_solution text,
    a_drawing bytea, a_sheets text, a_known boolean,
    OUT state text, OUT id bigint, OUT turn bigint, OUT before text) RETURNS record
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  last_id bigint;
  last_hash text;
  new_hash text;
  seen record;
  kept record;
BEGIN
  IF a_kind IS NULL OR a_kind NOT IN ('cut', 'note') THEN
    IF NOT pg_has_role(session_user, 'keeper', 'MEMBER') THEN
      RAISE EXCEPTION USING ERRCODE = '42501', MESSAGE = 'a bench adds cuts and notes only';
    END IF;
  ELSIF a_saved !~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z$'
     OR a_salt !~ '^[0-9a-f]{32}$' OR a_digest !~ '^[0-9a-f]{64}$' OR a_dancer = ''
     OR octet_length(a_order) + octet_length(a_options) + octet_length(a_solution) +
        octet_length(a_drawing) > 8388608
     OR octet_length(a_dancer) + octet_length(a_pair) + octet_length(a_alterations) +
        octet_length(a_about) + octet_length(a_summary) + octet_length(a_outcome) > 262144 THEN
    RAISE EXCEPTION USING ERRCODE = 'SL002', MESSAGE = 'it is no entry of this program';
  END IF;
  -- Whoever comes second waits here, so that the chain never forks. What follows is a statement of
  -- its own: only then it sees what the first one added.
  SELECT h.id, h.hash INTO STRICT last_id, last_hash FROM shankline.head h FOR UPDATE;
  SELECT p.id, p.kind, p.turn, p.before, d.entries,
      (SELECT shankline.chain_hash(e.before, e.digest) FROM shankline.entries e
       WHERE e.id = last_id) AS last_hash,
      (SELECT f.saved FROM shankline.forgotten_codes f, shankline.secret s WHERE f.digest =
       encode(sha256(convert_to(s.salt || a_dancer, 'UTF8')), 'hex')) AS forgotten
    INTO seen
    FROM (SELECT 1) AS one
    LEFT JOIN shankline.entries p ON p.digest = a_digest
    LEFT JOIN shankline.dancers d ON d.dancer = a_dancer;
  IF seen.id IS NOT NULL THEN
    state := CASE seen.kind WHEN 'forgotten' THEN 'forgotten' ELSE 'present' END;
    id := seen.id;
    turn := seen.turn;
    before := seen.before;
    RETURN;
  END IF;
  IF last_id > 0 AND last_hash IS DISTINCT FROM seen.last_hash THEN
    RAISE EXCEPTION USING ERRCODE = 'SL001', MESSAGE = 'its last entry is not what was saved';
  END IF;
  IF a_kind IN ('cut', 'note') THEN
    IF a_saved <= seen.forgotten THEN
      state := 'forgotten';
      RETURN;
    END IF;
    IF seen.entries IS NULL AND a_kind = 'note' AND a_known THEN
      state := 'unknown';
      RETURN;
    END IF;
    turn := coalesce(seen.entries, 0) + 1;
  END IF;
  id := last_id + 1;
  before := last_hash;
  new_hash := shankline.chain_hash(last_hash, a_digest);
  WITH head_row AS (
    INSERT INTO shankline.entries VALUES(id, a_kind, a_saved, a_program, a_salt,
      CASE WHEN turn IS NOT NULL THEN a_dancer END, turn, a_pair, a_date, a_alterations, a_about,
      a_summary, a_outcome, a_body, last_hash, a_digest,
      CASE WHEN a_kind = 'forgotten' THEN '' ELSE session_user::text END)
  ), body_row AS (
    INSERT INTO shankline.bodies SELECT id, a_order, a_options, a_solution, a_drawing, a_sheets
      WHERE a_kind = 'cut'
  ), count_row AS (
    INSERT INTO shankline.dancers AS d SELECT a_dancer, 1 WHERE turn IS NOT NULL
      ON CONFLICT (dancer) DO UPDATE SET entries = d.entries + 1
  )
  UPDATE shankline.head h SET id = last_id + 1, hash = new_hash;
  -- The digests are worked out of what was stored, whatever a trigger of somebody else's did to it.
  SELECT (e.kind = 'forgotten' OR e.digest = shankline.head_digest(e.kind, e.saved, e.program,
        e.salt, coalesce(e.dancer, ''), e.pair, e.date, e.alterations, e.about, e.summary,
        e.outcome, e.body)) AS head_fits,
      (e.kind <> 'cut' OR e.body = shankline.body_digest(b.order_text, b.options, b.solution,
        b.drawing, b.sheets)) AS body_fits
    INTO kept
    FROM shankline.entries e
    JOIN shankline.head h ON h.id = e.id AND h.hash = new_hash
    LEFT JOIN shankline.bodies b ON b.id = e.id
    LEFT JOIN shankline.dancers d ON d.dancer = e.dancer
    WHERE e.id = last_id + 1 AND e.digest = a_digest AND e.before = last_hash
      AND e.turn IS NOT DISTINCT FROM append.turn AND d.entries IS NOT DISTINCT FROM append.turn
      AND (b.id IS NOT NULL) = (a_kind = 'cut');
  IF kept.head_fits AND kept.body_fits THEN
    state := 'added';
  ELSIF kept.head_fits IS NULL OR kept.body_fits IS NULL THEN
    RAISE EXCEPTION USING ERRCODE = 'SL003',
      MESSAGE = 'what was to be saved cannot be read back, and nothing was saved';
  ELSE
    RAISE EXCEPTION USING ERRCODE = 'SL002', MESSAGE = 'its digest does not fit what it says';
  END IF;
END $$;

CREATE FUNCTION shankline.stay() RETURNS trigger LANGUAGE plpgsql
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RAISE EXCEPTION 'entries are never changed or taken out';
END $$;
CREATE FUNCTION shankline.stay_unless_erasing() RETURNS trigger LANGUAGE plpgsql
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM shankline.erasing r WHERE r.id = old.id) THEN
    RAISE EXCEPTION 'entries are never changed or taken out';
  END IF;
  RETURN CASE TG_OP WHEN 'DELETE' THEN old ELSE new END;
END $$;
CREATE TRIGGER entries_stay BEFORE DELETE ON shankline.entries
  FOR EACH ROW EXECUTE FUNCTION shankline.stay();
CREATE TRIGGER entries_hold BEFORE UPDATE ON shankline.entries
  FOR EACH ROW EXECUTE FUNCTION shankline.stay_unless_erasing();
CREATE TRIGGER entries_all_stay BEFORE TRUNCATE ON shankline.entries
  EXECUTE FUNCTION shankline.stay();
CREATE TRIGGER bodies_stay BEFORE DELETE ON shankline.bodies
  FOR EACH ROW EXECUTE FUNCTION shankline.stay_unless_erasing();
CREATE TRIGGER bodies_hold BEFORE UPDATE ON shankline.bodies
  FOR EACH ROW EXECUTE FUNCTION shankline.stay();
CREATE TRIGGER bodies_all_stay BEFORE TRUNCATE ON shankline.bodies
  EXECUTE FUNCTION shankline.stay();

REVOKE ALL ON ALL FUNCTIONS IN SCHEMA shankline FROM PUBLIC;
GRANT USAGE ON SCHEMA shankline TO {bench}, {reader};
GRANT SELECT ON shankline.archive, shankline.seen, shankline.bodies, shankline.head,
  shankline.dancers TO {bench}, {reader};
GRANT EXECUTE ON FUNCTION shankline.head_digest, shankline.has_words,
  shankline.without_words TO {bench}, {reader};
GRANT EXECUTE ON FUNCTION shankline.append TO {bench};
)sql"};

inline constexpr int server_tables = static_cast<int>(server_steps.size());

} // namespace shankline
