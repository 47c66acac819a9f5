// Runs the archive's verbs as a user would: as oneself, as somebody without rights, or where the
// archive's folder may only be read.
#pragma once

#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace shankline::tests {

/// How the archive's folder is closed to those who write.
enum class Closed {
  mount,  ///< mounted read-only
  both,   ///< neither the file nor its folder may be written
  file,   ///< the file may not be written
  folder, ///< nothing may be made in the folder
};
std::string name_of(Closed closed);

class ArchiveProgram : public testing::Test {
protected:
  ArchiveProgram();

  Finished run(std::vector<std::string> words) const;
  Finished archive(std::vector<std::string> words) const;

  /// Puts a copy of the archive, and of the files beside it that `ends` names, into `folder`,
  /// closed that way to everybody but root. What is in the folder `open` may be written.
  void close(Closed closed, const std::vector<std::string>& ends = {""});
  /// Runs `shankline archive` on that copy as somebody whom its rights stop.
  Finished closed(Closed closed, std::vector<std::string> words) const;
  /// Why this machine cannot show such a folder; empty where it can.
  std::string cannot_close(Closed closed) const;

  /// The names of the files in a folder.
  static std::set<std::string> files(const std::filesystem::path& folder);

  ScratchDirectory scratch;
  const std::filesystem::path path = scratch.path() / "data" / "shankline" / "archive.sqlite";
  const std::filesystem::path folder = scratch.path() / "closed";
  const std::filesystem::path copy = folder / "archive.sqlite";
  const std::filesystem::path open = scratch.path() / "open";
  const std::string plain = places::samples + "/plain.yaml";

private:
  Surroundings surroundings() const;
};

} // namespace shankline::tests
