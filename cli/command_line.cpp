#include "cli/command_line.hpp"

#include "cli/nearest_word.hpp"

#include <CLI/CLI.hpp>
#include <map>
#include <string_view>

namespace shankline {
namespace {

constexpr const char* about =
    "Cutting templates for altered pointe shoes: from foot measurements and the arch break to\n"
    "three-quarter shank trim lines, printed at true size.";
constexpr const char* main_example =
    "Example:\n"
    "  shankline cut order.yaml -o order.pdf   solve, print the numbers, write the sheets\n"
    "  shankline check order.yaml              the same, without writing anything\n"
    "  shankline chart order.yaml              what each cut would do\n\n"
    "Exit codes: 0 done, 1 wrong or missing input, 2 wrong usage, 3 the file system failed.\n";
constexpr const char* cut_example = "Example:\n"
                                    "  shankline cut order.yaml --paper letter -o order.pdf\n"
                                    "  shankline cut left.yaml right.yaml -o sheets/\n";
constexpr const char* check_example = "Example:\n"
                                      "  shankline check order.yaml\n"
                                      "  shankline check order.yaml --json\n";

constexpr const char* chart_example =
    "Example:\n"
    "  shankline chart order.yaml                what each cut would do, as a table\n"
    "  shankline chart order.yaml -o chart.pdf   the same with the break chart on paper\n";

/// What every verb shares.
void add_options(CLI::App& verb, Request& request, std::string& paper, std::string& units) {
  std::vector<std::string> names;
  for (const Paper& known : papers())
    names.emplace_back(known.name);
  verb.add_option("order", request.orders, "order file; - is standard input")
      ->required()
      ->type_name("ORDER");
  verb.add_option("--paper", paper, "paper: a4 or letter")
      ->type_name("NAME")
      ->check(CLI::IsMember(names))
      ->capture_default_str();
  verb.add_option("--units", units, "mm, or in for inches to 1/32 beside them")
      ->type_name("UNITS")
      ->check(CLI::IsMember({"mm", "in"}))
      ->capture_default_str();
  verb.add_flag("--json", request.json, "the solution as JSON on standard output");
  verb.add_flag("--lines", request.lines, "JSON with the lines of every template");
  verb.add_flag("-q,--quiet", request.quiet, "errors and cautions only");
}

struct Options {
  CLI::App app{about, "shankline"};
  Request request;
  std::string paper{"a4"};
  std::string units{"mm"};
  CLI::App* cut = nullptr;
  CLI::App* check = nullptr;
  CLI::App* chart = nullptr;

  Options() {
    app.set_version_flag("--version", std::string("shankline ") + SHANKLINE_VERSION,
                         "print the version and leave");
    app.set_help_flag("-h,--help", "print this and leave");
    app.require_subcommand(1);
    app.footer(main_example);
    cut = app.add_subcommand("cut", "solve, print the numbers, write the sheets as PDF");
    cut->footer(cut_example);
    cut->add_option("-o,--output", request.output,
                    "PDF to write, or a directory for it; else ORDER's name with .pdf, here")
        ->type_name("FILE");
    check = app.add_subcommand("check", "read and solve, write nothing: errors, cautions, "
                                        "what was estimated");
    check->footer(check_example);
    chart = app.add_subcommand("chart", "where the shoe will break: what each cut would do");
    chart->footer(chart_example);
    chart->add_option("-o,--output", request.output, "PDF of the break chart to write")
        ->type_name("FILE");
    for (CLI::App* verb : {cut, check, chart})
      add_options(*verb, request, paper, units);
  }

  const CLI::App& chosen() const {
    for (const CLI::App* verb : {cut, check, chart})
      if (verb->parsed()) return *verb;
    return app;
  }
  Verb verb() const {
    if (cut->parsed()) return Verb::cut;
    return check->parsed() ? Verb::check : Verb::chart;
  }
};

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const std::vector<std::string_view> views(known.begin(), known.end());
  const auto near = nearest_word(word, views);
  return near ? " Did you mean '" + std::string(*near) + "'?" : std::string();
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options())
    for (const std::string& name : option->get_lnames())
      names.push_back("--" + name);
  return names;
}

Answer wrong_usage(const std::string& words, const CLI::App& app) {
  const std::string verb = app.get_parent() ? " " + app.get_name() : "";
  return {ExitCode::bad_usage, "shankline: " + words + "\n  see: shankline" + verb + " --help\n"};
}

/// A first word that is no verb: CLI11 would only say that one is required.
std::string unknown_verb(int argc, const char* const* argv) {
  const std::vector<std::string> verbs{"cut", "check", "chart"};
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word.empty() || word[0] == '-') continue;
    for (const std::string& verb : verbs)
      if (word == verb) return {};
    return "'" + word + "' is no verb; there are cut, check and chart." + did_you_mean(word, verbs);
  }
  return {};
}

/// The option that CLI11 did not expect, if that was the fault.
std::string unknown_option(const CLI::App& app, int argc, const char* const* argv) {
  const std::vector<std::string> known = option_names(app);
  for (int i = 1; i < argc; ++i) {
    const std::string word(argv[i], std::string_view(argv[i]).find('=') == std::string_view::npos
                                        ? std::string_view(argv[i]).size()
                                        : std::string_view(argv[i]).find('='));
    if (word.rfind("--", 0) != 0 || word == "--") continue;
    bool found = false;
    for (const std::string& name : known)
      found = found || name == word;
    if (!found) return "there is no option '" + word + "'." + did_you_mean(word, known);
  }
  return {};
}

} // namespace

std::variant<Request, Answer> read_command_line(int argc, const char* const* argv) {
  Options options;
  if (argc < 2)
    return wrong_usage("say what to do with an order: cut, check or chart it.", options.app);
  if (const std::string fault = unknown_verb(argc, argv); !fault.empty())
    return wrong_usage(fault, options.app);
  try {
    options.app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Answer{ExitCode::done, options.app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Answer{ExitCode::done, std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    const CLI::App& app = options.chosen();
    const std::string option = unknown_option(app, argc, argv);
    return wrong_usage(option.empty() ? error.what() : option, app);
  }
  Request request = std::move(options.request);
  request.verb = options.verb();
  request.paper = *paper_named(options.paper);
  request.units = options.units == "in" ? Units::inch : Units::mm;
  request.json = request.json || request.lines;
  return request;
}

} // namespace shankline
