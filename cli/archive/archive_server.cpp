#include "cli/archive/archive_server.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/server_connection.hpp"
#include "cli/archive/server_schema.hpp"

#include <algorithm>
#include <optional>
#include <thread>
#include <utility>

namespace shankline {
namespace {

using For = ServerTransaction::For;
using Clock = std::chrono::steady_clock;

[[noreturn]] void damaged(const std::string& address, const std::string& what) {
  throw ArchiveDamaged(address + ": is damaged: " + what,
                       "run shankline archive audit; let the keeper bring back a backup");
}

#define SHANKLINE_HEAD                                                                             \
  "s.id, s.kind, s.saved, s.program, s.salt, s.dancer, s.turn, s.pair, s.date, s.alterations, "    \
  "s.about, s.summary, s.outcome, s.body, s.before, s.digest, s.withheld, s.sound, "
#define SHANKLINE_HEAD_COLUMNS                                                                     \
  SHANKLINE_HEAD                                                                                   \
  "coalesce((SELECT d.entries FROM shankline.dancers d WHERE d.dancer = s.of_dancer), 0)"
#define SHANKLINE_BODY_COLUMNS                                                                     \
  "coalesce(b.order_text, ''), coalesce(b.options, ''), coalesce(b.solution, ''), "                \
  "coalesce(b.drawing, ''), coalesce(b.sheets, '')"
constexpr int counted_column = 18;
constexpr int after_head = 19; ///< what a statement asks for besides
constexpr const char* select_version = "SELECT version FROM shankline.archive";
constexpr const char* select_end = "SELECT id, hash FROM shankline.head";
constexpr const char* select_count = "SELECT entries FROM shankline.dancers WHERE dancer = $1";
constexpr const char* select_dancers = "SELECT count(*) FROM shankline.dancers";
constexpr const char* select_head =
    "SELECT " SHANKLINE_HEAD_COLUMNS " FROM shankline.seen s WHERE s.id = $1";
constexpr const char* select_body =
    "SELECT " SHANKLINE_BODY_COLUMNS " FROM shankline.bodies b WHERE b.id = $1";
// The chain holds these together. A second count for each took as long as all else.
constexpr const char* select_older =
    "SELECT " SHANKLINE_HEAD "s.turn, "
    "(SELECT h.id FROM shankline.head h), (SELECT h.hash FROM shankline.head h) "
    "FROM shankline.seen s WHERE s.id < $1 ORDER BY s.id DESC LIMIT $2";
constexpr const char* select_older_of = "SELECT " SHANKLINE_HEAD_COLUMNS " FROM shankline.seen s "
                                        "WHERE s.of_dancer = $1 AND s.at_turn < $2 "
                                        "ORDER BY s.at_turn DESC LIMIT $3";
constexpr const char* select_after =
    "SELECT " SHANKLINE_HEAD_COLUMNS ", " SHANKLINE_BODY_COLUMNS
    " FROM shankline.seen s LEFT JOIN shankline.bodies b ON b.id = s.id "
    "WHERE s.id > $1 ORDER BY s.id LIMIT $2";
constexpr const char* call_append =
    "SELECT state, id, turn, before FROM shankline.append($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, "
    "$11, $12, $13, $14, $15, $16, $17, $18, $19)";
#undef SHANKLINE_BODY_COLUMNS
#undef SHANKLINE_HEAD_COLUMNS
#undef SHANKLINE_HEAD

/// A head as it is stored, and how many entries the store counts for its dancer.
struct StoredHead {
  EntryHead head;
  bool sound = true; ///< as the server found it, for a head whose words it withheld
  std::int64_t counted = 0;
};

StoredHead stored_head(const ServerRows& rows, int row, const std::string& address) {
  StoredHead stored;
  EntryHead& head = stored.head;
  head.id = rows.number(row, 0);
  const auto kind = kind_named(rows.text(row, 1));
  if (!kind) damaged(address, "entry " + std::to_string(head.id) + " is of no known kind");
  head.kind = *kind;
  head.saved = rows.text(row, 2);
  head.program = rows.text(row, 3);
  head.salt = rows.text(row, 4);
  head.dancer = rows.text(row, 5);
  head.turn = rows.number(row, 6);
  head.pair = rows.text(row, 7);
  head.date = rows.text(row, 8);
  head.alterations = rows.text(row, 9);
  head.about = rows.text(row, 10);
  head.summary = rows.text(row, 11);
  head.outcome = rows.text(row, 12);
  head.body = rows.text(row, 13);
  head.before = rows.text(row, 14);
  head.digest = rows.text(row, 15);
  head.withheld = rows.truth(row, 16);
  stored.sound = rows.truth(row, 17);
  stored.counted = rows.number(row, counted_column);
  return stored;
}

EntryBody stored_body(const ServerRows& rows, int row, int first) {
  return {rows.text(row, first), rows.text(row, first + 1), rows.text(row, first + 2),
          rows.text(row, first + 3), rows.text(row, first + 4)};
}

EntryHead verified(StoredHead stored, const std::string& address) {
  const EntryHead& head = stored.head;
  const bool sound = head.withheld                       ? stored.sound
                     : head.kind == EntryKind::forgotten ? holds_nothing(head)
                                                         : head_digest(head) == head.digest;
  if (!sound || (head.turn != 0) != has_dancer(head.kind))
    damaged(address, "entry " + std::to_string(head.id) + " is not what was saved");
  if (has_dancer(head.kind) && (head.turn < 1 || head.turn > stored.counted))
    damaged(address,
            "the count of a dancer's entries does not reach to entry " + std::to_string(head.id));
  return std::move(stored.head);
}

} // namespace

struct ServerStore::Database {
  Database(std::string at, ArchiveUse for_use, std::chrono::milliseconds waits)
      : address(std::move(at)), use(for_use), patience(waits) {
    connect();
  }

  void connect() {
    connection.reset();
    auto opened = std::make_unique<ServerConnection>(address, patience);
    const ServerRows rows = opened->run(select_version);
    const std::int64_t version = rows.size() == 1 ? rows.number(0, 0) : 0;
    if (version > server_tables)
      throw ArchiveFault(opened->address() + ": has tables of version " + std::to_string(version) +
                             ", and this program knows none after version " +
                             std::to_string(server_tables),
                         "bring the program up to date");
    if (version < server_tables)
      throw ArchiveFault(opened->address() + ": has tables of version " + std::to_string(version) +
                             ", and this program needs version " + std::to_string(server_tables),
                         "let the keeper run shankline archive prepare with this address");
    if (use == ArchiveUse::read) opened->run_script("SET default_transaction_read_only = on");
    connection = std::move(opened);
  }

  /// Does `work`, which begins and ends a transaction and may be done twice without harm. If the
  /// connection breaks it is done again on a new one, as long as the patience lasts.
  template <class Work> auto insist(const Work& work) {
    const auto last = Clock::now() + patience;
    bool doubtful = false;
    while (true) {
      try {
        if (!connection) connect();
        return work();
      } catch (const ServerUnreachable& away) {
        connection.reset();
        if (Clock::now() < last) {
          doubtful = true;
          std::this_thread::sleep_for(std::chrono::milliseconds(100));
          continue;
        }
        if (!doubtful) throw;
        throw ServerUnreachable(
            std::string(away.what()) + "; it is not known whether this was saved", away.advice);
      }
    }
  }

  ServerConnection& link() {
    if (!connection) connect();
    return *connection;
  }
  std::string path() { return link().address(); }

  ChainEnd end() {
    const ServerRows rows = link().run(select_end);
    if (rows.size() != 1) damaged(path(), "the count of its entries is missing");
    return {rows.number(0, 0), rows.text(0, 1)};
  }

  std::int64_t counted(std::string_view dancer) {
    const ServerRows rows = link().run(select_count, {dancer});
    return rows.size() == 1 ? rows.number(0, 0) : 0;
  }

  struct Put {
    std::string state;
    EntryHead head; ///< as it is kept; empty if it was not taken
  };
  /// Puts an entry in the caller's transaction, or in one of its own if there is none: the server
  /// reads back what it stored before it commits. `known`: a note must be about a known dancer.
  Put put(const ArchiveEntry& entry, bool known) {
    const EntryBody& body = entry.body;
    const bool cut = entry.head.kind == EntryKind::cut;
    const auto of_body = [cut](const std::string& text) {
      return cut ? ServerValue(text) : ServerValue();
    };
    EntryHead head = entry.head;
    const ServerRows rows =
        link().run(call_append, {kind_name(head.kind), head.saved, head.program, head.salt,
                                 head.dancer, head.pair, head.date, head.alterations, head.about,
                                 head.summary, head.outcome, head.body, head.digest,
                                 of_body(body.order), of_body(body.options), of_body(body.solution),
                                 cut ? ServerValue::bytes(body.drawing) : ServerValue::bytes({}),
                                 of_body(body.sheets), ServerValue::truth(known)});
    if (rows.size() != 1) not_kept();
    Put result{rows.text(0, 0), {}};
    if (result.state != "added" && result.state != "present") return result;
    head.id = rows.number(0, 1);
    head.turn = rows.number(0, 2);
    head.before = rows.text(0, 3);
    if (head.id < 1 || (head.turn > 0) != has_dancer(head.kind)) not_kept();
    result.head = std::move(head);
    return result;
  }

  [[noreturn]] void not_kept() {
    damaged(path(), "what was to be saved cannot be read back, and nothing was saved");
  }

  std::vector<EntryHead> heads(const ServerRows& rows) {
    std::vector<EntryHead> found;
    found.reserve(static_cast<std::size_t>(rows.size()));
    for (int row = 0; row < rows.size(); ++row)
      found.push_back(verified(stored_head(rows, row, path()), path()));
    return found;
  }

  /// Throws ArchiveDamaged if a number is missing between where the search began and where it
  /// ended.
  void require_unbroken(const std::vector<EntryHead>& found, std::int64_t first, std::size_t most,
                        std::int64_t (*number)(const EntryHead&)) {
    std::int64_t expected = first;
    for (const EntryHead& head : found)
      if (number(head) != expected--) damaged(path(), "there are entries missing");
    if (found.size() < most && expected > 0) damaged(path(), "there are entries missing");
  }

  std::string address;
  ArchiveUse use;
  std::chrono::milliseconds patience;
  std::unique_ptr<ServerConnection> connection;
};

ServerStore::ServerStore(const std::string& address, ArchiveUse use,
                         std::chrono::milliseconds patience)
    : database_(std::make_unique<Database>(address, use, patience)) {}
ServerStore::~ServerStore() = default;

std::vector<EntryHead> ServerStore::add(std::vector<ArchiveEntry> entries) {
  // The server works the digests out anyway.
  for (ArchiveEntry& entry : entries)
    if (entry.head.digest.empty()) complete(entry);
  return database_->insist([&] {
    // One alone is a statement of its own, which spares two journeys to the server.
    std::optional<ServerTransaction> change;
    if (entries.size() > 1) change.emplace(database_->link(), For::writing);
    std::vector<EntryHead> heads;
    heads.reserve(entries.size());
    for (const ArchiveEntry& entry : entries) {
      Database::Put put = database_->put(entry, true);
      if (put.state == "unknown")
        throw DancerForgotten(database_->path() + ": the dancer was forgotten meanwhile",
                              "there is nothing left to note anything about");
      if (put.state == "forgotten")
        throw DancerForgotten(database_->path() +
                                  ": the dancer was forgotten after this entry was made",
                              "nothing was saved; solve the order anew if it is a new one");
      heads.push_back(std::move(put.head));
    }
    if (change) change->commit();
    return heads;
  });
}

ServerStore::Merged
ServerStore::add_missing(const std::function<std::optional<ArchiveEntry>()>& next) {
  // `next` cannot be asked twice, so a broken connection ends it all, and nothing was added.
  ServerTransaction change(database_->link(), For::writing);
  Merged merged;
  while (auto entry = next()) {
    complete(*entry);
    const bool added = database_->put(*entry, false).state == "added";
    ++(added ? merged.added : merged.present);
  }
  if (merged.added > 0) change.commit();
  return merged;
}

void ServerStore::with_snapshot(const std::function<void()>& reads) {
  ServerTransaction reading(database_->link(), For::reading);
  reads();
}

ChainEnd ServerStore::end() {
  return database_->end();
}

std::optional<EntryHead> ServerStore::head(EntryId id) {
  const ServerRows rows = database_->link().run(select_head, {id});
  if (rows.size() == 1) return verified(stored_head(rows, 0, database_->path()), database_->path());
  if (id >= 1 && id <= database_->end().id)
    damaged(database_->path(), "entry " + std::to_string(id) + " is missing");
  return std::nullopt;
}

EntryBody ServerStore::body(const EntryHead& head) {
  const ServerRows rows = database_->link().run(select_body, {head.id});
  if (head.body.empty() || rows.size() != 1)
    damaged(database_->path(), "what entry " + std::to_string(head.id) + " held is missing");
  EntryBody body = stored_body(rows, 0, 0);
  if (body_digest(body) != head.body)
    damaged(database_->path(), "entry " + std::to_string(head.id) + " is not what was saved");
  return body;
}

// One statement sees the archive of one moment, and spares the journeys of a transaction. Only
// where it finds nothing something else has to be asked, which must be of the same moment.
std::vector<EntryHead> ServerStore::older(EntryId below, std::size_t most) {
  std::optional<ServerTransaction> reading;
  const auto asked = [&] {
    return database_->link().run(select_older, {below, static_cast<std::int64_t>(most)});
  };
  ServerRows rows = asked();
  if (rows.size() == 0) {
    reading.emplace(database_->link(), For::reading);
    rows = asked();
  }
  const ChainEnd last = rows.size() > 0
                            ? ChainEnd{rows.number(0, after_head), rows.text(0, after_head + 1)}
                            : database_->end();
  std::vector<EntryHead> found = database_->heads(rows);
  const EntryId first = std::min(below - 1, last.id);
  database_->require_unbroken(found, first, most, [](const EntryHead& h) { return h.id; });
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (!is_chained(found, i, last))
      damaged(database_->path(), "entry " + std::to_string(found[i].id) + " is out of the chain");
  }
  return found;
}

std::vector<EntryHead> ServerStore::older_of(std::string_view dancer, std::int64_t below,
                                             std::size_t most) {
  std::optional<ServerTransaction> reading;
  const auto asked = [&] {
    return database_->link().run(select_older_of, {dancer, below, static_cast<std::int64_t>(most)});
  };
  ServerRows rows = asked();
  if (rows.size() == 0) {
    reading.emplace(database_->link(), For::reading);
    rows = asked();
  }
  const std::int64_t count =
      rows.size() > 0 ? rows.number(0, counted_column) : database_->counted(dancer);
  std::vector<EntryHead> found = database_->heads(rows);
  database_->require_unbroken(found, std::min(below - 1, count), most,
                              [](const EntryHead& h) { return h.turn; });
  for (const EntryHead& head : found)
    if (head.dancer != dancer) damaged(database_->path(), "an index leads astray");
  return found;
}

std::size_t ServerStore::forget(std::string_view dancer, const std::string& saved,
                                const std::string& program) {
  std::size_t erased = 0;
  ArchiveEntry forgetting;
  forgetting.head.kind = EntryKind::forgetting;
  forgetting.head.saved = saved;
  forgetting.head.program = program;
  database_->insist([&] {
    ServerConnection& link = database_->link();
    ServerTransaction change(link, For::writing);
    link.run("SELECT id FROM shankline.head FOR UPDATE");
    const std::vector<EntryHead> heads = older_of(dancer, newest, all_entries);
    if (heads.empty()) return; // after a break: it was done
    erased = heads.size();
    forgetting.head.about.clear();
    for (const EntryHead& head : heads)
      forgetting.head.about.insert(0, head.digest + (forgetting.head.about.empty() ? "" : " "));
    link.run("INSERT INTO shankline.erasing SELECT e.id FROM shankline.entries e "
             "WHERE e.dancer = $1 ON CONFLICT DO NOTHING",
             {dancer});
    link.run("DELETE FROM shankline.bodies b USING shankline.entries e "
             "WHERE e.dancer = $1 AND b.id = e.id",
             {dancer});
    link.run("UPDATE shankline.entries SET kind = 'forgotten', saved = '', program = '', "
             "salt = '', dancer = NULL, turn = NULL, pair = '', date = '', alterations = '', "
             "about = '', summary = '', outcome = '', body = '', written_by = '' "
             "WHERE dancer = $1",
             {dancer});
    link.run("DELETE FROM shankline.dancers WHERE dancer = $1", {dancer});
    // An outbox elsewhere may still hold her or his entries.
    const std::string salt = new_salt();
    link.run("INSERT INTO shankline.forgotten_codes VALUES($1, shankline.code_digest($1, $2), $3)",
             {salt, dancer, saved});
    complete(forgetting);
    if (database_->put(forgetting, false).state != "added") database_->not_kept();
    const ServerRows left = link.run(
        "SELECT (SELECT count(*) FROM shankline.entries e JOIN shankline.erasing r USING(id) "
        "WHERE e.kind <> 'forgotten' OR e.dancer IS NOT NULL) + "
        "(SELECT count(*) FROM shankline.bodies b JOIN shankline.erasing r USING(id)), "
        "(SELECT count(*) FROM shankline.erasing)");
    if (left.number(0, 0) != 0 || left.number(0, 1) < static_cast<std::int64_t>(erased) ||
        database_->counted(dancer) != 0)
      damaged(database_->path(), "what was to be erased is still there, and nothing was erased");
    change.commit();
  });
  if (is_to_clean()) clean();
  return erased;
}

bool ServerStore::is_to_clean() {
  // A bench and a reader do not see what is being erased, and cannot do anything about it.
  const ServerRows may =
      database_->link().run("SELECT has_table_privilege('shankline.erasing', 'SELECT')");
  if (!may.truth(0, 0)) return false;
  return database_->link().run("SELECT count(*) FROM shankline.erasing").number(0, 0) > 0;
}

void ServerStore::clean() {
  ServerConnection& link = database_->link();
  try {
    // The vacuum cannot remove erased rows while another program still reads them.
    ServerTransaction alone(link, For::writing);
    link.run("LOCK TABLE shankline.entries, shankline.bodies IN ACCESS EXCLUSIVE MODE");
    alone.commit();
  } catch (const ServerRefused& refused) {
    if (refused.state != "55P03") throw;
    throw ArchiveFault(link.address() + ": the entries are erased, but another program reads this "
                                        "archive, and the erased text may still be in its tables",
                       "end the other program, then run shankline archive forget --finish");
  }
  link.run("SET statement_timeout = 0");
  link.run("VACUUM shankline.entries, shankline.bodies, shankline.dancers");
  link.run("SET statement_timeout = '120s'");
  link.run("DELETE FROM shankline.erasing");
}

std::vector<ForgottenCode> ServerStore::forgotten_codes() {
  ServerConnection& link = database_->link();
  if (!link.run("SELECT has_table_privilege('shankline.forgotten_codes', 'SELECT')").truth(0, 0))
    throw ArchiveFault(link.address() + ": which codes were forgotten is kept from you",
                       "let the keeper move the archive");
  const ServerRows rows =
      link.run("SELECT salt, digest, saved FROM shankline.forgotten_codes ORDER BY digest");
  std::vector<ForgottenCode> codes;
  for (int row = 0; row < rows.size(); ++row)
    codes.push_back({rows.text(row, 0), rows.text(row, 1), rows.text(row, 2)});
  return codes;
}

void ServerStore::keep_forgotten(const std::vector<ForgottenCode>& codes) {
  if (codes.empty()) return;
  database_->insist([&] {
    ServerConnection& link = database_->link();
    ServerTransaction change(link, For::writing);
    link.run("SELECT id FROM shankline.head FOR UPDATE");
    for (const ForgottenCode& code : codes)
      if (link.run("INSERT INTO shankline.forgotten_codes VALUES($1, $2, $3) "
                   "ON CONFLICT (digest) DO NOTHING RETURNING digest",
                   {code.salt, code.digest, code.saved})
              .size() > 0)
        // Somebody who has this code now.
        link.run("UPDATE shankline.dancers SET forgotten = greatest(forgotten, $3) "
                 "WHERE shankline.code_digest($1, dancer) = $2",
                 {code.salt, code.digest, code.saved});
    change.commit();
  });
}

void ServerStore::copy_to(const std::string& path) {
  ArchiveCopy copy(path);
  {
    ArchiveStore file(copy);
    with_snapshot([&] {
      const ChainEnd last = end();
      EntryId given = 0;
      file.add_missing([&]() -> std::optional<ArchiveEntry> {
        if (given == last.id) return std::nullopt;
        ArchiveEntry entry{*head(++given), {}};
        if (entry.head.withheld)
          throw ArchiveFault(database_->path() + ": entry " + std::to_string(given) +
                                 " holds words of another bench that are kept from you",
                             "let the keeper make the copy");
        if (entry.head.kind == EntryKind::cut) entry.body = body(entry.head);
        return entry;
      });
      if (file.end() != last) damaged(database_->path(), "its copy does not end where it ends");
    });
  }
  copy.put_in_place();
}

bool ServerStore::protect() {
  throw ArchiveFault(database_->path() + ": a server gives rights by its roles, not by a file's",
                     "let the keeper look at who is a member of the archive's roles");
}

std::vector<std::string> ServerStore::faults_of_store() {
  std::vector<std::string> faults;
  const ServerRows rows = database_->link().run(
      "SELECT c.relname || ': a guard of it was taken away or switched off' "
      "FROM pg_catalog.pg_class c WHERE c.relnamespace = 'shankline'::regnamespace "
      "AND c.relname IN ('entries', 'bodies') AND 3 <> "
      "(SELECT count(*) FROM pg_catalog.pg_trigger t WHERE t.tgrelid = c.oid "
      "AND NOT t.tgisinternal AND t.tgenabled = 'O') "
      "UNION ALL "
      "SELECT c.relname || ': a rule or a trigger of another program stands in its way' "
      "FROM pg_catalog.pg_class c WHERE c.relnamespace = 'shankline'::regnamespace "
      "AND c.relkind = 'r' AND (c.relhasrules OR EXISTS (SELECT FROM pg_catalog.pg_trigger t "
      "WHERE t.tgrelid = c.oid AND NOT t.tgisinternal AND t.tgname NOT IN ('entries_stay', "
      "'entries_hold', 'entries_all_stay', 'bodies_stay', 'bodies_hold', 'bodies_all_stay'))) "
      "UNION ALL "
      "SELECT c.relname || ': others than the keeper may change it' "
      "FROM pg_catalog.pg_class c, LATERAL pg_catalog.aclexplode(c.relacl) a "
      "WHERE c.relnamespace = 'shankline'::regnamespace AND a.grantee <> c.relowner "
      "AND a.privilege_type <> 'SELECT' GROUP BY c.relname "
      "UNION ALL "
      "SELECT c.relname || ': others than the keeper may change a column of it' "
      "FROM pg_catalog.pg_class c JOIN pg_catalog.pg_attribute t ON t.attrelid = c.oid, "
      "LATERAL pg_catalog.aclexplode(t.attacl) a "
      "WHERE c.relnamespace = 'shankline'::regnamespace AND a.grantee <> c.relowner "
      "AND a.privilege_type <> 'SELECT' GROUP BY c.relname "
      "UNION ALL "
      "SELECT 'bodies: there are ' || b.held || ' of them for ' || e.cuts || ' cuts' "
      "FROM (SELECT count(*) AS held FROM shankline.bodies) AS b, "
      "(SELECT count(*) AS cuts FROM shankline.seen WHERE kind = 'cut') AS e "
      "WHERE b.held <> e.cuts "
      "UNION ALL "
      "SELECT 'entries: others than the keeper may read it past the view' "
      "FROM pg_catalog.pg_class c WHERE c.oid = 'shankline.entries'::regclass AND EXISTS "
      "(SELECT FROM pg_catalog.aclexplode(c.relacl) a WHERE a.grantee <> c.relowner "
      "UNION ALL SELECT FROM pg_catalog.pg_attribute t, "
      "LATERAL pg_catalog.aclexplode(t.attacl) a "
      "WHERE t.attrelid = c.oid AND a.grantee <> c.relowner)");
  for (int row = 0; row < rows.size(); ++row)
    faults.push_back(rows.text(row, 0));
  return faults;
}

std::vector<ArchiveEntry> ServerStore::as_stored(EntryId above, std::size_t most) {
  const ServerRows rows =
      database_->link().run(select_after, {above, static_cast<std::int64_t>(most)});
  std::vector<ArchiveEntry> entries;
  for (int row = 0; row < rows.size(); ++row) {
    StoredHead stored = stored_head(rows, row, database_->path());
    // The server's word is all there is: a withheld entry that is not sound has a digest of
    // nothing.
    if (stored.head.withheld && !stored.sound) stored.head.withheld = false;
    entries.push_back({std::move(stored.head), stored_body(rows, row, after_head)});
  }
  return entries;
}

std::int64_t ServerStore::counted(std::string_view dancer) {
  return database_->counted(dancer);
}

std::size_t ServerStore::dancers() {
  return static_cast<std::size_t>(database_->link().run(select_dancers).number(0, 0));
}

} // namespace shankline
