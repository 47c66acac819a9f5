#include "cli/archive/archive_store.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_file.hpp"
#include "cli/archive/archive_schema.hpp"
#include "cli/archive/sqlite_connection.hpp"
#include "cli/text/message.hpp"
#include "export/formats/digest.hpp"

#include <algorithm>
#include <array>
#include <thread>
#include <unordered_set>
#include <utility>

namespace shankline {
namespace {

constexpr const char* to_read = "BEGIN";
constexpr const char* to_write = "BEGIN IMMEDIATE";

/// The way to open the file that its rights and the files beside it allow. No file is made beside
/// one that may only be read.
struct Opening {
  std::string address;
  DatabaseUse use = DatabaseUse::write;
  bool may_write = true;
  std::optional<FileChangeGuard> still; ///< set if it is read without locks
};

Opening opening_of(const std::string& path, ArchiveUse use) {
  require_archive_file(path, use);
  Opening opening;
  opening.address = sqlite_address(path);
  if (use != ArchiveUse::read || why_not_writable(path).empty()) return opening;
  opening.use = DatabaseUse::read;
  opening.may_write = false;
  if (where_to_read(path) == ReadingFrom::file_and_log) {
    opening.address += "?readonly_shm=1";
  } else {
    // Locks would need a file beside it.
    opening.address += "?immutable=1";
    opening.still.emplace(path);
  }
  return opening;
}

void run_steps(SqliteConnection& connection, int from, int to) {
  for (int version = from; version < to; ++version)
    connection.run(archive_steps[static_cast<std::size_t>(version)]);
}

/// A table, an index, a trigger or a view.
struct SchemaObject {
  std::string type;
  std::string name;
  std::string table; ///< that it belongs to
  std::string sql;   ///< empty for an index that the database makes by itself

  bool operator==(const SchemaObject&) const = default;
  bool is(const SchemaObject& other) const { return type == other.type && name == other.name; }
};
using Schema = std::vector<SchemaObject>;

Schema schema_of(SqliteConnection& connection) {
  Schema schema;
  SqliteQuery query = connection.query("SELECT type, name, tbl_name, coalesce(sql, '') "
                                       "FROM sqlite_schema ORDER BY type, name");
  while (query.step())
    schema.push_back({query.text(0), query.text(1), query.text(2), query.text(3)});
  return schema;
}

Schema schema_of_version(int version) {
  SqliteConnection fresh("memory", ":memory:", DatabaseUse::make, std::chrono::milliseconds(0));
  run_steps(fresh, 0, version);
  return schema_of(fresh);
}

/// Returns true if the tables are the present version's. Making those anew, to compare with, takes
/// as long as all else that opening does: only words that are not on record have to wait for that.
bool is_present(const Schema& found) {
  std::string text;
  for (const SchemaObject& object : found)
    for (const std::string* part : {&object.type, &object.name, &object.table, &object.sql})
      text.append(std::to_string(part->size())).append(":").append(*part) += '\n';
  return sha256(text) == archive_schema_digest || found == schema_of_version(archive_version);
}

/// Names up to four objects whose definition differs from ours, or that are missing or foreign.
std::string differences(const Schema& made, const Schema& found) {
  constexpr int most = 4;
  std::string text;
  int count = 0;
  const auto add = [&](const SchemaObject& object, const char* what) {
    if (++count > most) return;
    text += (text.empty() ? "" : "; ") + object.type + " " + shown(object.name) + what;
  };
  const auto same = [](const Schema& in, const SchemaObject& object) {
    return std::find_if(in.begin(), in.end(), [&](const auto& one) { return one.is(object); });
  };
  for (const SchemaObject& object : made)
    if (const auto one = same(found, object); one == found.end())
      add(object, " is missing");
    else if (*one != object)
      add(object, " is not as it was made");
  for (const SchemaObject& object : found)
    if (same(made, object) == made.end()) add(object, " is not of this program");
  if (count > most) text += "; and " + std::to_string(count - most) + " more";
  return text;
}

/// A trigger, a view or an index of somebody else's can hang a program or make it believe what is
/// not there. So nothing is read or written unless all objects are those that the steps make, word
/// for word.
void require_schema(const std::string& path, int version, const Schema& found) {
  if (version == archive_version && is_present(found)) return;
  const Schema made = schema_of_version(version);
  if (found == made) return;
  throw ArchiveDamaged(
      path + ": is damaged, or another program changed its tables: " + differences(made, found),
      "let whoever changed it take that back, or bring back a backup");
}

void bring_up_to_date(SqliteConnection& connection, int from) {
  run_steps(connection, from, archive_version);
  connection.run(("PRAGMA application_id = " + std::to_string(archive_application) +
                  "; PRAGMA user_version = " + std::to_string(archive_version))
                     .c_str());
}

/// The number of an archive's tables does not fit the tables themselves.
[[noreturn]] void refuse_version(const std::string& path, std::int64_t version,
                                 const Schema& found) {
  if (version > archive_version && !is_present(found))
    throw ArchiveFault(path + ": has tables of version " + std::to_string(version) +
                           ", and this program knows none after version " +
                           std::to_string(archive_version) +
                           ": either a newer version of it wrote them, or the number is damaged",
                       "bring the program up to date, or bring back a backup");
  archive_damaged(path, "the number of its tables' version, " + std::to_string(version) +
                            ", is not that of its tables");
}

/// Version of the file, whose tables are those of that version; 0 when it is empty.
int version_of(SqliteConnection& connection) {
  // One transaction, so that all reads are of one moment: another program may be making the archive
  // now.
  SqliteTransaction reading(connection, to_read);
  const std::int64_t version = connection.number("PRAGMA user_version");
  const std::int64_t application = connection.number("PRAGMA application_id");
  const Schema found = schema_of(connection);
  if (version == 0 && application == 0 && found.empty()) return 0;
  if (application != archive_application || version < 1)
    throw ArchiveFault(connection.path() + ": is a database of another program, or its beginning "
                                           "is damaged",
                       "give another file with --archive, or bring back a backup");
  if (version > archive_version || (version < archive_version && is_present(found)))
    refuse_version(connection.path(), version, found);
  require_schema(connection.path(), static_cast<int>(version), found);
  return static_cast<int>(version);
}

/// Other programs may be at the same thing: whoever comes second finds it done.
void require_version(SqliteConnection& connection, ArchiveUse use, bool may_write) {
  const int version = version_of(connection);
  if (version == archive_version) return;
  if (version == 0 && use != ArchiveUse::write)
    throw ArchiveFault(connection.path() + ": there is no archive here yet, the file is empty",
                       "save an order first: shankline archive save ORDER");
  if (!may_write)
    throw ArchiveFault(connection.path() + ": has tables of version " + std::to_string(version) +
                           ", which have to be brought up to date before they can be read, and "
                           "nothing can be written here",
                       "copy the file into a folder of your own, and give the copy with --archive");
  SqliteTransaction change(connection, to_write);
  bring_up_to_date(connection, version_of(connection));
  change.commit();
}

/// Switching needs the file for itself for a moment, which the database does not wait for.
void write_ahead(SqliteConnection& connection, std::chrono::milliseconds patience) {
  const auto end = std::chrono::steady_clock::now() + patience;
  while (true) {
    const auto tried = connection.try_to("PRAGMA journal_mode = WAL");
    if (tried == SqliteConnection::Tried::done) return;
    if (tried != SqliteConnection::Tried::busy || std::chrono::steady_clock::now() > end) {
      connection.run("PRAGMA journal_mode = WAL");
      return;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
}

constexpr const char* settings = "PRAGMA foreign_keys = ON;"
                                 "PRAGMA synchronous = FULL;"
                                 "PRAGMA secure_delete = ON;"
                                 "PRAGMA trusted_schema = OFF;"
                                 "PRAGMA cell_size_check = ON;"
                                 // Text that is being erased must not be copied to temporary files.
                                 "PRAGMA temp_store = MEMORY";

#define SHANKLINE_HEAD_COLUMNS                                                                     \
  "id, kind, saved, program, salt, dancer, turn, pair, date, alterations, about, summary, "        \
  "outcome, body, before, digest"
constexpr const char* insert_head = "INSERT INTO entries(" SHANKLINE_HEAD_COLUMNS ") "
                                    "VALUES(?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";
constexpr const char* insert_body = "INSERT INTO bodies VALUES(?,?,?,?,?,?)";
constexpr const char* select_end = "SELECT id, hash FROM head";
constexpr const char* update_end = "UPDATE head SET id = ?, hash = ?";
constexpr const char* select_count = "SELECT entries FROM dancers WHERE dancer = ?";
constexpr const char* update_count = "INSERT INTO dancers VALUES(?, 1) "
                                     "ON CONFLICT DO UPDATE SET entries = entries + 1";
constexpr const char* select_head = "SELECT " SHANKLINE_HEAD_COLUMNS " FROM entries WHERE id = ?";
constexpr const char* select_body =
    "SELECT order_text, options, solution, drawing, sheets FROM bodies WHERE id = ?";
constexpr const char* select_older =
    "SELECT " SHANKLINE_HEAD_COLUMNS " FROM entries WHERE id < ? ORDER BY id DESC LIMIT ?";
constexpr const char* select_older_of =
    "SELECT " SHANKLINE_HEAD_COLUMNS " FROM entries INDEXED BY turns "
    "WHERE dancer = ? AND turn < ? ORDER BY turn DESC LIMIT ?";
constexpr const char* select_turn =
    "SELECT id FROM entries INDEXED BY turns WHERE dancer = ? AND turn = ?";
constexpr const char* select_after =
    "SELECT " SHANKLINE_HEAD_COLUMNS " FROM entries WHERE id > ? ORDER BY id LIMIT ?";
#undef SHANKLINE_HEAD_COLUMNS

EntryHead stored_head(const SqliteQuery& row, const std::string& path) {
  EntryHead head;
  head.id = row.number(0);
  const auto kind = kind_named(row.text(1));
  if (!kind) archive_damaged(path, "entry " + std::to_string(head.id) + " is of no known kind");
  head.kind = *kind;
  head.saved = row.text(2);
  head.program = row.text(3);
  head.salt = row.text(4);
  head.dancer = row.text(5);
  head.turn = row.number(6);
  head.pair = row.text(7);
  head.date = row.text(8);
  head.alterations = row.text(9);
  head.about = row.text(10);
  head.summary = row.text(11);
  head.outcome = row.text(12);
  head.body = row.text(13);
  head.before = row.text(14);
  head.digest = row.text(15);
  return head;
}

EntryBody stored_body(const SqliteQuery& row) {
  return {row.text(0), row.text(1), row.text(2), row.text(3), row.text(4)};
}

EntryHead verified(EntryHead head, const std::string& path) {
  const bool sound =
      head.kind == EntryKind::forgotten ? holds_nothing(head) : head_digest(head) == head.digest;
  if (!sound || (head.turn != 0) != has_dancer(head.kind))
    archive_damaged(path, "entry " + std::to_string(head.id) + " is not what was saved");
  return head;
}

} // namespace

struct ArchiveStore::Database {
  Database(const std::string& path, ArchiveUse use, std::chrono::milliseconds patience)
      : Database(path, use, opening_of(path, use), patience) {}
  Database(const std::string& path, ArchiveUse use, const Opening& opening,
           std::chrono::milliseconds patience)
      : connection(path, opening.address, opening.use, patience), still(opening.still) {
    connection.run(settings);
    require_version(connection, use, opening.may_write);
    if (use != ArchiveUse::read) write_ahead(connection, patience);
  }

  const std::string& path() const { return connection.path(); }

  ChainEnd end() {
    SqliteQuery query = connection.query(select_end);
    if (!query.step()) archive_damaged(path(), "the count of its entries is missing");
    return {query.number(0), query.text(1)};
  }

  std::int64_t counted(std::string_view dancer) {
    SqliteQuery query = connection.query(select_count);
    return query.with(dancer).step() ? query.number(0) : 0;
  }

  std::optional<EntryHead> head(EntryId id) {
    SqliteQuery query = connection.query(select_head);
    if (!query.with(id).step()) return std::nullopt;
    EntryHead head = verified(stored_head(query, path()), path());
    require_turn(head);
    return head;
  }

  /// The digest does not cover the turn, which is the archive's and not the entry's.
  void require_turn(const EntryHead& head) {
    if (!has_dancer(head.kind)) return;
    SqliteQuery query = connection.query(select_turn);
    if (!query.with(head.dancer, head.turn).step() || query.number(0) != head.id ||
        head.turn > counted(head.dancer))
      archive_damaged(path(), "an index does not lead to entry " + std::to_string(head.id));
  }

  /// New entries are not hung onto a chain that is broken.
  ChainEnd sound_end() {
    ChainEnd last = end();
    const auto head = last.id == 0 ? std::nullopt : this->head(last.id);
    const std::string hash = head ? chain_hash(head->before, head->digest) : chain_start();
    if ((last.id != 0 && !head) || hash != last.hash ||
        connection.number("SELECT max(id) FROM entries") != last.id)
      archive_damaged(path(), "its last entry is not what was saved");
    return last;
  }

  /// The entry that `last` counts from now on; `end` is written by who ends the transaction.
  EntryHead insert(ArchiveEntry& entry, ChainEnd& last) {
    EntryHead& head = entry.head;
    head.id = last.id + 1;
    head.before = last.hash;
    head.turn = 0;
    complete(entry);
    if (has_dancer(head.kind)) {
      head.turn = counted(head.dancer) + 1;
      connection.query(update_count).with(head.dancer).run();
    }
    insert_row(head);
    const EntryBody& body = entry.body;
    if (head.kind == EntryKind::cut)
      connection.query(insert_body)
          .with(head.id, body.order, body.options, body.solution, Blob{body.drawing}, body.sheets)
          .run();
    last = {head.id, chain_hash(head.before, head.digest)};
    require_kept(entry);
    return head;
  }

  void set_end(const ChainEnd& last) {
    connection.query(update_end).with(last.id, last.hash).run();
    if (end() != last) not_kept();
  }

  /// Reads an entry back in the transaction that adds it. The database said that it did so, and a
  /// trigger of somebody else's can make it say that of nothing.
  void require_kept(const ArchiveEntry& entry) {
    const EntryHead& head = entry.head;
    SqliteQuery query = connection.query(select_head);
    if (!query.with(head.id).step() || stored_head(query, path()) != head) not_kept();
    if (has_dancer(head.kind) && counted(head.dancer) != head.turn) not_kept();
    if (head.kind != EntryKind::cut) return;
    SqliteQuery body = connection.query(select_body);
    if (!body.with(head.id).step() || stored_body(body) != entry.body) not_kept();
  }

  /// Likewise for what is being erased.
  void require_erased(std::string_view dancer, std::size_t entries) {
    const std::int64_t left =
        connection.number("SELECT (SELECT count(*) FROM entries JOIN erasing USING(id) "
                          "WHERE kind <> 'forgotten' OR dancer IS NOT NULL) + "
                          "(SELECT count(*) FROM bodies JOIN erasing USING(id))");
    const std::int64_t marked = connection.number("SELECT count(*) FROM erasing");
    if (left != 0 || marked < static_cast<std::int64_t>(entries) || counted(dancer) != 0)
      archive_damaged(path(), "what was to be erased is still there, and nothing was erased");
  }

  /// A file that was taken away stays open and can be written: nobody would find what is in it.
  void require_in_place() const {
    if (connection.was_moved())
      throw ArchiveFault(path() + ": the archive was moved or replaced while it was written: what "
                                  "was saved is not in the file that is there now",
                         "look at the archive, then do the same again");
  }

  /// Rows of a query, each verified.
  std::vector<EntryHead> heads(SqliteQuery& query) {
    std::vector<EntryHead> found;
    while (query.step())
      found.push_back(verified(stored_head(query, path()), path()));
    return found;
  }

  /// Throws ArchiveDamaged if a number is missing between where the search began and where it
  /// ended.
  void require_unbroken(const std::vector<EntryHead>& found, std::int64_t first, std::size_t most,
                        std::int64_t (*number)(const EntryHead&)) const {
    std::int64_t expected = first;
    for (const EntryHead& head : found)
      if (number(head) != expected--) archive_damaged(path(), "there are entries missing");
    if (found.size() < most && expected > 0) archive_damaged(path(), "there are entries missing");
  }

  /// Erased text is gone from the file only when its pages are written anew and the journal is
  /// empty.
  void clean() {
    connection.run("VACUUM");
    {
      SqliteQuery checkpoint = connection.query("PRAGMA wal_checkpoint(TRUNCATE)");
      if (checkpoint.step() && checkpoint.number(0) != 0)
        throw ArchiveFault(path() + ": the entries are erased, but another program keeps this "
                                    "archive open, and the erased text may still be in its file",
                           "end the other program, then run shankline archive forget --finish");
    }
    connection.run("DELETE FROM erasing");
  }

  /// A file that is read without locks may change under the reader: throws ArchiveFault if it did.
  void require_still() const {
    if (still) still->require_unchanged();
  }

  SqliteConnection connection;
  std::optional<FileChangeGuard> still; ///< set if it is read without locks

private:
  [[noreturn]] void not_kept() const {
    archive_damaged(path(), "what was to be saved cannot be read back, and nothing was saved");
  }

  void insert_row(const EntryHead& head) {
    std::optional<std::string_view> dancer;
    std::optional<std::int64_t> turn;
    if (has_dancer(head.kind)) {
      dancer = head.dancer;
      turn = head.turn;
    }
    connection.query(insert_head)
        .with(head.id, kind_name(head.kind), head.saved, head.program, head.salt, dancer, turn,
              head.pair, head.date, head.alterations, head.about, head.summary, head.outcome,
              head.body, head.before, head.digest)
        .run();
  }
};

ArchiveStore::ArchiveStore(const std::string& path, ArchiveUse use,
                           std::chrono::milliseconds patience)
    : database_(std::make_unique<Database>(path, use, patience)) {}
ArchiveStore::ArchiveStore(const ArchiveCopy& copy)
    : database_(std::make_unique<Database>(
          copy.path(), ArchiveUse::write,
          Opening{open_file_address(copy.descriptor()), DatabaseUse::write, true, std::nullopt},
          std::chrono::milliseconds(0))) {}
ArchiveStore::~ArchiveStore() = default;
ArchiveStore::ArchiveStore(ArchiveStore&&) noexcept = default;
ArchiveStore& ArchiveStore::operator=(ArchiveStore&&) noexcept = default;

std::vector<EntryHead> ArchiveStore::add(std::vector<ArchiveEntry> entries) {
  SqliteTransaction change(database_->connection, to_write);
  ChainEnd last = database_->sound_end();
  std::vector<EntryHead> heads;
  heads.reserve(entries.size());
  for (ArchiveEntry& entry : entries) {
    if (entry.head.kind == EntryKind::note && database_->counted(entry.head.dancer) == 0)
      throw ArchiveFault(database_->path() + ": the dancer was forgotten meanwhile",
                         "there is nothing left to note anything about");
    heads.push_back(database_->insert(entry, last));
  }
  database_->set_end(last);
  change.commit();
  database_->require_in_place();
  return heads;
}

ArchiveStore::Merged
ArchiveStore::add_missing(const std::function<std::optional<ArchiveEntry>()>& next) {
  SqliteTransaction change(database_->connection, to_write);
  ChainEnd last = database_->sound_end();
  std::unordered_set<std::string> present;
  {
    SqliteQuery query = database_->connection.query("SELECT digest FROM entries");
    while (query.step())
      present.insert(query.text(0));
  }
  Merged merged;
  while (auto entry = next()) {
    if (!present.insert(entry->head.digest).second) {
      ++merged.present;
      continue;
    }
    database_->insert(*entry, last);
    ++merged.added;
  }
  if (merged.added == 0) return merged;
  database_->set_end(last);
  change.commit();
  database_->require_in_place();
  return merged;
}

void ArchiveStore::with_snapshot(const std::function<void()>& reads) {
  SqliteTransaction reading(database_->connection, to_read);
  try {
    reads();
  } catch (const ArchiveDamaged&) {
    database_->require_still(); // then it is not damaged
    throw;
  }
  database_->require_still();
}

ChainEnd ArchiveStore::end() {
  return database_->end();
}

std::optional<EntryHead> ArchiveStore::head(EntryId id) {
  SqliteTransaction reading(database_->connection, to_read);
  auto head = database_->head(id);
  if (!head && id >= 1 && id <= database_->end().id)
    archive_damaged(database_->path(), "entry " + std::to_string(id) + " is missing");
  return head;
}

EntryBody ArchiveStore::body(const EntryHead& head) {
  SqliteQuery query = database_->connection.query(select_body);
  if (head.body.empty() || !query.with(head.id).step())
    archive_damaged(database_->path(),
                    "what entry " + std::to_string(head.id) + " held is missing");
  EntryBody body = stored_body(query);
  if (body_digest(body) != head.body)
    archive_damaged(database_->path(),
                    "entry " + std::to_string(head.id) + " is not what was saved");
  return body;
}

std::vector<EntryHead> ArchiveStore::older(EntryId below, std::size_t most) {
  SqliteTransaction reading(database_->connection, to_read);
  const ChainEnd last = database_->end();
  SqliteQuery query = database_->connection.query(select_older);
  query.with(below, static_cast<std::int64_t>(most));
  std::vector<EntryHead> found = database_->heads(query);
  const EntryId first = std::min(below - 1, last.id);
  database_->require_unbroken(found, first, most, [](const EntryHead& h) { return h.id; });
  for (std::size_t i = 0; i < found.size(); ++i) {
    database_->require_turn(found[i]);
    if (!is_chained(found, i, last))
      archive_damaged(database_->path(),
                      "entry " + std::to_string(found[i].id) + " is out of the chain");
  }
  return found;
}

std::vector<EntryHead> ArchiveStore::older_of(std::string_view dancer, std::int64_t below,
                                              std::size_t most) {
  SqliteTransaction reading(database_->connection, to_read);
  const std::int64_t count = database_->counted(dancer);
  SqliteQuery query = database_->connection.query(select_older_of);
  query.with(dancer, below, static_cast<std::int64_t>(most));
  std::vector<EntryHead> found = database_->heads(query);
  database_->require_unbroken(found, std::min(below - 1, count), most,
                              [](const EntryHead& h) { return h.turn; });
  for (const EntryHead& head : found)
    if (head.dancer != dancer) archive_damaged(database_->path(), "an index leads astray");
  return found;
}

std::size_t ArchiveStore::forget(std::string_view dancer, const std::string& saved,
                                 const std::string& program) {
  std::size_t erased = 0;
  {
    SqliteTransaction change(database_->connection, to_write);
    ChainEnd last = database_->sound_end();
    ArchiveEntry forgetting;
    forgetting.head.kind = EntryKind::forgetting;
    forgetting.head.saved = saved;
    forgetting.head.program = program;
    for (const EntryHead& head : older_of(dancer, newest, all_entries)) {
      forgetting.head.about.insert(0, head.digest + (erased++ > 0 ? " " : ""));
      database_->connection.query("INSERT OR IGNORE INTO erasing VALUES(?)").with(head.id).run();
    }
    if (erased > 0) {
      for (const char* sql :
           {"DELETE FROM bodies WHERE id IN (SELECT id FROM entries WHERE dancer = ?)",
            "UPDATE entries SET kind = 'forgotten', saved = '', program = '', salt = '', "
            "dancer = NULL, turn = NULL, pair = '', date = '', alterations = '', about = '', "
            "summary = '', outcome = '', body = '' WHERE dancer = ?",
            "DELETE FROM dancers WHERE dancer = ?"})
        database_->connection.query(sql).with(dancer).run();
      database_->insert(forgetting, last);
      database_->set_end(last);
      database_->require_erased(dancer, erased);
      change.commit();
      database_->require_in_place();
    }
  }
  if (is_to_clean()) clean();
  return erased;
}

bool ArchiveStore::is_to_clean() {
  return database_->connection.number("SELECT count(*) FROM erasing") > 0;
}

void ArchiveStore::clean() {
  database_->clean();
}

std::vector<ForgottenCode> ArchiveStore::forgotten_codes() {
  std::vector<ForgottenCode> codes;
  SqliteQuery query = database_->connection.query(
      "SELECT salt, digest, saved FROM forgotten_codes ORDER BY digest");
  while (query.step())
    codes.push_back({query.text(0), query.text(1), query.text(2)});
  return codes;
}

void ArchiveStore::keep_forgotten(const std::vector<ForgottenCode>& codes) {
  if (codes.empty()) return;
  SqliteTransaction change(database_->connection, to_write);
  for (const ForgottenCode& code : codes)
    database_->connection.query("INSERT OR IGNORE INTO forgotten_codes VALUES(?, ?, ?)")
        .with(code.salt, code.digest, code.saved)
        .run();
  change.commit();
  database_->require_in_place();
}

void ArchiveStore::copy_to(const std::string& path) {
  ArchiveCopy copy(path);
  const std::string address = open_file_address(copy.descriptor());
  database_->connection.query("VACUUM INTO ?").with(std::string_view(address)).run();
  database_->require_still();
  copy.put_in_place();
}

bool ArchiveStore::protect() {
  return protect_archive_file(database_->path());
}

std::vector<std::string> ArchiveStore::faults_of_store() {
  std::vector<std::string> faults;
  const auto look = [&faults](const auto& at) {
    try {
      at();
    } catch (const ArchiveDamaged& fault) {
      faults.emplace_back(fault.what());
    }
  };
  look([&] {
    SqliteQuery check = database_->connection.query("PRAGMA integrity_check(20)");
    while (check.step())
      if (const std::string said = check.text(0); said != "ok") faults.push_back(said);
  });
  look([&] {
    SqliteQuery check = database_->connection.query("PRAGMA foreign_key_check");
    while (check.step())
      faults.push_back("a row of " + check.text(0) + " belongs to no entry");
  });
  return faults;
}

std::vector<ArchiveEntry> ArchiveStore::as_stored(EntryId above, std::size_t most) {
  SqliteTransaction reading(database_->connection, to_read);
  std::vector<ArchiveEntry> entries;
  SqliteQuery query = database_->connection.query(select_after);
  query.with(above, static_cast<std::int64_t>(most));
  while (query.step()) {
    ArchiveEntry entry;
    entry.head = stored_head(query, database_->path());
    SqliteQuery body = database_->connection.query(select_body);
    if (body.with(entry.head.id).step()) entry.body = stored_body(body);
    entries.push_back(std::move(entry));
  }
  return entries;
}

std::int64_t ArchiveStore::counted(std::string_view dancer) {
  return database_->counted(dancer);
}

std::size_t ArchiveStore::dancers() {
  return static_cast<std::size_t>(database_->connection.number("SELECT count(*) FROM dancers"));
}

} // namespace shankline
