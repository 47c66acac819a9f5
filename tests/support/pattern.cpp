#include "tests/support/pattern.hpp"

#include <regex>

namespace shankline::tests {

struct Pattern::Compiled {
  std::regex expression;
};

Pattern::Pattern(const char* expression)
    : compiled_(std::make_shared<const Compiled>(Compiled{std::regex(expression)})) {}

bool Pattern::is_in(const std::string& words) const {
  return std::regex_search(words, compiled_->expression);
}

std::vector<PatternMatch> Pattern::all_in(const std::string& words) const {
  std::vector<PatternMatch> all;
  for (std::sregex_iterator at(words.begin(), words.end(), compiled_->expression), end; at != end;
       ++at) {
    PatternMatch match;
    for (const auto& group : *at)
      match.groups.push_back(group.str());
    match.behind = at->suffix().str();
    all.push_back(std::move(match));
  }
  return all;
}

std::string Pattern::replace_first(const std::string& words, const char* instead) const {
  return std::regex_replace(words, compiled_->expression, instead,
                            std::regex_constants::format_first_only);
}

std::string Pattern::replace_all(const std::string& words, const char* instead) const {
  return std::regex_replace(words, compiled_->expression, instead);
}

} // namespace shankline::tests
