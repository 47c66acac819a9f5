// shankline(1).
#include "cli/job/settings.hpp"
#include "cli/manual/man_writer.hpp"
#include "cli/manual/manual.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/word_list.hpp"
#include "export/wording/sentence.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace shankline {
namespace {

struct Variable {
  const char* name;
  const char* words;
};

constexpr Variable variables[] = {
    {"NO_COLOR", "When set, and where standard error is no terminal, no progress bar is drawn."},
    {"SOURCE_DATE_EPOCH",
     "Seconds since 1970: the date of every PDF and of what is saved in the archive. Without it a "
     "PDF has no date, and what is saved has the day's."},
    {"XDG_DATA_HOME",
     "An absolute path: the archive is shankline/archive.sqlite in it, otherwise in "
     "~/.local/share, unless --archive names another one, or the first line of shankline/archive "
     "in "
     "XDG_CONFIG_HOME does: a path from the root, or a server's address."},
    {"XDG_CONFIG_HOME",
     "An absolute path: calibrated printers are kept in shankline/printers in it, otherwise in "
     "~/.config."},
};

/// "[ORDER ...]"
std::string positional(const ManualOption& option) {
  const std::string name = man_italic(option.value) + (option.repeats ? " ..." : "");
  return option.required ? name : "[" + name + "]";
}

std::string term(const ManualOption& option) {
  if (option.is_positional()) return positional(option);
  std::string text;
  for (const std::string& name : option.names)
    text += (text.empty() ? "" : ", ") + man_bold(name);
  return option.is_flag() ? text : text + " " + man_italic(option.value);
}

/// "print this" as a sentence.
std::string sentence(std::string_view words) {
  return man_escaped(capital(words)) + ".";
}

std::string meaning(const ManualOption& option) {
  // The first letter stays as it is: the text may begin with a word that is typed so.
  std::string text = man_escaped(option.words) + ".";
  if (!option.choices.empty()) text += " One of " + man_escaped(joined(option.choices, ", ")) + ".";
  if (!option.limits.empty()) text += " From " + man_escaped(option.limits) + ".";
  if (!option.default_word.empty()) text += " Otherwise " + man_escaped(option.default_word) + ".";
  if (option.required && !option.is_positional()) text += " Has to be given.";
  return text;
}

/// `name` is the verb's, and an action's behind it.
void add_verb(ManWriter& page, const Manual& manual, const std::string& name,
              const ManualVerb& verb) {
  page.subsection(name);
  std::string form = man_bold(manual.program + " " + name) +
                     (verb.actions.empty() ? " [options]" : " " + man_italic("action") + " ...");
  for (const ManualOption& option : verb.options)
    if (option.is_positional()) form += " " + positional(option);
  page.paragraph(form);
  page.paragraph(sentence(verb.summary));
  for (const ManualOption& option : verb.options)
    page.item(term(option), meaning(option));
  page.listing(verb.example);
  for (const ManualVerb& action : verb.actions)
    add_verb(page, manual, name + " " + action.name, action);
}

} // namespace

std::string man_page(const Manual& manual) {
  std::string title = manual.program;
  std::transform(title.begin(), title.end(), title.begin(), upper);
  ManWriter page(title, 1, manual.released, manual.program + " " + manual.version, "Shoe bench");
  page.section("NAME");
  page.paragraph(man_escaped(manual.program) + " \\- cutting templates for altered pointe shoes");
  page.section("SYNOPSIS");
  page.paragraph(man_bold(manual.program) + " " + man_italic("verb") + " [options] " +
                 man_italic("ORDER") + " ...");
  page.section("DESCRIPTION");
  page.paragraph(man_escaped(manual.about));
  page.paragraph("Results go to standard output, errors and cautions to standard error. A file "
                 "appears whole or not at all. How an order is written is said in " +
                 man_bold("shankline-order") + "(5).");
  page.section("OPTIONS");
  for (const ManualOption& option : manual.options)
    page.item(term(option), meaning(option));
  page.section("VERBS");
  for (const ManualVerb& verb : manual.verbs)
    add_verb(page, manual, verb.name, verb);
  page.section("MANY ORDERS");
  page.paragraph(
      "Several orders, or a folder of them, are worked on at once, one a core or as many as "
      "\\fB\\-\\-jobs\\fR says. Results come in order, a line each, and what is said of one order "
      "stays together. An order that is wrong stops no other; how many were done, refused and "
      "failed is said at the end, and the exit code is the worst of them.");
  page.section("EXIT STATUS");
  for (const ManualExit& exit : manual_exits())
    page.item(man_bold(std::to_string(exit.code)), sentence(exit.words));
  page.section("ENVIRONMENT");
  for (const Variable& variable : variables)
    page.item(man_bold(variable.name), man_escaped(variable.words));
  for (const SettingGuide& setting : setting_guides())
    page.item(man_bold(setting.variable), man_escaped(std::string(setting.words) + ". As usual: " +
                                                      std::string(setting.usual) + "."));
  page.section("FILES");
  std::string keys;
  for (const SettingGuide& setting : setting_guides())
    keys += (keys.empty() ? "" : ", ") + std::string(setting.name);
  page.item(man_bold("$XDG_CONFIG_HOME/shankline/config.yaml"),
            man_escaped("Settings, or in ~/.config: a key a line, " + keys +
                        ". An option beats the environment, which beats this file."));
  page.section("OTHER PROGRAMS");
  page.paragraph(man_escaped(
      "Orders may be written in JSON, which YAML contains. With --json results come as JSON: of "
      "cut, check and chart one element an order, also of one that was refused, with its file, "
      "digest, what was written and what was found. With --errors json what is found comes as JSON "
      "on standard error, a line each. The verb schema prints a JSON Schema of each."));
  page.section("CAUTIONS");
  page.paragraph("A cut board cannot be put back. Every figure is an estimate from a model of an "
                 "ordinary foot and an ordinary shoe; teacher, fitter and the licensed "
                 "physiotherapist or podiatrist have the last word.");
  page.section("SEE ALSO");
  page.paragraph(man_bold("shankline-order") + "(5)");
  return std::move(page).text();
}

} // namespace shankline
