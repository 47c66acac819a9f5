#include "tests/support/case_file.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>
#include <utility>

namespace shankline::tests {
namespace {

constexpr std::string_view any_lines = "...";
constexpr std::string_view no_line_end = "\\ no line end";

/// Each with its line end, which the last may lack.
std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
    lines.push_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return lines;
}

std::string_view bare(std::string_view line) {
  return line.ends_with('\n') ? line.substr(0, line.size() - 1) : line;
}

std::string_view without_backslashes(std::string_view line) {
  return line.substr(std::min(line.find_first_not_of('\\'), line.size()));
}

bool escaped(std::string_view line, std::string_view start) {
  return line.starts_with('\\') && without_backslashes(line).starts_with(start);
}

void take_line_end(std::string& block) {
  if (const std::string tail = std::string(no_line_end) + "\n"; block.ends_with(tail)) {
    block.resize(block.size() - tail.size());
    if (block.ends_with('\n')) block.pop_back();
  }
}

class Parser {
public:
  explicit Parser(const std::string& name) : name_(name) {}

  CaseFile parse(std::string_view text) {
    for (const std::string_view line : lines_of(text)) {
      ++line_;
      if (line.starts_with("== ")) {
        end_block();
        heading(bare(line.substr(3)));
      } else if (block_ != nullptr) {
        *block_ += escaped(line, "==") ? line.substr(1) : line;
      } else if (headings_ == 0) {
        file_.head += line;
      } else {
        fail("text after a heading that takes none");
      }
    }
    end_block();
    if (file_.runs.empty()) fail("nothing is run");
    return std::move(file_);
  }

private:
  void heading(std::string_view words) {
    ++headings_;
    const std::size_t space = std::min(words.find(' '), words.size());
    const std::string_view word = words.substr(0, space);
    const std::string_view rest = words.substr(std::min(space + 1, words.size()));
    if (word == "file") {
      if (rest.empty()) fail("a file without a name");
      if (!file_.runs.empty()) fail("files stand before the first run");
      block_ = &file_.files.emplace_back(CaseInput{std::string(rest), {}}).text;
    } else if (word == "run") {
      if (rest.empty()) fail("a run without a command");
      CaseRun run;
      run.line = line_;
      run.command = rest;
      file_.runs.push_back(std::move(run));
      seen_.clear();
    } else if (word == "in" || word == "out" || word == "err" || word == "exit") {
      if (file_.runs.empty()) fail("'" + std::string(word) + "' before any run");
      if (std::ranges::find(seen_, word) != seen_.end())
        fail("a second '" + std::string(word) + "' for one run");
      seen_.emplace_back(word);
      CaseRun& run = file_.runs.back();
      if (word == "exit")
        run.exit_code = exit_code(rest);
      else if (!rest.empty())
        fail("'" + std::string(word) + "' stands alone in its line");
      else
        block_ = word == "in" ? &run.in : word == "out" ? &run.out : &run.err;
    } else {
      fail("unknown heading '" + std::string(word) + "': file, run, in, out, err, exit are known");
    }
  }

  int exit_code(std::string_view digits) const {
    int code = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), code);
    if (error != std::errc() || end != digits.data() + digits.size())
      fail("'" + std::string(digits) + "' is not an exit code");
    return code;
  }

  void end_block() {
    if (block_ != nullptr) take_line_end(*block_);
    block_ = nullptr;
  }

  [[noreturn]] void fail(const std::string& what) const {
    throw std::runtime_error(name_ + ":" + std::to_string(line_) + ": " + what);
  }

  const std::string& name_;
  int line_ = 0;
  int headings_ = 0;
  std::string* block_ = nullptr;
  std::vector<std::string> seen_; ///< blocks of the current run
  CaseFile file_;
};

void write_block(std::string& into, const std::string& heading, std::string_view text) {
  if (text.empty()) return;
  into += "== " + heading + "\n";
  for (const std::string_view line : lines_of(text)) {
    if (without_backslashes(line).starts_with("==")) into += '\\';
    into += line;
  }
  if (!text.ends_with('\n')) into.append("\n").append(no_line_end).append("\n");
}

bool is_any(std::string_view expected_line) {
  return bare(expected_line) == any_lines;
}

bool same(std::string_view expected_line, std::string_view said_line) {
  if (escaped(expected_line, any_lines) && bare(without_backslashes(expected_line)) == any_lines)
    expected_line.remove_prefix(1);
  return expected_line == said_line;
}

} // namespace

CaseFile parse_case(std::string_view text, const std::string& name) {
  return Parser(name).parse(text);
}

std::string written_case(const CaseFile& file) {
  std::string text = file.head;
  for (const CaseInput& input : file.files) {
    if (input.text.empty())
      text += "== file " + input.name + "\n";
    else
      write_block(text, "file " + input.name, input.text);
  }
  for (const CaseRun& run : file.runs) {
    text += "== run " + run.command + "\n";
    write_block(text, "in", run.in);
    write_block(text, "out", run.out);
    write_block(text, "err", run.err);
    if (run.exit_code != 0) text += "== exit " + std::to_string(run.exit_code) + "\n";
  }
  return text;
}

std::string expected_block(std::string_view said) {
  std::string block;
  for (const std::string_view line : lines_of(said)) {
    if (bare(without_backslashes(line)) == any_lines) block += '\\';
    block += line;
  }
  return block;
}

bool fits(std::string_view expected, std::string_view said) {
  const std::vector<std::string_view> pattern = lines_of(expected);
  const std::vector<std::string_view> lines = lines_of(said);
  // reached[j]: the pattern so far stands for the first j lines.
  std::vector<bool> reached(lines.size() + 1, false);
  reached[0] = true;
  for (const std::string_view wanted : pattern) {
    if (is_any(wanted)) {
      for (std::size_t j = 1; j <= lines.size(); ++j)
        reached[j] = reached[j] || reached[j - 1];
    } else {
      for (std::size_t j = lines.size(); j > 0; --j)
        reached[j] = reached[j - 1] && same(wanted, lines[j - 1]);
      reached[0] = false;
    }
  }
  return reached[lines.size()];
}

std::string difference(std::string_view expected, std::string_view said) {
  const std::vector<std::string_view> left = lines_of(expected);
  const std::vector<std::string_view> right = lines_of(said);
  // Length of the longest common part of what is left of both.
  std::vector<std::vector<std::size_t>> common(left.size() + 1,
                                               std::vector<std::size_t>(right.size() + 1, 0));
  for (std::size_t i = left.size(); i-- > 0;)
    for (std::size_t j = right.size(); j-- > 0;)
      common[i][j] = same(left[i], right[j]) ? common[i + 1][j + 1] + 1
                                             : std::max(common[i + 1][j], common[i][j + 1]);
  std::string text;
  const auto add = [&text](char sign, std::string_view line) {
    text += sign;
    text += ' ';
    text += line;
    if (!line.ends_with('\n')) text.append("\n").append(no_line_end).append("\n");
  };
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < left.size() || j < right.size()) {
    if (i < left.size() && j < right.size() && same(left[i], right[j])) {
      add(' ', right[j++]);
      ++i;
    } else if (j == right.size() || (i < left.size() && common[i + 1][j] >= common[i][j + 1])) {
      add(is_any(left[i]) ? ' ' : '-', left[i]);
      ++i;
    } else {
      add('+', right[j++]);
    }
  }
  return text;
}

std::vector<std::filesystem::path> case_paths(const std::filesystem::path& directory) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(directory))
    if (entry.path().extension() == ".case") paths.push_back(entry.path());
  std::ranges::sort(paths);
  return paths;
}

} // namespace shankline::tests
