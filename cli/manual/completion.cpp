// Writes the completion scripts for bash, zsh and fish from the manual's description of the command
// line.
#include "cli/manual/manual.hpp"
#include "cli/text/word_list.hpp"

#include <algorithm>
#include <string_view>

namespace shankline {
namespace {

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

/// Quotes words with single quotes, for bash and zsh.
std::string quoted(const std::string& words) {
  return "'" + replaced(words, "'", "'\\''") + "'";
}

std::string option_names(const std::vector<ManualOption>& options) {
  std::vector<std::string> names;
  for (const ManualOption& option : options)
    names.insert(names.end(), option.names.begin(), option.names.end());
  return joined(names, " ");
}

std::string verb_names(const std::vector<ManualVerb>& verbs) {
  std::vector<std::string> names;
  for (const ManualVerb& verb : verbs)
    names.push_back(verb.name);
  return joined(names, " ");
}

/// The values that can be completed; empty if they cannot be listed.
const std::vector<std::string>& known_values(const ManualOption& option) {
  return option.choices.empty() ? option.offers : option.choices;
}

/// Returns null if the verb has no positional.
const ManualOption* positional_of(const ManualVerb& verb) {
  const auto found =
      std::find_if(verb.options.begin(), verb.options.end(),
                   [](const ManualOption& option) { return option.is_positional(); });
  return found == verb.options.end() ? nullptr : &*found;
}

/// A pattern of `case` that matches every name of the option: "-o|--output".
std::string case_pattern(const ManualOption& option) {
  return joined(option.names, "|");
}

// ---- bash ----

constexpr const char* bash_begin = R"(# bash completion for shankline
_shankline_files() {
  compopt -o filenames 2>/dev/null
  local IFS=$'\n'
  COMPREPLY=($(compgen -f -- "$1"))
}

_shankline_orders() {
  compopt -o filenames 2>/dev/null
  local IFS=$'\n'
  COMPREPLY=($(compgen -f -X '!*.yaml' -- "$1") $(compgen -f -X '!*.yml' -- "$1")
    $(compgen -f -X '!*.json' -- "$1") $(compgen -d -- "$1"))
}

_shankline() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} verb= i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    case $verb:${COMP_WORDS[i]} in
      *:-*) ;;
      :*) verb=${COMP_WORDS[i]} ;;
      @VERBS@) verb+=" ${COMP_WORDS[i]}"; break ;;
      *) break ;;
    esac
  done
  case $verb in
)";

/// The code that offers these words.
std::string bash_words(const std::string& words) {
  return "COMPREPLY=($(compgen -W " + quoted(words) + " -- \"$word\"))";
}

/// The code that completes the value of an option or a positional.
std::string bash_value(const ManualOption& option) {
  if (const auto& words = known_values(option); !words.empty())
    return bash_words(joined(words, " "));
  return option.is_file() ? "_shankline_files \"$word\"" : "COMPREPLY=()";
}

/// The code that completes a word that is not an option: an action or a positional.
std::string bash_positional(const ManualVerb& verb) {
  if (!verb.actions.empty()) return bash_words(verb_names(verb.actions));
  const ManualOption* positional = positional_of(verb);
  if (!positional) return "COMPREPLY=()";
  return positional->is_order() ? "_shankline_orders \"$word\"" : bash_value(*positional);
}

/// The branch for a verb and those for its actions. `name` is what the user types to get there: the
/// verb, "archive", or the verb and an action, "archive list".
std::string bash_verb(const std::string& name, const ManualVerb& verb) {
  std::string text = "    '" + name + "')\n      case $before in\n";
  for (const ManualOption& option : verb.options)
    if (!option.is_positional() && !option.is_flag())
      text += "        " + case_pattern(option) + ") " + bash_value(option) + "; return ;;\n";
  text += "      esac\n      case $word in\n        -*) " + bash_words(option_names(verb.options)) +
          " ;;\n        *) " + bash_positional(verb) + " ;;\n      esac ;;\n";
  for (const ManualVerb& action : verb.actions)
    text += bash_verb(name + " " + action.name, action);
  return text;
}

// ---- zsh ----

/// Escapes text for a specification of zsh's _arguments.
std::string zsh_escaped(const std::string& words) {
  std::string text;
  for (const char c : words) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') text += '\\';
    text += c;
  }
  return text;
}

/// How zsh completes the value: the part of a specification that zsh calls its action. A space
/// means that there is a value, but nothing to offer for it.
std::string zsh_value(const ManualOption& option) {
  if (const auto& words = known_values(option); !words.empty())
    return "(" + joined(words, " ") + ")";
  if (option.is_positional() && option.is_order()) return "_files -g \"*.(yaml|yml|json)(-.)\"";
  return option.is_file() ? "_files" : " ";
}

/// One specification of _arguments. `place` is the number of a positional, from 1; options ignore
/// it.
std::string zsh_spec(const ManualOption& option, int place) {
  const std::string value = ":" + zsh_escaped(option.value) + ":" + zsh_value(option);
  if (option.is_positional()) return quoted((option.repeats ? "*" : std::to_string(place)) + value);
  const std::string rest =
      quoted("[" + zsh_escaped(option.words) + "]" + (option.is_flag() ? "" : value));
  if (option.names.size() == 1) return option.names.front() + rest;
  return "'(" + joined(option.names, " ") + ")'{" + joined(option.names, ",") + "}" + rest;
}

std::string zsh_arguments(const ManualVerb& verb) {
  std::string text = "_arguments -C";
  int place = 0;
  for (const ManualOption& option : verb.options) {
    if (option.is_positional()) ++place;
    text += " \\\n        " + zsh_spec(option, place);
  }
  return text;
}

/// One line "name:summary" for each verb.
std::string zsh_names(const std::vector<ManualVerb>& verbs) {
  std::string text;
  for (const ManualVerb& verb : verbs)
    text += "      " + quoted(verb.name + ":" + zsh_escaped(verb.summary)) + "\n";
  return text;
}

std::string zsh_verb(const ManualVerb& verb) {
  std::string text = "    " + verb.name + ")\n      " + zsh_arguments(verb);
  if (verb.actions.empty()) return text + " ;;\n";
  text += " \\\n        '1: :->action' '*:: :->more'\n      case $state in\n      action)\n"
          "        local -a actions\n        actions=(\n" +
          zsh_names(verb.actions) +
          "        )\n        _describe action actions ;;\n      more)\n        case $line[1] in\n";
  for (const ManualVerb& action : verb.actions)
    text += zsh_verb(action);
  return text + "        esac ;;\n      esac ;;\n";
}

// ---- fish ----

constexpr const char* fish_begin = R"(# fish completion for shankline
# The words typed so far, without options.
function __shankline_words
    for word in (commandline -opc)[2..-1]
        string match -q -- '-*' $word; or echo $word
    end
end

# True if the typed words begin with these: a verb, or a verb and an action.
function __shankline_at
    set -l typed (__shankline_words)
    test (count $typed) -ge (count $argv); and test "$typed[1..$(count $argv)]" = "$argv"
end

# True if the typed words are exactly these.
function __shankline_only
    set -l typed (__shankline_words)
    test "$typed" = "$argv"
end

complete -c shankline -f
)";

/// Quotes words with single quotes, for fish, where a backslash has to be escaped too.
std::string fish_quoted(const std::string& words) {
  return "'" + replaced(replaced(words, "\\", "\\\\"), "'", "\\'") + "'";
}

/// The arguments of `complete` that offer values for a positional; empty if there are none to
/// offer.
std::string fish_values(const ManualOption& option) {
  if (const auto& words = known_values(option); !words.empty())
    return " -a " + fish_quoted(joined(words, " "));
  if (option.is_order()) return " -a " + fish_quoted("(__fish_complete_suffix .yaml .yml .json)");
  return option.is_file() ? " -F" : "";
}

/// The line for one option or positional, offered where `condition` is true. Empty for a positional
/// that has no values to offer.
std::string fish_option(const std::string& condition, const ManualOption& option) {
  std::string text = "complete -c shankline -n " + fish_quoted(condition);
  if (option.is_positional()) {
    const std::string values = fish_values(option);
    return values.empty() ? "" : text + values + " -d " + fish_quoted(option.words) + "\n";
  }
  for (const std::string& name : option.names)
    text += name.rfind("--", 0) == 0 ? " -l " + name.substr(2) : " -s " + name.substr(1);
  if (const auto& words = known_values(option); !words.empty())
    text += " -x -a " + fish_quoted(joined(words, " "));
  else if (!option.is_flag())
    text += option.is_file() ? " -r -F" : " -x";
  return text + " -d " + fish_quoted(option.words) + "\n";
}

/// One line for each verb, offered where `condition` is true.
std::string fish_names(const std::string& condition, const std::vector<ManualVerb>& verbs) {
  std::string text;
  for (const ManualVerb& verb : verbs)
    text += "complete -c shankline -n " + fish_quoted(condition) + " -a " + verb.name + " -d " +
            fish_quoted(verb.summary) + "\n";
  return text;
}

/// The lines for a verb and for its actions; `name` as for bash_verb.
std::string fish_verb(const std::string& name, const ManualVerb& verb) {
  std::string text;
  for (const ManualOption& option : verb.options)
    text += fish_option("__shankline_at " + name, option);
  text += fish_names("__shankline_only " + name, verb.actions);
  for (const ManualVerb& action : verb.actions)
    text += fish_verb(name + " " + action.name, action);
  return text;
}

} // namespace

std::string bash_completion(const Manual& manual) {
  std::string with_actions;
  for (const ManualVerb& verb : manual.verbs)
    if (!verb.actions.empty()) with_actions += (with_actions.empty() ? "" : "|") + verb.name + ":*";
  std::string text = replaced(bash_begin, "@VERBS@", with_actions);
  for (const ManualVerb& verb : manual.verbs)
    text += bash_verb(verb.name, verb);
  return text + "    '') " +
         bash_words(verb_names(manual.verbs) + " " + option_names(manual.options)) +
         " ;;\n  esac\n}\n\ncomplete -F _shankline shankline\n";
}

std::string zsh_completion(const Manual& manual) {
  std::string text = "#compdef shankline\n\nlocal curcontext=$curcontext state line\n"
                     "_arguments -C";
  for (const ManualOption& option : manual.options)
    text += " \\\n  " + zsh_spec(option, 0);
  text +=
      " \\\n  '1: :->verb' '*:: :->rest'\n\ncase $state in\nverb)\n  local -a verbs\n  verbs=(\n" +
      zsh_names(manual.verbs) + "  )\n  _describe verb verbs ;;\nrest)\n  case $line[1] in\n";
  for (const ManualVerb& verb : manual.verbs)
    text += zsh_verb(verb);
  return text + "  esac ;;\nesac\n";
}

std::string fish_completion(const Manual& manual) {
  std::string text = fish_begin;
  for (const ManualOption& option : manual.options)
    text += fish_option("__shankline_only", option);
  text += fish_names("__shankline_only", manual.verbs);
  for (const ManualVerb& verb : manual.verbs)
    text += fish_verb(verb.name, verb);
  return text;
}

} // namespace shankline
