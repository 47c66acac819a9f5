#include "cli/command_line/command_line.hpp"

#include "cli/command_line/archive_options.hpp"
#include "cli/job/allowed_value.hpp"
#include "cli/job/settings.hpp"
#include "cli/manual/archive_guide.hpp"
#include "cli/manual/manual.hpp"
#include "cli/manual/order_schema_json.hpp"
#include "cli/manual/output_schema.hpp"
#include "cli/manual/verb_guide.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"

#include <algorithm>
#include <array>
#include <CLI/CLI.hpp>
#include <map>
#include <memory>
#include <sstream>
#include <stdexcept>
#include <string_view>
#include <tuple>
#include <unistd.h>
#include <utility>

namespace shankline {
namespace {

constexpr const char* about =
    "Cutting templates for altered pointe shoes: from foot measurements and the arch break to\n"
    "three-quarter shank trim lines, printed at true size.";
constexpr const char* main_example =
    "Example:\n"
    "  shankline cut order.yaml -o order.pdf   # solve, print the numbers, write the sheets\n"
    "  shankline check order.yaml              # the same, without writing anything\n"
    "  shankline chart order.yaml              # what each cut would do\n\n"
    "Exit codes: 0 done, 1 wrong or missing input, 2 wrong usage, 3 the file system or the archive "
    "failed;\n"
    "of accept also 4 refused, 5 not decided.\n";

const std::map<std::string, FootSide> foot_words{{"left", FootSide::left},
                                                 {"right", FootSide::right}};
const std::map<std::string, Seen> seen_by_word = [] {
  std::map<std::string, Seen> by_word;
  for (const Word<Seen>& seen : seen_words)
    by_word.emplace(seen.word, seen.meaning);
  return by_word;
}();

template <class T> std::vector<std::string> words_of(const std::map<std::string, T>& words) {
  std::vector<std::string> names;
  for (const auto& word : words)
    names.push_back(word.first);
  return names;
}

/// Holds the request while its words are still as typed.
struct Draft {
  Request request;
  std::string order;
  std::string against; ///< compare: a second order
  std::string paper{"a4"};
  std::string units{"mm"};
  std::string foot;
  std::string seen;
  std::string judged_at; // empty: not said
  std::string page;
  std::string errors = "text";
};

/// Adds --errors; every verb that reads an order has it.
void add_errors(CLI::App& verb, Draft& draft) {
  restrict_to(
      *verb.add_option("--errors", draft.errors,
                       "the form of errors and cautions: text, or json with one line for each")
           ->type_name("FORM")
           ->capture_default_str(),
      one_of({"text", "json"}));
}

void add_orders(CLI::App& verb, Draft& draft) {
  verb.add_option("order", draft.request.orders,
                  "order file, or a folder of them (*.yaml, *.yml, *.json); - is standard input")
      ->required()
      ->type_name("ORDER");
  add_errors(verb, draft);
}

void add_order(CLI::App& verb, Draft& draft) {
  verb.add_option("order", draft.order, "order file")->required()->type_name("ORDER");
  add_errors(verb, draft);
}

void add_paper(CLI::App& verb, Draft& draft) {
  verb.add_option("--paper", draft.paper, "a4, a3, letter, legal, tabloid, or roll:WIDTH in mm")
      ->type_name("NAME")
      ->check(
          [](const std::string& name) {
            const auto paper = read_paper(name);
            return paper ? std::string() : paper.why().what;
          },
          "")
      ->capture_default_str();
}

void add_units(CLI::App& verb, Draft& draft) {
  restrict_to(*verb.add_option("--units", draft.units, "mm, or in for inches to 1/32 beside them")
                   ->type_name("UNITS")
                   ->capture_default_str(),
              one_of({"mm", "in"}));
}

void add_json(CLI::App& verb, Draft& draft) {
  verb.add_flag("--json", draft.request.json, "the result as JSON on standard output");
}

void add_quiet(CLI::App& verb, Draft& draft) {
  verb.add_flag("-q,--quiet", draft.request.quiet, "errors and cautions only");
}

void add_printer(CLI::App& verb, Draft& draft) {
  verb.add_option("--printer", draft.request.printer,
                  "draw the sheets for this calibrated printer, see: shankline printer --help")
      ->type_name("NAME");
}

void add_csv(CLI::App& verb, Draft& draft, const std::string& words) {
  verb.add_flag("--csv", draft.request.csv, words);
}

void add_output(CLI::App& verb, Draft& draft, const std::string& words) {
  verb.add_option("-o,--output", draft.request.output, words)->type_name("FILE");
}

void add_jobs(CLI::App& verb, Draft& draft) {
  restrict_to(
      *verb.add_option("--jobs", draft.request.jobs,
                       "how many orders to solve at once; default: one for each processor core")
           ->type_name("N"),
      whole_number(1, 256));
}

/// Adds the options that cut, check and chart share.
void add_solving(CLI::App& verb, Draft& draft) {
  add_orders(verb, draft);
  add_paper(verb, draft);
  add_units(verb, draft);
  add_json(verb, draft);
  verb.add_flag("--lines", draft.request.lines, "JSON with the lines of every template");
  add_quiet(verb, draft);
  add_jobs(verb, draft);
}

void add_cut(CLI::App& verb, Draft& draft) {
  add_output(
      verb, draft,
      "PDF to write, or a directory for it, or - for standard output; default: ORDER's name with "
      ".pdf, in this directory");
  add_printer(verb, draft);
  add_solving(verb, draft);
  verb.add_flag(
      "--maker", draft.request.maker,
      "a page for a maker or workshop as well; for several orders also one document of all "
      "of them");
  verb.add_flag("--card", draft.request.card, "the dancer's card as well");
  verb.add_flag("--care", draft.request.care, "the page on breaking in and repair as well");
  verb.add_flag(
      "--one-length", draft.request.one_length,
      "all pages side by side on one length of the roll; for several orders also one document of "
      "all of them");
  verb.add_flag("--svg", draft.request.parts.svg, "every part as SVG as well, beside the PDF");
  verb.add_flag("--dxf", draft.request.parts.dxf, "every part as DXF (R12, mm) as well");
  verb.add_flag(
      "--cut-only", draft.request.parts.cut_only,
      "put only the closed outline of the piece, cut at the first line, into SVG and DXF");
  verb.add_flag("--save", draft.request.archive.save, "keep the solved order in the archive");
  add_archive_file(verb, draft.request);
}

void add_check(CLI::App& verb, Draft& draft) {
  verb.add_flag("--sampled", draft.request.sampled,
                "also compute how sure the cut is by drawing random values for every reading");
  add_solving(verb, draft);
  add_archive_file(verb, draft.request);
}

void add_chart(CLI::App& verb, Draft& draft) {
  add_output(verb, draft, "PDF of the break chart to write");
  add_printer(verb, draft);
  add_solving(verb, draft);
  add_archive_file(verb, draft.request);
}

void add_compare(CLI::App& verb, Draft& draft) {
  verb.add_option("order", draft.order, "order file, or a folder of them, to see whose feet differ")
      ->required()
      ->type_name("ORDER");
  verb.add_option("against", draft.against,
                  "a second order file; default: compare left with right of the first")
      ->type_name("ORDER");
  add_errors(verb, draft);
  add_output(verb, draft, "PDF of the overlay to write");
  add_printer(verb, draft);
  add_paper(verb, draft);
  add_units(verb, draft);
  verb.add_flag("--same-reader", draft.request.same_reader,
                "one person took the readings of both orders; not needed where both name the same "
                "read_by");
  add_csv(verb, draft, "print comma-separated values, one row for each figure");
  add_json(verb, draft);
  verb.add_flag("--lines", draft.request.lines, "JSON with the lines of every template");
  add_quiet(verb, draft);
}

void add_rack(CLI::App& verb, Draft& draft) {
  add_orders(verb, draft);
  add_output(verb, draft, "PDF of the rack to write");
  verb.add_option("--labels", draft.request.labels, "PDF of labels to stick into the shoes")
      ->type_name("FILE");
  verb.add_flag("--save", draft.request.archive.save,
                "keep every pair in the archive, an order once; its labels then carry the entry's "
                "number");
  add_archive_file(verb, draft.request);
  add_paper(verb, draft);
  add_units(verb, draft);
  add_csv(verb, draft, "print comma-separated values, one row for each shoe");
  add_json(verb, draft);
  add_quiet(verb, draft);
  add_jobs(verb, draft);
}

void add_roster(CLI::App& verb, Draft& draft) {
  verb.add_option("file", draft.order,
                  "comma-separated values: the order's keys in the first row, then one row for "
                  "each dancer and foot")
      ->required()
      ->type_name("FILE");
  verb.add_option("--common", draft.request.common,
                  "what all the orders have in common, written as in an order: shoe, alterations")
      ->required()
      ->type_name("FILE");
  verb.add_option("-o,--output", draft.request.output, "folder for the orders")
      ->required()
      ->type_name("DIRECTORY");
  add_errors(verb, draft);
  add_quiet(verb, draft);
}

/// Adds the options that keep a try or a copied pair in the archive.
void add_keeping(CLI::App& verb, Draft& draft, const std::string& words) {
  verb.add_flag("--save", draft.request.archive.save, words);
  restrict_to(
      *verb.add_option(
               "--entry", draft.request.next.entry,
               "number of the pair's entry in the archive; default: the entry of this order")
           ->type_name("ID"),
      whole_number(1, 1LL << 53));
  add_archive_file(verb, draft.request);
}

void add_next(CLI::App& verb, Draft& draft) {
  verb.add_option("order", draft.order, "order file; may be left out with --entry")
      ->type_name("ORDER");
  add_errors(verb, draft);
  NextWish& wish = draft.request.next;
  restrict_to(*verb.add_option("--foot", draft.foot,
                               "left or right; needed when the order cuts both boards")
                   ->type_name("FOOT"),
              one_of(words_of(foot_words)));
  const AllowedValue on_a_board = plain_number(0, 400);
  restrict_to(
      *verb.add_option("--cut", wish.cut_off,
                       "cut off in all, mm from the heel end; 0 for the uncut board; default: "
                       "as on record")
           ->type_name("MM"),
      on_a_board);
  restrict_to(*verb.add_option("--back", wish.back,
                               "instead of --cut: mm from the witness line back to the board's end")
                   ->type_name("MM"),
              on_a_board);
  restrict_to_seen_word(
      *verb.add_option("--seen", draft.seen, std::string("what was seen ") + seen_help)
           ->required()
           ->type_name("WHAT"));
  verb.add_flag(
      "--past-final", wish.past_final,
      "allow cuts past the final line, as a teacher or fitter decided; never into the stop band");
  add_keeping(verb, draft, "keep this try in the archive");
  verb.add_flag("--worn", wish.worn, "the try was after wear; default: at the barre");
  restrict_to_code(
      *verb.add_option("--by", wish.by, "kept with the try: code of the person who judged")
           ->type_name("CODE"));
  restrict_to_day(*verb.add_option("--day", wish.day, "kept with the try: its day; default: today")
                       ->type_name("DATE"));
  add_units(verb, draft);
  add_json(verb, draft);
  add_quiet(verb, draft);
}

void add_match(CLI::App& verb, Draft& draft) {
  verb.add_option("worn", draft.request.worn, "what was measured on the worn pair")
      ->required()
      ->type_name("WORN");
  add_order(verb, draft);
  add_output(verb, draft, "PDF of the sheets with the copied lines to write");
  add_keeping(verb, draft, "keep in the archive where the worn pair's board ends");
  add_printer(verb, draft);
  add_paper(verb, draft);
  add_units(verb, draft);
  add_json(verb, draft);
  add_quiet(verb, draft);
}

void add_accept(CLI::App& verb, Draft& draft) {
  add_order(verb, draft);
  verb.add_option("measured", draft.request.measured, "what was measured on the made pair")
      ->type_name("MEASURED");
  verb.add_flag("--blank", draft.request.blank,
                "print the sheet without measurements, to fill in by hand");
  restrict_to(*verb.add_option("--at", draft.judged_at,
                               "the line that the board was cut at: first or final")
                   ->type_name("LINE")
                   ->default_str("final"),
              one_of({"first", "final"}));
  add_output(verb, draft, "PDF of the acceptance sheet to write");
  add_keeping(verb, draft, "keep the decision, accepted or refused, in the archive");
  add_paper(verb, draft);
  add_units(verb, draft);
  add_json(verb, draft);
  add_quiet(verb, draft);
}

void add_again(CLI::App& verb, Draft& draft) {
  verb.add_option("dancer", draft.request.archive.dancer, "the dancer's code")
      ->required()
      ->type_name("DANCER");
  add_output(verb, draft,
             "order file to write, or a directory for it; it must not exist yet; default: standard "
             "output");
  add_archive_file(verb, draft.request);
  add_quiet(verb, draft);
}

void add_rotation(CLI::App& verb, Draft& draft) {
  ArchiveWish& wish = draft.request.archive;
  RotationWish& rotation = draft.request.rotation;
  verb.add_option("dancer", wish.dancer, "the dancer's code; default: all dancers")
      ->type_name("DANCER");
  verb.add_option("--schedule", rotation.schedule,
                  "days and hours on pointe, YAML or CSV (day,hours,stage,at,dancer)")
      ->required()
      ->type_name("FILE");
  restrict_to(
      *verb.add_option(
               "--lead-time", rotation.lead_days,
               "days from an order until the pairs arrive; default: the longest time on record")
           ->type_name("DAYS"),
      whole_number(0, 1000));
  add_drying(verb, draft.request);
  add_output(verb, draft, "PDF of the plan to write, for the wall");
  verb.add_option("--calendar", rotation.calendar, "iCalendar file to write")->type_name("FILE");
  add_paper(verb, draft);
  verb.add_flag("--csv", draft.request.csv, "print comma-separated values");
  add_json(verb, draft);
  add_quiet(verb, draft);
  add_archive_file(verb, draft.request);
}

void add_printer_verb(CLI::App& verb, Draft& draft) {
  PrinterWish& wish = draft.request.calibration;
  verb.add_option("name", wish.name, "what you call the printer")->type_name("NAME");
  add_output(verb, draft, "PDF of the calibration sheet to write");
  add_paper(verb, draft);
  verb.add_option("--measured", wish.measured,
                  "lengths on the printed sheet, mm: A to B, A to D, A to C, B to D")
      ->type_name("AB,AD,AC,BD");
  verb.add_flag("--list", wish.list, "list the calibrated printers");
  verb.add_flag("--forget", wish.forget, "delete the calibration of this printer");
  add_quiet(verb, draft);
}

void add_archive(CLI::App& verb, Draft& draft) {
  add_archive(
      verb, draft.request,
      [&draft](CLI::App& action) {
        add_orders(action, draft);
        add_paper(action, draft);
        add_units(action, draft);
        add_printer(action, draft);
        add_json(action, draft);
      },
      [&draft](CLI::App& action) {
        if (action.get_name() == "card" || action.get_name() == "care") {
          add_output(action, draft, "PDF to write, or a directory for it");
          add_printer(action, draft);
        }
        add_units(action, draft);
        constexpr std::array without_page{"show", "history", "tries", "list", "find"};
        if (std::find(without_page.begin(), without_page.end(), action.get_name()) ==
            without_page.end())
          add_paper(action, draft);
      });
  for (CLI::App* action : verb.get_subcommands({}))
    add_quiet(*action, draft);
}

using ManualPage = std::string (*)(const Manual&);
const std::map<std::string, ManualPage> manual_pages{{"man", man_page},
                                                     {"order", order_page},
                                                     {"bash", bash_completion},
                                                     {"zsh", zsh_completion},
                                                     {"fish", fish_completion}};

void add_manual(CLI::App& verb, Draft& draft) {
  restrict_to(*verb.add_option("page", draft.page,
                               "man for shankline(1), order for shankline-order(5), or a shell's "
                               "completion: bash, zsh, fish")
                   ->required()
                   ->type_name("PAGE"),
              one_of(words_of(manual_pages)));
}

std::vector<std::string> schema_names() {
  std::vector<std::string> names{"order"};
  for (const OutputSchema& schema : output_schemas())
    names.emplace_back(schema.name);
  return names;
}

std::string schema_named(std::string_view name) {
  for (const OutputSchema& schema : output_schemas())
    if (schema.name == name) return std::string(schema.text);
  return order_schema();
}

void add_schema(CLI::App& verb, Draft& draft) {
  restrict_to(
      *verb.add_option(
               "page", draft.page,
               "order for the order file; solution for what cut, check and chart print; "
               "findings for an error or caution in JSON; or the name of a verb that prints JSON")
           ->required()
           ->type_name("WHAT"),
      one_of(schema_names()));
}

void add_nothing(CLI::App&, Draft&) {}

void add_help(CLI::App& verb, Draft& draft) {
  std::vector<std::string> names;
  for (const VerbGuide& guide : verb_guides())
    names.emplace_back(guide.name);
  restrict_to(*verb.add_option("verb", draft.page,
                               "the verb to show the help of; default: the list of all verbs")
                   ->type_name("VERB"),
              one_of(names));
}

void add_ask(CLI::App& verb, Draft& draft) {
  add_output(verb, draft,
             "order file to write, or a directory for it; default: order.yaml in this directory");
  verb.add_flag("--yes", draft.request.yes,
                "overwrite the file and continue an unfinished interview without asking");
}

void add_form(CLI::App& verb, Draft& draft) {
  verb.add_flag("--strip", draft.request.strip,
                "paper strips of 300 mm to measure the sole with, instead of the pages");
  add_output(verb, draft,
             "PDF to write, or a directory for it; default: measuring-form.pdf in this directory");
  add_paper(verb, draft);
  add_quiet(verb, draft);
}

void add_explain(CLI::App& verb, Draft& draft) {
  verb.add_option("key", draft.request.key, "the reading's key; default: list all readings")
      ->type_name("KEY");
  add_json(verb, draft);
}

void add_page_verb(CLI::App& verb, Draft& draft) {
  verb.add_flag("--open", draft.request.page.open, "open it in the browser");
  verb.add_option("--port", draft.request.page.port,
                  "port of this machine to serve it on; without it, one that is free")
      ->type_name("PORT");
  add_paper(verb, draft);
  add_units(verb, draft);
  add_printer(verb, draft);
  add_archive_file(verb, draft.request);
  add_quiet(verb, draft);
}

using AddOptions = void (*)(CLI::App&, Draft&);

AddOptions options_of(Verb verb) {
  switch (verb) {
  case Verb::cut:
    return add_cut;
  case Verb::check:
    return add_check;
  case Verb::chart:
    return add_chart;
  case Verb::compare:
    return add_compare;
  case Verb::rack:
    return add_rack;
  case Verb::roster:
    return add_roster;
  case Verb::config:
    return add_nothing;
  case Verb::page:
    return add_page_verb;
  case Verb::help:
    return add_help;
  case Verb::ask:
    return add_ask;
  case Verb::form:
    return add_form;
  case Verb::explain:
    return add_explain;
  case Verb::next:
    return add_next;
  case Verb::match:
    return add_match;
  case Verb::accept:
    return add_accept;
  case Verb::again:
    return add_again;
  case Verb::rotation:
    return add_rotation;
  case Verb::printer:
    return add_printer_verb;
  case Verb::archive:
    return add_archive;
  case Verb::manual:
    return add_manual;
  case Verb::schema:
    return add_schema;
  }
  throw std::logic_error("verb without options");
}

/// The library's releases write what follows an option's name in different ways; the help is the
/// same everywhere.
class HelpFormatter : public CLI::Formatter {
public:
  std::string make_option_opts(const CLI::Option* option) const override {
    std::string text;
    if (option->get_type_size() == 0) return text;
    if (!option->get_type_name().empty()) text += " " + get_label(option->get_type_name());
    if (!option->get_default_str().empty()) text += "=" + option->get_default_str();
    if (option->get_expected_max() == CLI::detail::expected_max_vector_size) text += " ...";
    if (option->get_required()) text += " " + get_label("REQUIRED");
    return text;
  }
};

struct Options {
  CLI::App app{about, "shankline"};
  Draft draft;
  std::vector<std::pair<CLI::App*, Verb>> verbs;

  Options() {
    app.set_version_flag("--version", "shankline " SHANKLINE_VERSION "\n" SHANKLINE_LIBRARIES,
                         "print the version, the libraries and their licences, then exit");
    app.set_help_flag("-h,--help", "print this help and exit");
    app.formatter(std::make_shared<HelpFormatter>());
    app.require_subcommand(1);
    app.footer(main_example);
    for (const VerbGuide& guide : verb_guides())
      verbs.emplace_back(app.add_subcommand(std::string(guide.name), std::string(guide.summary)),
                         guide.verb);
  }

  void furnish_all() {
    for (const auto& verb : verbs)
      furnish(verb.second);
  }

  /// Only the verb that is asked for gets its options: building them all takes longer than a cut.
  void furnish(Verb chosen) {
    for (const auto& [verb, meaning] : verbs) {
      if (meaning != chosen) continue;
      verb->footer("Example:\n" + std::string(verb_guide(chosen).example));
      options_of(chosen)(*verb, draft);
    }
  }

  const CLI::App& chosen() const {
    const CLI::App* at = &app;
    const auto parsed_below = [&at] {
      for (const CLI::App* below : at->get_subcommands({}))
        if (below->parsed()) return below;
      return static_cast<const CLI::App*>(nullptr);
    };
    while (const CLI::App* below = parsed_below())
      at = below;
    return *at;
  }
};

std::vector<std::string> verb_names() {
  std::vector<std::string> names;
  for (const VerbGuide& guide : verb_guides())
    names.emplace_back(guide.name);
  return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options())
    for (const std::string& name : option->get_lnames())
      names.push_back("--" + name);
  return names;
}

Answer wrong_usage(const std::string& words, const CLI::App& app) {
  std::string verbs;
  for (const CLI::App* verb = &app; verb->get_parent(); verb = verb->get_parent())
    verbs = " " + verb->get_name() + verbs;
  return {ExitCode::bad_usage,
          "shankline: " + without_controls(words) + "\n  see: shankline" + verbs + " --help\n"};
}

/// Returns the first word that is not an option.
std::string first_word(int argc, const char* const* argv) {
  for (int i = 1; i < argc; ++i)
    if (argv[i][0] != '\0' && argv[i][0] != '-') return argv[i];
  return {};
}

/// Returns true if a word is empty. A script's unset variable arrives so, and would pass for no
/// argument.
bool has_empty_word(int argc, const char* const* argv) {
  return std::any_of(argv + 1, argv + argc, [](const char* word) { return *word == '\0'; });
}

/// Returns an error for a word after `archive` that is not one of its actions; empty if it is one.
/// CLI11 would only say that an action is required.
std::string unknown_action(int argc, const char* const* argv) {
  std::vector<std::string> names;
  for (const ArchiveGuide& guide : archive_guides())
    names.emplace_back(guide.name);
  int words = 0;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "-h" || word == "--help") return {};
    if (word.empty() || word[0] == '-' || ++words < 2) continue;
    if (std::find(names.begin(), names.end(), word) != names.end()) return {};
    return "the archive knows no '" + word + "'; there are " + in_words(names) + "." +
           guess_words(word, names);
  }
  return "say what to do with the archive: " + in_words(names) + ".";
}

/// Returns the error for a word that no option or argument takes.
std::string surplus(const CLI::App& app, const std::string& word) {
  const std::string name = word.substr(0, word.find('='));
  if (name.size() > 1 && name.front() == '-')
    return "there is no option '" + name + "'." + guess_words(name, option_names(app));
  return shown(word) + " is one argument too many.";
}

/// "FILE" of "FILE:{a,b}"
std::string value_name(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  return type.substr(0, type.find(':'));
}

/// "--paper NAME: a4, a3 or letter", "ORDER: order file"
std::string option_words(const CLI::Option& option) {
  const std::string name = option.get_positional() ? "" : option.get_name() + " ";
  return name + value_name(option) + ": " + option.get_description();
}

/// Returns words that ask for the required options that are missing; empty if there are none.
std::string missing(const CLI::App& app) {
  std::string words;
  for (const CLI::Option* option : app.get_options())
    if (option->get_required() && option->count() == 0)
      words += (words.empty() ? "give " : "; and ") + option_words(*option);
  return words;
}

/// Returns the option that CLI11's words are about, or null.
const CLI::Option* blamed(const CLI::App& app, std::string_view words) {
  constexpr std::string_view conversion = "Could not convert: ";
  if (words.starts_with(conversion)) words.remove_prefix(conversion.size());
  return app.get_option_no_throw(std::string(words.substr(0, words.find_first_of(": "))));
}

/// Returns CLI11's error in words that tell what is allowed. `whole` is the whole command line,
/// `verb` the verb or action that was asked for.
std::string fault_words(const CLI::ParseError& error, const CLI::App& whole, const CLI::App& verb) {
  const std::vector<std::string> left = whole.remaining(true);
  if (!left.empty()) return surplus(whole.remaining_size() > 0 ? whole : verb, left.front());
  if (dynamic_cast<const CLI::RequiredError*>(&error))
    if (const std::string needed = missing(verb); !needed.empty()) return needed + '.';
  std::string words = error.what();
  const CLI::Option* option = blamed(verb, words);
  if (!option) return words;
  if (option->get_items_expected_max() == 0) return option->get_name() + " takes no value.";
  if (!dynamic_cast<const CLI::ArgumentMismatch*>(&error)) return words;
  if (option->count() > 1)
    return option->get_name() + " is given " + std::to_string(option->count()) +
           " times; give it once.";
  return "a value is missing, " + option_words(*option) + '.';
}

/// Fills in the user's settings for options that were not given. Returns the errors in the
/// settings.
std::vector<Message> apply_settings(const CLI::App& verb, Draft& draft) {
  const auto unsaid = [&](const char* name) {
    const CLI::Option* option = verb.get_option_no_throw(name);
    return option && option->count() == 0;
  };
  const std::array taken{
      std::tuple{"--paper", SettingKey::paper, &draft.paper},
      std::tuple{"--units", SettingKey::units, &draft.units},
      std::tuple{"--printer", SettingKey::printer, &draft.request.printer},
      std::tuple{"--archive", SettingKey::archive, &draft.request.archive.file},
  };
  const bool wanted = unsaid("--drying") || unsaid("--lead-time") ||
                      std::any_of(taken.begin(), taken.end(),
                                  [&](const auto& row) { return unsaid(std::get<0>(row)); });
  if (!wanted) return {};
  Settings settings = read_settings();
  for (const auto& [name, key, into] : taken)
    if (const auto& setting = settings.of(key); setting && unsaid(name)) *into = setting->value;
  const auto settled_number = [&](const char* name, SettingKey key) -> std::optional<double> {
    const auto& setting = settings.of(key);
    if (!setting || !unsaid(name)) return std::nullopt;
    return *parse_quantity(setting->value, Quantity::number); // read_settings() has checked it
  };
  if (const auto climate = settled_number("--drying", SettingKey::climate))
    draft.request.archive.drying = usual_drying_hours * *climate;
  if (const auto days = settled_number("--lead-time", SettingKey::lead_time))
    draft.request.rotation.lead_days = static_cast<int>(*days);
  return std::move(settings.messages);
}

Answer wrong_settings(const std::vector<Message>& errors, bool as_json,
                      ExitCode code = ExitCode::bad_input) {
  std::ostringstream words;
  if (as_json) set_message_form(words, MessageForm::json_lines);
  say(errors, words);
  return {code, std::move(words).str()};
}

/// Returns true if -o names a PDF, and not an order or a bundle.
bool writes_pdf(const Request& request) {
  return request.verb != Verb::again && request.verb != Verb::ask &&
         !(request.verb == Verb::archive && request.archive.action == ArchiveAction::export_bundle);
}

/// Returns an error if more than one result would go to standard output.
std::string output_contradiction(const Request& request) {
  if (request.labels == "-") return "--labels - is not a place for a file: give it a name.";
  if (request.output != "-") return {};
  if (request.verb == Verb::ask) return "-o - is not a place for an order file: give it a name.";
  if (!request.pdf_to_output) return {};
  if (request.json || request.csv)
    return std::string("-o - and ") +
           (request.lines  ? "--lines"
            : request.json ? "--json"
                           : "--csv") +
           " would both go to standard output: give the PDF a name.";
  if (request.parts.svg || request.parts.dxf)
    return "-o - writes one PDF, and --svg and --dxf write files beside it: give the PDF a name.";
  if (isatty(STDOUT_FILENO))
    return "-o - would write a PDF onto the terminal: send it into a file or another program, "
           "as in -o - > order.pdf.";
  return {};
}

/// Turns the typed words into their meanings.
Request request_of(Draft draft, Verb verb) {
  Request request = std::move(draft.request);
  request.verb = verb;
  if (!draft.order.empty()) request.orders = {draft.order};
  if (!draft.against.empty()) request.orders.push_back(draft.against);
  request.paper = *read_paper(draft.paper);
  request.units = draft.units == "in" ? Units::inch : Units::mm;
  if (!draft.judged_at.empty())
    request.judged_at = draft.judged_at == "first" ? JudgedAt::first_cut : JudgedAt::final_cut;
  request.json = request.json || request.lines;
  request.json_errors = draft.errors == "json";
  for (std::string* const output : {&request.output, &request.labels})
    if (is_own_output(*output)) *output = standard_output;
  request.pdf_to_output = request.output == standard_output && writes_pdf(request);
  if (request.printer == no_printer) request.printer.clear();
  if (verb != Verb::next) return request;
  if (!draft.foot.empty()) request.next.foot = foot_words.at(draft.foot);
  request.next.seen = seen_by_word.at(draft.seen);
  return request;
}

/// "N:INT in [1 - 256]" and "NAME:{a4,letter}": the value's name, then what it is held to.
void describe_value(const std::string& type, ManualOption& into) {
  const std::size_t colon = type.find(':');
  into.value = type.substr(0, colon);
  if (colon == std::string::npos) return;
  const std::size_t open = type.find_first_of("[{", colon);
  const std::size_t close = type.find_last_of("]}");
  if (open == std::string::npos || close == std::string::npos) return;
  std::string inside = type.substr(open + 1, close - open - 1);
  if (type[open] == '[') {
    if (const std::size_t dash = inside.find(" - "); dash != std::string::npos)
      inside.replace(dash, 3, " to ");
    into.limits = inside;
    return;
  }
  for (std::size_t begin = 0; begin <= inside.size();) {
    const std::size_t end = std::min(inside.find(',', begin), inside.size());
    into.choices.push_back(inside.substr(begin, end - begin));
    begin = end + 1;
  }
}

/// Returns words for completion that an option takes among others.
std::vector<std::string> offers_of(const std::string& name) {
  std::vector<std::string> words;
  if (name != "--paper") return words;
  for (const Paper& paper : papers())
    words.push_back(written(paper));
  words.emplace_back("roll:");
  return words;
}

ManualOption described(const CLI::Option& option) {
  ManualOption described;
  for (const std::string& name : option.get_snames())
    described.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames())
    described.names.push_back("--" + name);
  if (option.get_items_expected_max() > 0) describe_value(option.get_type_name(), described);
  described.words = option.get_description();
  described.offers = offers_of(option.get_name());
  described.default_word = option.get_default_str();
  described.required = option.get_required();
  described.repeats = option.get_items_expected_max() > 1;
  return described;
}

std::vector<ManualOption> described_options(const CLI::App& app) {
  std::vector<ManualOption> options;
  for (const CLI::Option* option : app.get_options())
    options.push_back(described(*option));
  return options;
}

/// Returns the lines below "Example:".
std::string described_example(const CLI::App& app) {
  const std::string footer = app.get_footer();
  const std::size_t heading = footer.find("Example:\n");
  return heading == std::string::npos ? "" : footer.substr(footer.find('\n', heading) + 1);
}

ManualVerb described_verb(const CLI::App& app) {
  ManualVerb verb{
      app.get_name(), app.get_description(), described_example(app), described_options(app), {}};
  for (const CLI::App* action : app.get_subcommands({}))
    verb.actions.push_back(described_verb(*action));
  return verb;
}

/// Returns every verb with every option, as CLI11 knows them.
Manual described_command_line() {
  Options options;
  options.furnish_all();
  Manual manual{"shankline", SHANKLINE_VERSION, SHANKLINE_RELEASED, about, {}, {}};
  std::replace(manual.about.begin(), manual.about.end(), '\n', ' ');
  manual.options = described_options(options.app);
  for (const auto& verb : options.verbs)
    manual.verbs.push_back(described_verb(*verb.first));
  return manual;
}

std::string accept_contradiction(const Request& request) {
  if (request.blank && request.archive.save)
    return "a blank sheet decides nothing: leave out --blank or --save.";
  if (request.blank && !request.measured.empty())
    return "a blank sheet has nothing measured on it: leave out --blank or MEASURED.";
  if (!request.blank && request.measured.empty())
    return "say what was measured, MEASURED, or ask for the sheet to fill in: --blank -o FILE.";
  return {};
}

std::string next_contradiction(const Request& request) {
  const NextWish& wish = request.next;
  if (request.orders.empty() && wish.entry == 0)
    return "give ORDER: order file; or --entry ID: the pair's entry in the archive.";
  if (wish.cut_off && wish.back) return "--cut and --back say the same: give one of them.";
  if (!request.archive.save && (!wish.by.empty() || !wish.day.empty()))
    return "--by and --day are kept with a try: add --save.";
  return {};
}

/// Returns an error if two files would come from standard input: the first would read it to its
/// end.
std::string input_contradiction(const Request& request) {
  const bool other = request.worn == "-" || request.measured == "-";
  const auto orders = std::count(request.orders.begin(), request.orders.end(), "-");
  if (orders + (other ? 1 : 0) < 2) return {};
  return std::string("only one of the ") + (other ? "files" : "orders") +
         " can come from standard input";
}

/// Returns why the request contradicts itself, as a sentence for the user; empty if it does not.
/// CLI11 cannot see this.
std::string contradiction(const Request& request) {
  if (std::string words = input_contradiction(request); !words.empty()) return words;
  if (std::string words = output_contradiction(request); !words.empty()) return words;
  if (request.parts.cut_only && !request.parts.svg && !request.parts.dxf)
    return "--cut-only says what an SVG or DXF holds: add --svg or --dxf.";
  if (request.one_length && !request.paper.roll)
    return "--one-length needs a roll: --paper roll:WIDTH, the width in mm.";
  if (request.json && request.csv) return "--json and --csv: give one of them.";
  if (request.verb == Verb::archive) return archive_contradiction(request.archive);
  if (request.verb == Verb::accept) return accept_contradiction(request);
  if (request.verb == Verb::next) return next_contradiction(request);
  return {};
}

/// `help VERB` and `help archive ACTION` are these with --help behind them, and `help` alone is the
/// whole program's.
std::vector<const char*> with_help_behind(int argc, const char* const* argv) {
  std::vector<const char*> words(argv, argv + argc);
  const bool has_help = std::any_of(words.begin(), words.end(), [](const char* word) {
    return std::string_view(word) == "--help" || std::string_view(word) == "-h";
  });
  if (argc > 1 && std::string_view(words[1]) == "help" && !has_help) {
    words.erase(words.begin() + 1);
    words.push_back("--help");
  }
  return words;
}

std::variant<Request, Answer> read_words(int argc, const char* const* argv) {
  Options options;
  const std::vector<std::string> names = verb_names();
  if (argc < 2)
    return wrong_usage("say what to do with an order, for example: cut it. There are " +
                           in_words(names) + ".",
                       options.app);
  const std::string word = first_word(argc, argv);
  const VerbGuide* guide = verb_guide(word);
  if (!word.empty() && !guide)
    return wrong_usage("'" + word + "' is not a verb; there are " + in_words(names) + "." +
                           guess_words(word, names),
                       options.app);
  if (has_empty_word(argc, argv))
    return wrong_usage("an empty word, '', stands among the others: leave it out, or say what was "
                       "meant; a variable of a script may not be set.",
                       guide ? *options.app.get_subcommand(word) : options.app);
  if (guide) options.furnish(guide->verb);
  if (guide && guide->verb == Verb::archive)
    if (const std::string fault = unknown_action(argc, argv); !fault.empty())
      return wrong_usage(fault, *options.app.get_subcommand("archive"));
  try {
    options.app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Answer{ExitCode::done, options.app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Answer{ExitCode::done, std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    const CLI::App& app = options.chosen();
    return wrong_usage(fault_words(error, options.app, app), app);
  }
  const CLI::App& verb = options.chosen();
  if (guide->verb == Verb::manual)
    return Answer{ExitCode::done, manual_pages.at(options.draft.page)(described_command_line())};
  if (guide->verb == Verb::schema) return Answer{ExitCode::done, schema_named(options.draft.page)};
  const bool json_errors = options.draft.errors == "json";
  try {
    if (const auto errors = apply_settings(verb, options.draft); !errors.empty())
      return wrong_settings(errors, json_errors);
  } catch (const FileFault& fault) {
    return wrong_settings({plain_error(fault.what(), fault.advice)}, json_errors,
                          ExitCode::file_system);
  }
  Request request = request_of(std::move(options.draft), guide->verb);
  if (const std::string words = contradiction(request); !words.empty())
    return wrong_usage(words, verb);
  return request;
}

} // namespace

std::variant<Request, Answer> read_command_line(int argc, const char* const* argv) {
  const std::vector<const char*> words = with_help_behind(argc, argv);
  return read_words(static_cast<int>(words.size()), words.data());
}

} // namespace shankline
