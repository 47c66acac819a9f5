#include "cli/archive/server_prepare.hpp"

#include "cli/archive/server_connection.hpp"
#include "cli/archive/server_schema.hpp"

#include <string_view>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t longest_name = 63; // bytes, of a role

std::string quoted(const std::string& text, char mark) {
  std::string all(1, mark);
  for (const char c : text)
    all += c == mark ? std::string(2, mark) : std::string(1, c);
  return all + mark;
}

std::string as_text(const std::string& text) {
  return "E" + quoted(text, '\'');
}

void replace_all(std::string& text, std::string_view from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

class Preparation {
public:
  Preparation(const std::string& address, std::chrono::milliseconds patience)
      : link_(address, patience) {}

  Prepared run() && {
    require_server();
    ServerTransaction change(link_, ServerTransaction::For::writing);
    // If two keepers prepare at once, the second finds all done.
    link_.run("SELECT pg_advisory_xact_lock(1936224875)::text");
    const std::string database = link_.run("SELECT current_database()::text").text(0, 0);
    const int version = version_of_tables();
    std::string root = database;
    if (version > 0) root = link_.run("SELECT roles FROM shankline.archive").text(0, 0);
    if (version > server_tables)
      throw ArchiveFault(link_.address() + ": has tables of version " + std::to_string(version) +
                             ", and this program knows none after version " +
                             std::to_string(server_tables),
                         "bring the program up to date");
    if (version == 0) require_empty();
    prepared_.keeper = root + "_keeper";
    prepared_.bench = root + "_bench";
    prepared_.reader = root + "_reader";
    if (prepared_.keeper.size() > longest_name || root.find('\\') != std::string::npos)
      throw ArchiveFault(link_.address() + ": the database's name cannot be part of a role's",
                         "take a name of at most 56 letters, such as shankline");
    make_role(prepared_.keeper, "append, read, forget, move and prepare");
    make_role(prepared_.bench, "append and read");
    make_role(prepared_.reader, "read");
    if (version < server_tables) bring_up_to_date(version, database, root);
    change.commit();
    return std::move(prepared_);
  }

private:
  void require_server() {
    if (link_.server_version() < 150000)
      throw ArchiveFault(link_.address() + ": the server is older than PostgreSQL 15",
                         "bring the server up to date");
    if (link_.run("SELECT current_setting('server_encoding')").text(0, 0) != "UTF8")
      throw ArchiveFault(link_.address() + ": the database is not in UTF-8",
                         "make another one: createdb --encoding=UTF8 --template=template0 NAME");
    if (link_.run("SELECT pg_is_in_recovery()").truth(0, 0))
      throw ArchiveFault(link_.address() + ": this server is a standby that can only be read",
                         "give the address of the first server");
  }

  /// Returns 0 if there are none.
  int version_of_tables() {
    if (!link_.run("SELECT EXISTS (SELECT FROM pg_namespace WHERE nspname = 'shankline')")
             .truth(0, 0))
      return 0;
    if (!link_
             .run("SELECT to_regclass('shankline.archive') IS NOT NULL AND EXISTS "
                  "(SELECT FROM pg_attribute WHERE attrelid = to_regclass('shankline.archive') "
                  "AND attname = 'version')")
             .truth(0, 0))
      refuse_foreign("it has a schema shankline that this program did not make");
    const ServerRows rows = link_.run("SELECT version FROM shankline.archive");
    if (rows.size() != 1 || rows.number(0, 0) < 1)
      refuse_foreign("the version of its tables is missing");
    return static_cast<int>(rows.number(0, 0));
  }

  void require_empty() {
    const ServerRows rows =
        link_.run("SELECT n.nspname || '.' || c.relname FROM pg_class c "
                  "JOIN pg_namespace n ON n.oid = c.relnamespace "
                  "WHERE n.nspname NOT LIKE 'pg\\_%' AND n.nspname <> 'information_schema' "
                  "AND c.relkind IN ('r', 'p', 'v', 'm', 'f') ORDER BY 1 LIMIT 1");
    if (rows.size() > 0) refuse_foreign("it holds the table " + rows.text(0, 0));
  }

  [[noreturn]] void refuse_foreign(const std::string& why) {
    throw ArchiveFault(link_.address() + ": this database is not empty: " + why,
                       "make an empty one for the archive: createdb NAME");
  }

  void make_role(const std::string& name, const char* rights) {
    const ServerRows found =
        link_.run("SELECT rolsuper OR rolcanlogin OR rolcreaterole OR rolbypassrls "
                  "FROM pg_roles WHERE rolname = $1::text",
                  {name});
    if (found.size() == 1) {
      if (found.truth(0, 0))
        throw ArchiveFault(link_.address() + ": there is a role " + name +
                               " already, which can log in or has great rights",
                           "rename it, or take another name for the database");
      return;
    }
    link_.run_script("CREATE ROLE " + as_identifier(name) + " NOLOGIN");
    prepared_.done.push_back("made the role " + name + ": " + rights);
  }

  void bring_up_to_date(int from, const std::string& database, const std::string& root) {
    const std::string keeper = as_identifier(prepared_.keeper);
    const std::string bench = as_identifier(prepared_.bench);
    const std::string reader = as_identifier(prepared_.reader);
    if (from == 0) {
      // A role that is no superuser gives an object only to a role of which it is a member.
      const char* const asked = link_.server_version() < 160000
                                    ? "SELECT pg_has_role(current_user, $1::name, 'MEMBER')"
                                    : "SELECT pg_has_role(current_user, $1::name, 'SET')";
      if (!link_.run(asked, {prepared_.keeper}).truth(0, 0)) {
        const std::string user = link_.run("SELECT current_user::text").text(0, 0);
        link_.run_script("GRANT " + keeper + " TO " + as_identifier(user));
        prepared_.done.push_back("made " + user + " a member of " + prepared_.keeper);
      }
      const std::string base = as_identifier(database);
      link_.run_script("REVOKE ALL ON DATABASE " + base +
                       " FROM PUBLIC; GRANT CONNECT ON DATABASE " + base + " TO " + keeper + ", " +
                       bench + ", " + reader + "; CREATE SCHEMA shankline AUTHORIZATION " + keeper);
      prepared_.done.push_back("only these roles may connect to the database " + database + " now");
    }
    link_.run_script("SET LOCAL ROLE " + keeper);
    if (from == 0)
      link_.run_script("CREATE TABLE shankline.archive(one integer PRIMARY KEY CHECK (one = 1), "
                       "version bigint NOT NULL, roles text NOT NULL); "
                       "INSERT INTO shankline.archive VALUES(1, 0, " +
                       as_text(root) + ")");
    for (int version = from; version < server_tables; ++version) {
      std::string step = server_steps[static_cast<std::size_t>(version)];
      replace_all(step, "{keeper}", keeper);
      replace_all(step, "{bench}", bench);
      replace_all(step, "{reader}", reader);
      replace_all(step, "'keeper'", as_text(prepared_.keeper));
      link_.run_script(step);
    }
    link_.run_script("UPDATE shankline.archive SET version = " + std::to_string(server_tables) +
                     "; RESET ROLE");
    prepared_.done.push_back(from == 0 ? "made the tables and functions of version " +
                                             std::to_string(server_tables)
                                       : "brought the tables from version " + std::to_string(from) +
                                             " to version " + std::to_string(server_tables));
  }

  ServerConnection link_;
  Prepared prepared_;
};

} // namespace

std::string as_identifier(const std::string& name) {
  return quoted(name, '"');
}

Prepared prepare_server(const std::string& address, std::chrono::milliseconds patience) {
  return Preparation(address, patience).run();
}

} // namespace shankline
