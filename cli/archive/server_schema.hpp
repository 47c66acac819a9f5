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
inline constexpr std::array<const char*, 3> server_steps{
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
  -- An entry's. The audit looks for others: an append would pay for a reference.
  id bigint PRIMARY KEY,
  order_text text COLLATE "C" NOT NULL,
  options text COLLATE "C" NOT NULL,
  solution text COLLATE "C" NOT NULL,
  drawing bytea NOT NULL,
  sheets text COLLATE "C" NOT NULL
);
-- Deflated already.
ALTER TABLE shankline.bodies ALTER COLUMN drawing SET STORAGE EXTERNAL;
-- One row; whoever reads it refuses another number. An append would pay for an index or a check.
CREATE TABLE shankline.head(
  id bigint NOT NULL,
  hash text COLLATE "C" NOT NULL,
  before text COLLATE "C" -- the hash of the entry before, while an entry is added
) WITH (fillfactor = 10);
INSERT INTO shankline.head VALUES(0, repeat('0', 64), NULL);
CREATE TABLE shankline.dancers(
  dancer text COLLATE "C" PRIMARY KEY,
  entries bigint NOT NULL,
  -- When this code was last forgotten; empty if it never was.
  forgotten text COLLATE "C" NOT NULL DEFAULT ''
) WITH (fillfactor = 50);
CREATE TABLE shankline.erasing(id bigint PRIMARY KEY);
-- A code that was forgotten, so that an outbox does not bring it back: a digest of it, each with a
-- salt of its own, and when it was forgotten. They move with the archive.
CREATE TABLE shankline.forgotten_codes(
  salt text COLLATE "C" NOT NULL,
  digest text COLLATE "C" PRIMARY KEY,
  saved text COLLATE "C" NOT NULL
);

-- An expression in place of a call: the server puts these into the statements that use them, as long
-- as they are stable and have no settings of their own. Their names are bound when they are made.
CREATE FUNCTION shankline.head_digest(a_kind text, a_saved text, a_program text, a_salt text,
    a_dancer text, a_pair text, a_date text, a_alterations text, a_about text, a_summary text,
    a_outcome text, a_body text) RETURNS text LANGUAGE sql STABLE
  RETURN encode(sha256(convert_to(format(E'shankline-entry/1\n'
    'kind %s:%s\nsaved %s:%s\nprogram %s:%s\nsalt %s:%s\ndancer %s:%s\npair %s:%s\n'
    'date %s:%s\nalterations %s:%s\nabout %s:%s\nsummary %s:%s\noutcome %s:%s\nbody %s:%s\n',
    octet_length(a_kind), a_kind, octet_length(a_saved), a_saved,
    octet_length(a_program), a_program, octet_length(a_salt), a_salt,
    octet_length(a_dancer), a_dancer, octet_length(a_pair), a_pair,
    octet_length(a_date), a_date, octet_length(a_alterations), a_alterations,
    octet_length(a_about), a_about, octet_length(a_summary), a_summary,
    octet_length(a_outcome), a_outcome, octet_length(a_body), a_body), 'UTF8')), 'hex');

CREATE FUNCTION shankline.body_digest(a_order text, a_options text, a_solution text,
    a_drawing bytea, a_sheets text) RETURNS text LANGUAGE sql STABLE
  RETURN encode(sha256(convert_to(format(E'shankline-body/1\n'
      'order %s:%s\noptions %s:%s\nsolution %s:%s\ndrawing %s:',
      octet_length(a_order), a_order, octet_length(a_options), a_options,
      octet_length(a_solution), a_solution, octet_length(a_drawing)), 'UTF8') || a_drawing ||
    convert_to(format(E'\nsheets %s:%s\n', octet_length(a_sheets), a_sheets), 'UTF8')), 'hex');

CREATE FUNCTION shankline.code_digest(a_salt text, a_dancer text) RETURNS text LANGUAGE sql STABLE
  RETURN encode(sha256(convert_to(a_salt || a_dancer, 'UTF8')), 'hex');

CREATE FUNCTION shankline.chain_hash(a_before text, a_digest text) RETURNS text
  LANGUAGE sql STABLE
  RETURN encode(sha256(convert_to(format(E'shankline-chain/1\n%s\n%s\n', a_before, a_digest),
                                  'UTF8')), 'hex');

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

-- Adds one entry to the end, with the keeper's rights. Few statements, since each costs as much as an
-- index; each says what it stored, whatever a trigger of somebody else's did to it, and from then on
-- the guards below refuse every change. An entry that is there already stays as it is, so that
-- whoever does not know whether it was saved may send it again.
CREATE FUNCTION shankline.append(a_kind text, a_saved text, a_program text, a_salt text,
    a_dancer text, a_pair text, a_date text, a_alterations text, a_about text, a_summary text,
    a_outcome text, a_body text, a_digest text, a_order text, a_options text, a_solution text,
    a_drawing bytea, a_sheets text, a_known boolean,
    OUT state text, OUT id bigint, OUT turn bigint, OUT before text) RETURNS record
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  follows boolean;
  head_fits boolean;
  body_fits boolean := true;
  forgotten_at text;
  there record;
BEGIN
  IF (a_kind IN ('cut', 'note') AND a_dancer <> '' AND
      concat(a_saved, ' ', a_salt, ' ', a_digest) ~
      '^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z [0-9a-f]{32} [0-9a-f]{64}$' AND
      octet_length(concat(a_order, a_options, a_solution)) + octet_length(a_drawing) <= 8388608 AND
      octet_length(concat(a_dancer, a_pair, a_alterations, a_about, a_summary, a_outcome)) <=
        262144) IS NOT TRUE THEN
    IF a_kind IN ('cut', 'note') THEN
      RAISE EXCEPTION USING ERRCODE = 'SL002', MESSAGE = 'it is no entry of this program';
    ELSIF NOT pg_has_role(session_user, 'keeper', 'MEMBER') THEN
      RAISE EXCEPTION USING ERRCODE = '42501', MESSAGE = 'a bench adds cuts and notes only';
    END IF;
  END IF;
  -- Whoever comes second waits here, so that the chain never forks.
  UPDATE shankline.head h SET id = h.id + 1, before = h.hash,
      hash = shankline.chain_hash(h.hash, a_digest)
    RETURNING h.id, h.before, h.hash = shankline.chain_hash(h.before, a_digest) AND (h.id = 1 OR
      h.before = (SELECT shankline.chain_hash(e.before, e.digest) FROM shankline.entries e
                  WHERE e.id = h.id - 1))
    INTO append.id, append.before, follows;
  IF follows IS NOT TRUE THEN
    -- A statement that had to wait does not see what was added meanwhile; another one does.
    SELECT h.hash = shankline.chain_hash(h.before, a_digest) AND
        h.before = shankline.chain_hash(e.before, e.digest) INTO follows
      FROM shankline.head h JOIN shankline.entries e ON e.id = h.id - 1;
    IF follows IS NOT TRUE THEN
      RAISE EXCEPTION USING ERRCODE = 'SL001', MESSAGE = 'its last entry is not what was saved';
    END IF;
  END IF;
  IF a_kind IN ('cut', 'note') THEN
    UPDATE shankline.dancers d SET entries = d.entries + 1
      WHERE d.dancer = a_dancer AND d.forgotten < a_saved RETURNING d.entries INTO append.turn;
    IF turn IS NULL THEN
      -- The first entry of a dancer, or one that was made before its dancer was forgotten.
      SELECT max(f.saved) INTO forgotten_at FROM shankline.forgotten_codes f
        WHERE f.digest = shankline.code_digest(f.salt, a_dancer);
      IF a_saved <= forgotten_at THEN
        state := 'forgotten';
      ELSIF a_kind = 'note' AND a_known THEN
        state := 'unknown';
      ELSE
        INSERT INTO shankline.dancers VALUES(a_dancer, 1, coalesce(forgotten_at, ''));
        turn := 1;
      END IF;
    END IF;
  END IF;
  IF state IS NULL THEN
    INSERT INTO shankline.entries AS e VALUES(append.id, a_kind, a_saved, a_program, a_salt,
        CASE WHEN turn IS NOT NULL THEN a_dancer END, turn, a_pair, a_date, a_alterations, a_about,
        a_summary, a_outcome, a_body, append.before, a_digest,
        CASE WHEN a_kind = 'forgotten' THEN '' ELSE session_user::text END)
      ON CONFLICT (digest) DO NOTHING
      RETURNING 'added', e.kind = a_kind AND e.id = append.id
        AND e.turn IS NOT DISTINCT FROM append.turn AND e.before = append.before
        AND e.digest = CASE WHEN e.kind = 'forgotten' THEN a_digest
          ELSE shankline.head_digest(e.kind, e.saved, e.program, e.salt, coalesce(e.dancer, ''),
            e.pair, e.date, e.alterations, e.about, e.summary, e.outcome, e.body) END
      INTO append.state, head_fits;
  END IF;
  IF a_kind = 'cut' AND state = 'added' THEN
    INSERT INTO shankline.bodies AS b
      VALUES(append.id, a_order, a_options, a_solution, a_drawing, a_sheets)
      RETURNING b.id = append.id AND a_body = shankline.body_digest(b.order_text, b.options,
        b.solution, b.drawing, b.sheets)
      INTO body_fits;
  END IF;
  IF head_fits AND body_fits THEN
    RETURN;
  END IF;
  IF state = 'added' THEN
    IF head_fits AND body_fits IS NULL THEN
      RAISE EXCEPTION USING ERRCODE = 'SL003',
        MESSAGE = 'what was to be saved cannot be read back, and nothing was saved';
    END IF;
    RAISE EXCEPTION USING ERRCODE = 'SL002', MESSAGE = 'its digest does not fit what it says';
  END IF;
  -- Nothing was added, so nothing is counted.
  UPDATE shankline.head h SET id = h.id - 1, hash = h.before;
  UPDATE shankline.dancers d SET entries = d.entries - 1
    WHERE d.dancer = a_dancer AND turn IS NOT NULL;
  DELETE FROM shankline.dancers d WHERE d.dancer = a_dancer AND d.entries = 0;
  SELECT p.id, p.kind, p.turn, p.before INTO there
    FROM shankline.entries p WHERE p.digest = a_digest;
  IF FOUND THEN
    state := CASE there.kind WHEN 'forgotten' THEN 'forgotten' ELSE 'present' END;
  ELSIF state IS NULL THEN
    RAISE EXCEPTION USING ERRCODE = 'SL003',
      MESSAGE = 'what was to be saved cannot be read back, and nothing was saved';
  END IF;
  id := there.id;
  turn := there.turn;
  before := there.before;
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
GRANT SELECT ON shankline.archive, shankline.seen, shankline.bodies, shankline.head
  TO {bench}, {reader};
-- When a code was forgotten is the keeper's to know.
GRANT SELECT(dancer, entries) ON shankline.dancers TO {bench}, {reader};
GRANT EXECUTE ON FUNCTION shankline.head_digest, shankline.has_words,
  shankline.without_words TO {bench}, {reader};
GRANT EXECUTE ON FUNCTION shankline.append TO {bench};
)sql",
    // 2: what a try says is open to every bench, so that all can learn from it. Only free words are
    // kept back, and a judge's code that is no short one.
    R"sql(
CREATE OR REPLACE FUNCTION shankline.has_words(a_outcome text) RETURNS boolean
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN EXISTS (SELECT FROM jsonb_each_text(a_outcome::jsonb) AS k(name, said)
    WHERE k.name NOT IN ('seen', 'gap', 'comfort', 'hours', 'days', 'further', 'foot', 'cut_off',
                         'copied_U', 'worn', 'break', 'withdraws')
      AND NOT (k.name = 'by' AND k.said ~ '^[A-Za-z0-9._-]{1,16}$'));
EXCEPTION WHEN others THEN
  RETURN true;
END $$;

CREATE OR REPLACE FUNCTION shankline.without_words(a_outcome text) RETURNS text
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN coalesce((SELECT jsonb_object_agg(k.name, k.value)
    FROM jsonb_each(a_outcome::jsonb) AS k(name, value)
    WHERE k.name IN ('seen', 'gap', 'comfort', 'hours', 'days', 'further', 'foot', 'cut_off',
                     'copied_U', 'worn', 'break', 'withdraws')), '{}')::text;
EXCEPTION WHEN others THEN
  RETURN '{}';
END $$;
)sql",
    // 3: every bench sees how long a pair was worn and where it stands in the order book, so that
    // all plan alike. What was done to it in free words is kept back; that it is done is not.
    R"sql(
-- One expression, so that the server puts it into the statements below.
CREATE OR REPLACE FUNCTION shankline.is_open_word(a_name text, a_said text) RETURNS boolean
  LANGUAGE sql IMMUTABLE
  RETURN a_name IN ('seen', 'gap', 'comfort', 'hours', 'days', 'further', 'foot', 'cut_off',
                    'copied_U', 'worn', 'break', 'withdraws', 'wet')
    OR (a_name IN ('by', 'where') AND a_said ~ '^[A-Za-z0-9._-]{1,16}$')
    OR (a_name = 'ended' AND a_said IN ('board', 'box', 'satin', 'other'))
    OR (a_name = 'mark' AND a_said IN ('sent', 'received', 'accepted', 'refused', 'in-use'))
    OR (a_name = 'kept_for' AND a_said IN ('stage', 'class'));
REVOKE ALL ON FUNCTION shankline.is_open_word FROM PUBLIC;
GRANT EXECUTE ON FUNCTION shankline.is_open_word TO {bench}, {reader};

CREATE OR REPLACE FUNCTION shankline.has_words(a_outcome text) RETURNS boolean
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN EXISTS (SELECT FROM jsonb_each_text(a_outcome::jsonb) AS k(name, said)
    WHERE NOT shankline.is_open_word(k.name, k.said));
EXCEPTION WHEN others THEN
  RETURN true;
END $$;

CREATE OR REPLACE FUNCTION shankline.without_words(a_outcome text) RETURNS text
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RETURN coalesce((SELECT jsonb_object_agg(k.name,
      CASE WHEN k.name = 'ended' AND NOT shankline.is_open_word(k.name, k.value #>> '{}')
        THEN to_jsonb('other'::text) ELSE k.value END)
    FROM jsonb_each(a_outcome::jsonb) AS k(name, value)
    WHERE k.name = 'ended'
      OR (k.name <> 'by' AND shankline.is_open_word(k.name, k.value #>> '{}'))), '{}')::text;
EXCEPTION WHEN others THEN
  RETURN '{}';
END $$;
)sql"};

inline constexpr int server_tables = static_cast<int>(server_steps.size());

} // namespace shankline
