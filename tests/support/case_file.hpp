// A golden command-line case: one file holds input files, commands and what they must say.
//
//   # What the case is for. Everything before the first heading is kept as it stands.
//   == file order.yaml
//   format: shankline-order/1
//   == run shankline check order.yaml
//   == out
//   == err
//   order.yaml:1:1: ...
//   == exit 1
//
// - Files are written into an empty directory, where the commands then run one after another with
//   `sh -c`. A block that is left out is empty; an exit code that is left out is 0. `== in` after
//   `== run` is the command's stdin.
// - A block is the lines up to the next heading, each with its line end. A last line of
//   `\ no line end` takes the last line end away. A line that begins with `\==` stands for itself
//   without the backslash.
// - In an expected block a line of only `...` stands for any number of lines, none included, and
//   `\...` for a line of three dots.
// - `@SAMPLES@` in a command or a file stands for the directory of samples, and that directory is
//   written `@SAMPLES@` again in what the command said.
//
// With SHANKLINE_ACCEPT=1 in the environment the cases' test rewrites the expected blocks that do
// not fit; read the difference before keeping it.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace shankline::tests {

struct CaseRun {
  int line = 0; ///< of the `== run` heading
  std::string command;
  std::string in;
  std::string out;
  std::string err;
  int exit_code = 0;
};

struct CaseInput {
  std::string name;
  std::string text;
};

struct CaseFile {
  std::string head;
  std::vector<CaseInput> files;
  std::vector<CaseRun> runs;
};

/// Texts keep `...` lines as they were written. Throws std::runtime_error naming `name` and the
/// line for anything that is not a case: an unknown or misplaced heading, a second block of a kind,
/// no run.
CaseFile parse_case(std::string_view text, const std::string& name);

/// The text that parse_case reads back as the same case; without empty blocks.
std::string written_case(const CaseFile& file);

/// A program's own words as an expected block that stands for exactly them.
std::string expected_block(std::string_view said);

/// Returns true if `said` is what the expected block stands for.
bool fits(std::string_view expected, std::string_view said);

/// Both texts line by line, `-` expected and `+` said, for a person to read.
std::string difference(std::string_view expected, std::string_view said);

/// The files *.case of a directory, sorted by name.
std::vector<std::filesystem::path> case_paths(const std::filesystem::path& directory);

} // namespace shankline::tests
