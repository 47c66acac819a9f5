#include "cli/archive/server_connection.hpp"

#include "cli/archive/server_address.hpp"
#include "cli/surroundings/loaded_library.hpp"
#include "export/formats/system_reason.hpp"

#include <libpq-fe.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <cstring>
#include <new>
#include <poll.h>
#include <stdexcept>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// The functions of the client library that are needed here, looked up by name.
class Library : LoadedLibrary {
public:
  decltype(&PQconnectStartParams) begin = nullptr;
  decltype(&PQconnectPoll) go_on = nullptr;
  decltype(&PQfinish) end = nullptr;
  decltype(&PQsocket) socket = nullptr;
  decltype(&PQstatus) status = nullptr;
  decltype(&PQtransactionStatus) transaction = nullptr;
  decltype(&PQserverVersion) version = nullptr;
  decltype(&PQerrorMessage) error = nullptr;
  decltype(&PQsetNoticeProcessor) set_notices = nullptr;
  decltype(&PQexec) run_script = nullptr;
  decltype(&PQexecParams) run = nullptr;
  decltype(&PQprepare) prepare = nullptr;
  decltype(&PQexecPrepared) run_prepared = nullptr;
  decltype(&PQresultStatus) result_status = nullptr;
  decltype(&PQresultErrorField) error_field = nullptr;
  decltype(&PQclear) clear = nullptr;
  decltype(&PQntuples) rows = nullptr;
  decltype(&PQgetvalue) value = nullptr;
  decltype(&PQgetlength) length = nullptr;
  decltype(&PQconninfoParse) parse = nullptr;
  decltype(&PQconndefaults) defaults = nullptr;
  decltype(&PQconninfoFree) free_options = nullptr;
  decltype(&PQfreemem) free_memory = nullptr;

  Library() : LoadedLibrary("libpq.so.5") {
    ready_ =
        loaded() && look_up(begin, "PQconnectStartParams") && look_up(go_on, "PQconnectPoll") &&
        look_up(end, "PQfinish") && look_up(socket, "PQsocket") && look_up(status, "PQstatus") &&
        look_up(transaction, "PQtransactionStatus") && look_up(version, "PQserverVersion") &&
        look_up(error, "PQerrorMessage") && look_up(set_notices, "PQsetNoticeProcessor") &&
        look_up(run_script, "PQexec") && look_up(run, "PQexecParams") &&
        look_up(prepare, "PQprepare") && look_up(run_prepared, "PQexecPrepared") &&
        look_up(result_status, "PQresultStatus") && look_up(error_field, "PQresultErrorField") &&
        look_up(clear, "PQclear") && look_up(rows, "PQntuples") && look_up(value, "PQgetvalue") &&
        look_up(length, "PQgetlength") && look_up(parse, "PQconninfoParse") &&
        look_up(defaults, "PQconndefaults") && look_up(free_options, "PQconninfoFree") &&
        look_up(free_memory, "PQfreemem");
  }

  bool ready() const { return ready_; }

private:
  bool ready_ = false;
};

/// The functions, some of them null where the library is missing.
const Library& functions_found() {
  static const Library loaded;
  return loaded;
}

/// For everything behind the constructor of ServerConnection, which refuses where the library is
/// missing.
const Library& library() {
  const Library& found = functions_found();
  if (!found.ready()) throw std::logic_error("a connection needs its library");
  return found;
}

/// The library's messages may be of several lines: hints, which begin with a tab, are left out.
std::string in_one_line(const char* said) {
  std::string text;
  std::string_view rest = said ? said : "";
  while (!rest.empty()) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(std::min(line.size() + 1, rest.size()));
    if (line.empty() || line.starts_with('\t')) continue;
    text.append(text.empty() ? "" : "; ").append(line);
  }
  return text.substr(0, text.find_last_not_of(" ?;") + 1);
}

constexpr const char* when_away =
    "see that the server runs and that its name is right; it takes the password from your password "
    "file (~/.pgpass) or your certificate";

/// The options of an address as the library reads them, with what the surroundings add.
class Options {
public:
  explicit Options(const std::string& address, const std::string& shown) {
    char* fault = nullptr;
    given_ = library().parse(address.c_str(), &fault);
    if (fault) library().free_memory(fault); // it would show the password
    if (!given_)
      throw ArchiveFault(shown + ": is not an address of a server",
                         "write it as postgresql://USER@HOST/DATABASE");
    usual_ = library().defaults();
  }
  Options(const Options&) = delete;
  Options& operator=(const Options&) = delete;
  ~Options() {
    library().free_options(given_);
    library().free_options(usual_);
  }

  std::string value(std::string_view name) const {
    const std::string said = in(given_, name);
    return said.empty() ? in(usual_, name) : said;
  }
  std::string said(std::string_view name) const { return in(given_, name); }

private:
  static std::string in(const PQconninfoOption* options, std::string_view name) {
    for (; options && options->keyword; ++options)
      if (options->keyword == name) return options->val ? options->val : "";
    return {};
  }

  PQconninfoOption* given_ = nullptr;
  PQconninfoOption* usual_ = nullptr;
};

bool is_loopback(std::string_view host) {
  return host.empty() || host.starts_with('/') || host.starts_with('@') || host == "localhost" ||
         host == "::1" || host.starts_with("127.");
}

/// Returns true if no byte leaves this machine. A named service may lead anywhere.
bool stays_here(const Options& options) {
  if (!options.value("service").empty()) return false;
  for (const char* name : {"host", "hostaddr"}) {
    const std::string hosts = options.value(name);
    for (std::size_t at = 0; at <= hosts.size();) {
      const std::size_t end = std::min(hosts.find(',', at), hosts.size());
      if (!is_loopback(std::string_view(hosts).substr(at, end - at))) return false;
      at = end + 1;
    }
  }
  return true;
}

PGresult* result_of(const std::shared_ptr<void>& result) {
  return static_cast<PGresult*>(result.get());
}

std::string_view field(const std::shared_ptr<void>& result, int row, int column) {
  const char* const bytes = library().value(result_of(result), row, column);
  return {bytes, static_cast<std::size_t>(library().length(result_of(result), row, column))};
}

// The numbers of types, from the server's catalogue; they never change.
constexpr Oid type_truth = 16;
constexpr Oid type_bytes = 17;
constexpr Oid type_number = 20;
constexpr Oid type_text = 25;

/// A statement's values as the server reads them: all of them in their binary form.
struct Values {
  explicit Values(std::initializer_list<ServerValue> values) {
    numbers.reserve(values.size());
    for (const ServerValue& value : values)
      add(value);
  }

  void add(const ServerValue& value) {
    // An empty text may have no address, and no address means NULL.
    const char* const text = value.text().data() ? value.text().data() : "";
    switch (value.kind()) {
    case ServerValue::Kind::nothing:
      return put(type_text, nullptr, 0);
    case ServerValue::Kind::text:
      return put(type_text, text, value.text().size());
    case ServerValue::Kind::bytes:
      return put(type_bytes, text, value.text().size());
    case ServerValue::Kind::number: {
      std::array<char, 8>& bytes = numbers.emplace_back();
      for (std::size_t i = 0; i < bytes.size(); ++i)
        bytes[i] = static_cast<char>(value.number() >> (56 - 8 * i));
      return put(type_number, bytes.data(), bytes.size());
    }
    case ServerValue::Kind::truth:
      return put(type_truth, value.number() != 0 ? "\1" : "\0", 1);
    }
  }
  void put(Oid type, const char* bytes, std::size_t size) {
    types.push_back(type);
    pointers.push_back(bytes);
    lengths.push_back(static_cast<int>(size));
    formats.push_back(1);
  }
  int size() const { return static_cast<int>(types.size()); }

  std::vector<std::array<char, 8>> numbers;
  std::vector<Oid> types;
  std::vector<const char*> pointers;
  std::vector<int> lengths;
  std::vector<int> formats;
};

} // namespace

struct ServerConnection::Link {
  explicit Link(PGconn* opened) : connection(opened) {}
  Link(const Link&) = delete;
  Link& operator=(const Link&) = delete;
  ~Link() { library().end(connection); }

  struct Kept {
    const char* sql;
    bool prepared;
  };
  PGconn* connection;
  std::vector<Kept> used;
};

ServerConnection::ServerConnection(const std::string& address, std::chrono::milliseconds patience)
    : shown_(shown_address(address)) {
  const Library& pq = functions_found();
  if (!pq.ready())
    throw ArchiveFault(
        shown_ + ": the client library of PostgreSQL, libpq.so.5, is not installed",
        "install it (Debian: apt-get install libpq5), or give a file with --archive");
  const Options options(address, shown_);
  const bool here = stays_here(options);
  if (const std::string mode = options.said("sslmode");
      !here && !mode.empty() && mode != "verify-full")
    throw ArchiveFault(shown_ + ": sslmode=" + mode + " does not check the server's name",
                       "leave sslmode out, or say sslmode=verify-full");
  std::vector<const char*> names{"dbname", "application_name", "client_encoding", "keepalives_idle",
                                 "tcp_user_timeout"};
  std::vector<const char*> values{address.c_str(), "shankline", "UTF8", "10", "30000"};
  if (!here) {
    names.insert(names.end(), {"sslmode", "gssencmode"});
    values.insert(values.end(), {"verify-full", "disable"});
  }
  names.push_back(nullptr);
  values.push_back(nullptr);
  PGconn* const opened = pq.begin(names.data(), values.data(), 1);
  if (!opened) throw std::bad_alloc();
  link_ = std::make_unique<Link>(opened);
  pq.set_notices(
      opened, [](void*, const char*) {}, nullptr);

  const auto away = [&](const std::string& why) {
    if (const int error = why_no_handle())
      throw ArchiveFault(shown_ + ": the server cannot be reached: " + system_reason(error),
                         system_advice(error));
    throw ServerUnreachable(
        shown_ + ": the server cannot be reached: " + without_password(why, address), when_away);
  };
  const auto end = std::chrono::steady_clock::now() +
                   std::clamp<std::chrono::milliseconds>(patience, std::chrono::seconds(2),
                                                         std::chrono::seconds(10));
  PostgresPollingStatusType state = PGRES_POLLING_WRITING;
  if (pq.status(opened) == CONNECTION_BAD) away(in_one_line(pq.error(opened)));
  while (state != PGRES_POLLING_OK) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        end - std::chrono::steady_clock::now());
    pollfd waits{pq.socket(opened),
                 static_cast<short>(state == PGRES_POLLING_READING ? POLLIN : POLLOUT), 0};
    if (left.count() <= 0 || ::poll(&waits, 1, static_cast<int>(left.count())) == 0)
      away("it does not answer");
    state = pq.go_on(opened);
    if (state == PGRES_POLLING_FAILED) away(in_one_line(pq.error(opened)));
  }
  // Every search goes along an index, and its plan is kept: planning anew took longer than
  // searching. Since a kept plan does not know how few rows are wanted, it would read and sort
  // whole tables.
  run_script("SET enable_seqscan = off; SET enable_sort = off; SET enable_hashjoin = off; "
             "SET enable_mergejoin = off; SET jit = off; SET plan_cache_mode = force_generic_plan; "
             // Operators and functions are the server's own, whoever put others in the way.
             "SET search_path = pg_catalog, pg_temp; SET client_min_messages = error; "
             "SET statement_timeout = '120s'; SET standard_conforming_strings = on; "
             "SET default_transaction_isolation = 'read committed'; "
             "SET idle_in_transaction_session_timeout = '600s'; SET lock_timeout = " +
             std::to_string(std::max<std::int64_t>(patience.count(), 1)) +
             // The server may report a commit only when it is on its disk.
             "; SELECT pg_catalog.set_config('synchronous_commit', 'on', false) "
             "WHERE pg_catalog.current_setting('synchronous_commit') IN ('off', 'local')");
}

ServerConnection::~ServerConnection() = default;

void ServerConnection::fail(void* failed) {
  const Library& pq = library();
  PGresult* const result = static_cast<PGresult*>(failed);
  const char* const code = result ? pq.error_field(result, PG_DIAG_SQLSTATE) : nullptr;
  const char* const primary = result ? pq.error_field(result, PG_DIAG_MESSAGE_PRIMARY) : nullptr;
  const std::string state = code ? code : "";
  std::string said = in_one_line(primary ? primary : pq.error(link_->connection));
  const bool lost = pq.status(link_->connection) == CONNECTION_BAD;
  if (result) pq.clear(result);
  const auto is = [&state](std::string_view beginning) { return state.starts_with(beginning); };
  if (lost || is("08") || is("57P"))
    throw ServerUnreachable(shown_ + ": the connection broke: " + said, when_away);
  const auto refuse = [&](const std::string& what, const char* advice) {
    throw ServerRefused(shown_ + ": " + what, advice, state);
  };
  if (is("42P01") || is("3F000") || is("42883") || is("42703"))
    refuse("there is no archive in this database, or its tables are not those of this program: " +
               said,
           "let a keeper run shankline archive prepare with this address");
  if (is("42501"))
    refuse("you have too few rights for this: " + said,
           "let a keeper grant them: GRANT DATABASE_bench (or _keeper, _reader) TO your role");
  if (is("25006"))
    refuse("this server is a standby that can only be read",
           "give the address of the first server");
  if (is("55P03") || is("57014") || is("40"))
    refuse("another program is using this archive: " + said, "wait until it is done and try again");
  if (is("53100")) refuse("the server's disk is full", "let its keeper make room, and try again");
  if (is("53"))
    refuse("the server has no room for this now: " + said, "wait a moment and try again");
  if (is("22021") || is("22P05"))
    refuse("an entry holds bytes that are no text there: " + said, "look at the order");
  if (is("SL001") || is("SL003"))
    throw ArchiveDamaged(shown_ + ": is damaged: " + said,
                         "run shankline archive audit; let the keeper bring back a backup");
  if (is("58") || is("XX"))
    throw ArchiveDamaged(shown_ + ": the server reports damage: " + said,
                         "let its keeper look at the server's log; bring back a backup");
  refuse("the server refused: " + said, "let its keeper look at the server's log");
  std::abort(); // never reached
}

ServerRows ServerConnection::run(const char* sql, std::initializer_list<ServerValue> given) {
  const Library& pq = library();
  PGconn* const connection = link_->connection;
  const Values values(given);
  auto& used = link_->used;
  auto kept = std::find_if(used.begin(), used.end(),
                           [sql](const Link::Kept& row) { return row.sql == sql; });
  const bool again = kept != used.end();
  if (!again) kept = used.insert(used.end(), {sql, false});
  const std::string name = "s" + std::to_string(kept - used.begin());
  PGresult* result = nullptr;
  if (again && !kept->prepared) {
    result = pq.prepare(connection, name.c_str(), sql, values.size(), values.types.data());
    if (!result || pq.result_status(result) != PGRES_COMMAND_OK) fail(result);
    pq.clear(result);
    kept->prepared = true;
  }
  result = kept->prepared
               ? pq.run_prepared(connection, name.c_str(), values.size(), values.pointers.data(),
                                 values.lengths.data(), values.formats.data(), 1)
               : pq.run(connection, sql, values.size(), values.types.data(), values.pointers.data(),
                        values.lengths.data(), values.formats.data(), 1);
  const ExecStatusType status = result ? pq.result_status(result) : PGRES_FATAL_ERROR;
  if (status != PGRES_TUPLES_OK && status != PGRES_COMMAND_OK) fail(result);
  return ServerRows(std::shared_ptr<void>(
      result, [](void* done) { library().clear(static_cast<PGresult*>(done)); }));
}

void ServerConnection::run_script(const std::string& sql) {
  PGresult* const result = library().run_script(link_->connection, sql.c_str());
  const ExecStatusType status = result ? library().result_status(result) : PGRES_FATAL_ERROR;
  if (status != PGRES_TUPLES_OK && status != PGRES_COMMAND_OK) fail(result);
  library().clear(result);
}

void ServerConnection::roll_back() noexcept {
  PGresult* const result = library().run_script(link_->connection, "ROLLBACK");
  if (result) library().clear(result);
}

bool ServerConnection::in_transaction() const {
  const PGTransactionStatusType state = library().transaction(link_->connection);
  return state == PQTRANS_INTRANS || state == PQTRANS_INERROR;
}

int ServerConnection::server_version() const {
  return library().version(link_->connection);
}

int ServerRows::size() const {
  return library().rows(result_of(result_));
}

std::string ServerRows::text(int row, int column) const {
  return std::string(field(result_, row, column));
}

std::int64_t ServerRows::number(int row, int column) const {
  std::int64_t value = 0;
  bool first = true;
  for (const char c : field(result_, row, column)) {
    const auto byte = static_cast<unsigned char>(c);
    value = first && byte > 127 ? -1 : value;
    first = false;
    value = static_cast<std::int64_t>(static_cast<std::uint64_t>(value) << 8 | byte);
  }
  return value;
}

bool ServerRows::truth(int row, int column) const {
  return number(row, column) != 0;
}

ServerTransaction::ServerTransaction(ServerConnection& connection, For purpose)
    : connection_(connection), outer_(!connection.in_transaction()) {
  if (!outer_) return;
  // A program that stands still must not keep the others waiting for ever.
  connection_.run_script(purpose == For::reading
                             ? "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"
                             : "BEGIN ISOLATION LEVEL READ COMMITTED READ WRITE; "
                               "SET LOCAL idle_in_transaction_session_timeout = '60s'");
}

ServerTransaction::~ServerTransaction() {
  if (outer_ && !done_) connection_.roll_back();
}

void ServerTransaction::commit() {
  if (outer_) connection_.run_script("COMMIT");
  done_ = true;
}

} // namespace shankline
