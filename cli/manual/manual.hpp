// The command line described as plain data: what help, man page and completions are made of.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct ManualOption {
  std::vector<std::string> names; ///< "-o", "--output"; empty for a positional
  std::string value;              ///< "FILE"; empty for a flag
  std::string words;              ///< what it does
  std::vector<std::string> choices;
  std::vector<std::string> offers; ///< words to complete where there may be others, too
  std::string limits;              ///< "0 to 400"; empty for none
  std::string default_word;        ///< empty for none
  bool required = false;
  bool repeats = false; ///< several may follow one another

  bool is_positional() const { return names.empty(); }
  bool is_flag() const { return value.empty(); }
  /// Values that are files; others are words and figures.
  bool is_file() const;
  /// Those that are orders, or written like one.
  bool is_order() const;
};

struct ManualVerb {
  std::string name;
  std::string summary;
  std::string example;               ///< lines, each indented by two
  std::vector<ManualOption> options; ///< positionals among them, in their order
  std::vector<ManualVerb> actions;   ///< of a verb that has several, each like a verb of its own
};

struct ManualExit {
  int code;
  std::string words;
};

struct Manual {
  std::string program;
  std::string version;
  std::string released; ///< the version's day
  std::string about;
  std::vector<ManualOption> options; ///< those of no verb
  std::vector<ManualVerb> verbs;
};

/// All exit codes, by rising number.
const std::vector<ManualExit>& manual_exits();

/// shankline(1) for man, in the man macros; ASCII only.
std::string man_page(const Manual& manual);

/// shankline-order(5): the order file, key by key, from the reading guide and the words of the
/// other keys.
std::string order_page(const Manual& manual);

std::string bash_completion(const Manual& manual);
std::string zsh_completion(const Manual& manual);
std::string fish_completion(const Manual& manual);

/// A key of an order that holds words, and what it means, in a sentence or two.
struct KeyInWords {
  std::string_view key;
  std::string_view words;
};
/// Keys that the reading guide has no row for. A word may occur twice, in two sections.
std::vector<KeyInWords> order_keys_in_words();

} // namespace shankline
