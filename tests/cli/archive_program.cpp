#include "tests/cli/archive_program.hpp"

#include <unistd.h>

namespace shankline::tests {
namespace {

namespace fs = std::filesystem;

constexpr const char* nobody = "65534";

/// Root may write whatever the rights say: it becomes somebody else first.
std::vector<std::string> as_nobody() {
  if (getuid() != 0) return {};
  return {"setpriv", std::string("--reuid=") + nobody, std::string("--regid=") + nobody,
          "--clear-groups"};
}

std::vector<std::string> on_closed_mount(const std::string& folder) {
  std::vector<std::string> words{"unshare", "-m"};
  if (getuid() != 0) words.insert(words.end(), {"-r"});
  words.insert(words.end(),
               {"sh", "-c",
                "mount --bind \"$0\" \"$0\" && mount -o remount,ro,bind \"$0\" && exec \"$@\"",
                folder});
  return words;
}

} // namespace

std::string name_of(Closed closed) {
  switch (closed) {
  case Closed::mount:
    return "mount";
  case Closed::both:
    return "file and folder";
  case Closed::file:
    return "file";
  case Closed::folder:
    return "folder";
  }
  return {};
}

ArchiveProgram::ArchiveProgram() {
  fs::permissions(scratch.path(), fs::perms::all);
  fs::create_directory(open);
  fs::permissions(open, fs::perms::all);
}

Surroundings ArchiveProgram::surroundings() const {
  Surroundings there;
  there.directory = scratch.path();
  there.environment = {{"XDG_DATA_HOME", (scratch.path() / "data").string()},
                       {"XDG_CONFIG_HOME", (scratch.path() / "config").string()},
                       {"SOURCE_DATE_EPOCH", "1773480413"}};
  return there;
}

Finished ArchiveProgram::run(std::vector<std::string> words) const {
  words.insert(words.begin(), places::program);
  return tests::run(words, surroundings());
}

Finished ArchiveProgram::archive(std::vector<std::string> words) const {
  words.insert(words.begin(), "archive");
  return run(std::move(words));
}

void ArchiveProgram::close(Closed closed, const std::vector<std::string>& ends) {
  if (fs::exists(folder)) fs::permissions(folder, fs::perms::all);
  fs::remove_all(folder);
  fs::create_directory(folder);
  const bool file = closed == Closed::file || closed == Closed::both;
  for (const std::string& end : ends) {
    fs::copy_file(path.string() + end, copy.string() + end);
    fs::permissions(copy.string() + end, static_cast<fs::perms>(file ? 0444 : 0666));
  }
  const bool within = closed == Closed::folder || closed == Closed::both;
  fs::permissions(folder, static_cast<fs::perms>(within ? 0555 : 0777));
}

Finished ArchiveProgram::closed(Closed closed, std::vector<std::string> words) const {
  std::vector<std::string> all =
      closed == Closed::mount ? on_closed_mount(folder.string()) : as_nobody();
  all.insert(all.end(), {places::program, "archive"});
  all.insert(all.end(), words.begin(), words.end());
  all.insert(all.end(), {"--archive", copy.string()});
  return tests::run(all, surroundings());
}

std::string ArchiveProgram::cannot_close(Closed closed) const {
  std::vector<std::string> all =
      closed == Closed::mount ? on_closed_mount(scratch.path().string()) : as_nobody();
  all.insert(all.end(), {places::program, "--version"});
  const Finished tried = tests::run(all, surroundings());
  if (tried.exit_code == 0) return {};
  return (closed == Closed::mount ? "no read-only mount can be made here: "
                                  : "the program cannot be run as another user here: ") +
         tried.err;
}

std::set<std::string> ArchiveProgram::files(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder))
    names.insert(entry.path().filename().string());
  return names;
}

} // namespace shankline::tests
