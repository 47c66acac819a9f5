// Looks for regular expressions in what the program says. Only pattern.cpp sees <regex>, which
// takes four seconds to compile wherever it is used.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace shankline::tests {

struct PatternMatch {
  std::vector<std::string> groups; ///< the whole match, then what stands in its brackets
  std::string behind;              ///< all that follows the match
};

/// A regular expression in ECMAScript's grammar. Copies share what was compiled.
class Pattern {
public:
  /// Throws std::regex_error for an expression that is none.
  explicit Pattern(const char* expression);

  bool is_in(const std::string& words) const;
  /// Returns the matches one after the other; none overlaps the one before.
  std::vector<PatternMatch> all_in(const std::string& words) const;
  /// Returns the words with the first match, or with every match, replaced. `$1` in `instead` is
  /// what stood in the first brackets.
  std::string replace_first(const std::string& words, const char* instead) const;
  std::string replace_all(const std::string& words, const char* instead) const;

private:
  struct Compiled;
  std::shared_ptr<const Compiled> compiled_;
};

} // namespace shankline::tests
