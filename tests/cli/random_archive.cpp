#include "tests/cli/random_archive.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/archive_schema.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <memory>
#include <random>
#include <sqlite3.h>
#include <stdexcept>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace shankline::tests {
namespace {

class OpenFile {
public:
  explicit OpenFile(const std::filesystem::path& path) {
    check(sqlite3_open(path.c_str(), &handle_));
  }
  ~OpenFile() { sqlite3_close(handle_); }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  void run(const std::string& sql) {
    check(sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr));
  }
  void insert(const std::string& sql, const std::vector<std::string>& values) {
    sqlite3_stmt* statement = nullptr;
    check(sqlite3_prepare_v2(handle_, sql.c_str(), -1, &statement, nullptr));
    for (std::size_t i = 0; i < values.size(); ++i)
      check(sqlite3_bind_text(statement, static_cast<int>(i) + 1, values[i].data(),
                              static_cast<int>(values[i].size()), SQLITE_TRANSIENT));
    const int code = sqlite3_step(statement);
    sqlite3_finalize(statement);
    if (code != SQLITE_DONE) check(code);
  }
  std::string first(const std::string& sql) {
    std::string text;
    check(sqlite3_exec(
        handle_, sql.c_str(),
        [](void* into, int, char** values, char**) {
          *static_cast<std::string*>(into) = values[0] ? values[0] : "";
          return 1;
        },
        &text, nullptr));
    return text;
  }

private:
  void check(int code) {
    if (code != SQLITE_OK && code != SQLITE_ABORT)
      throw std::runtime_error(sqlite3_errmsg(handle_));
    if (code == SQLITE_ABORT && std::string(sqlite3_errmsg(handle_)).find("abort") != 6)
      return; // the callback has seen enough
  }
  sqlite3* handle_ = nullptr;
};

std::string padded(int n) {
  std::string digits = std::to_string(n);
  return std::string(digits.size() < 2 ? 1 : 0, '0') + digits;
}

std::string noise(std::uint64_t seed, std::size_t bytes) {
  std::mt19937_64 draw(seed);
  std::string text(bytes, '\0');
  for (char& c : text)
    c = static_cast<char>(draw() & 0xff);
  return text;
}

} // namespace

ArchiveEntry random_cut(const std::string& dancer, int n, std::size_t bytes) {
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.kind = EntryKind::cut;
  head.saved = "2026-03-" + padded(1 + n % 28) + "T09:26:53Z";
  head.program = "0.1.0";
  head.dancer = dancer;
  head.pair = "touring, pair " + std::to_string(n);
  head.date = head.saved.substr(0, 10);
  head.alterations = n % 3 == 0 ? "shank, sides" : "shank";
  head.summary = "left " + std::to_string(50 + n % 17) + ".5 off, right 61 off";
  const std::uint64_t seed = std::hash<std::string>{}(dancer) + static_cast<std::uint64_t>(n);
  entry.body.order = "format: shankline-order/1\ndancer: " + dancer + "\npair: touring, pair " +
                     std::to_string(n) + "\nnote: belongs to " + dancer + " alone\n";
  entry.body.options = R"({"paper":"a4","units":"mm"})";
  entry.body.solution = R"({"format":"shankline-solution/1","dancer":")" + dancer + "\"}\n";
  entry.body.drawing = noise(seed, bytes);
  entry.body.sheets = std::string(64, static_cast<char>('a' + n % 6));
  return entry;
}

ArchiveEntry random_note(const EntryHead& cut, int n) {
  ArchiveEntry entry;
  entry.head.kind = EntryKind::note;
  entry.head.saved = "2026-04-" + padded(1 + n % 28) + "T18:00:00Z";
  entry.head.program = "0.1.0";
  entry.head.dancer = cut.dancer;
  entry.head.about = cut.digest;
  entry.head.outcome = R"({"seen":"low","gap":2,"hours":)" + std::to_string(n) + "}";
  return entry;
}

std::vector<EntryHead> fill(ArchiveStore& store) {
  std::vector<EntryHead> saved;
  for (int n = 1; n <= 3; ++n)
    for (const char* dancer : {"M-07", "dancer K-12", "Żaneta O-21"}) {
      saved.push_back(store.add(random_cut(dancer, n)));
      if (n == 2) saved.push_back(store.add(random_note(saved.back(), n)));
    }
  return saved;
}

void write_version_1(const std::filesystem::path& path, const std::vector<ArchiveEntry>& entries) {
  OpenFile file(path);
  file.run("PRAGMA journal_mode = WAL; PRAGMA synchronous = OFF; BEGIN");
  file.run(archive_steps[0]);
  ChainEnd end{0, chain_start()};
  for (ArchiveEntry entry : entries) {
    EntryHead& h = entry.head;
    h.salt = std::string(32, 'e');
    seal(entry);
    const EntryBody& b = entry.body;
    const std::string id = std::to_string(++end.id);
    file.insert("INSERT INTO entries(id, kind, saved, program, salt, dancer, pair, date, "
                "alterations, about, summary, outcome, body, before, digest) "
                "VALUES(CAST(? AS INTEGER),?,?,?,?,?,?,?,?,?,?,?,?,?,?)",
                {id, std::string(kind_name(h.kind)), h.saved, h.program, h.salt, h.dancer, h.pair,
                 h.date, h.alterations, h.about, h.summary, h.outcome, h.body, end.hash, h.digest});
    if (h.kind == EntryKind::cut)
      file.insert("INSERT INTO bodies VALUES(CAST(? AS INTEGER),?,?,?,CAST(? AS BLOB),?)",
                  {id, b.order, b.options, b.solution, b.drawing, b.sheets});
    end.hash = chain_hash(end.hash, h.digest);
  }
  file.insert("UPDATE head SET id = CAST(? AS INTEGER), hash = ?",
              {std::to_string(end.id), end.hash});
  file.run("PRAGMA application_id = " + std::to_string(archive_application) +
           "; PRAGMA user_version = 1; COMMIT");
}

void tamper(const std::filesystem::path& path, const std::string& sql) {
  OpenFile(path).run(sql);
}

std::string ask(const std::filesystem::path& path, const std::string& sql) {
  return OpenFile(path).first(sql);
}

int in_child(const std::function<int()>& work) {
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process can be made");
  if (child == 0) {
    int code = 99;
    try {
      code = work();
    } catch (...) {
    }
    _exit(code);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

int done_before_killed(const std::function<void(const std::function<void(int)>&)>& work,
                       int wait_for, double milliseconds) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("no pipe can be made");
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process can be made");
  if (child == 0) {
    close(ends[0]);
    const int out = ends[1];
    try {
      work([out](int done) {
        if (write(out, &done, sizeof done) != sizeof done) _exit(98);
      });
    } catch (...) {
      _exit(99);
    }
    _exit(0);
  }
  close(ends[1]);
  int last = 0;
  const auto hear = [&] {
    int done = 0;
    if (read(ends[0], &done, sizeof done) != sizeof done) return false;
    last = done;
    return true;
  };
  while (last < wait_for && hear()) {
  }
  std::this_thread::sleep_for(std::chrono::duration<double, std::milli>(milliseconds));
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  while (hear()) {
  }
  close(ends[0]);
  if (WIFEXITED(status) && WEXITSTATUS(status) != 0)
    throw std::runtime_error("the process to be killed failed by itself");
  return last;
}

Contents contents_of(ArchiveStore& store, const std::vector<std::string>& dancers) {
  Contents contents;
  contents.all = store.older(newest, 1000);
  for (const EntryHead& head : contents.all)
    if (head.kind == EntryKind::cut) contents.bodies.push_back(store.body(head));
  for (const std::string& dancer : dancers)
    contents.of_dancers.push_back(store.older_of(dancer, newest, 1000));
  return contents;
}

bool same(const EntryHead& a, const EntryHead& b) {
  return a.id == b.id && a.turn == b.turn && a.before == b.before && a.digest == b.digest &&
         head_digest(a) == head_digest(b);
}

bool same(const Contents& a, const Contents& b) {
  const auto heads = [](const auto& x, const auto& y) {
    return std::equal(x.begin(), x.end(), y.begin(), y.end(),
                      [](const EntryHead& p, const EntryHead& q) { return same(p, q); });
  };
  return heads(a.all, b.all) && a.bodies == b.bodies &&
         std::equal(a.of_dancers.begin(), a.of_dancers.end(), b.of_dancers.begin(),
                    b.of_dancers.end(), heads);
}

} // namespace shankline::tests
