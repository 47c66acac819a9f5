#include "cli/job.hpp"

#include "cli/chart_table.hpp"
#include "cli/message.hpp"
#include "cli/order_reader.hpp"
#include "cli/order_text.hpp"
#include "cli/report.hpp"
#include "export/digest.hpp"
#include "export/pdf_writer.hpp"
#include "export/sheet_set.hpp"
#include "export/side_sheet.hpp"
#include "export/solution_json.hpp"
#include "export/whole_file.hpp"
#include "geometry/break_chart.hpp"
#include "geometry/pair_contact.hpp"
#include "geometry/solution.hpp"

#include <algorithm>
#include <exception>
#include <filesystem>
#include <iostream>
#include <optional>
#include <utility>

namespace shankline {
namespace {

namespace fs = std::filesystem;

/// What an order asks for that has no sheet yet: said, never silently left out.
void note_undrawn(const Order& order, Findings& cautions) {
  std::string asked;
  const auto note = [&](const char* what, bool is_asked) {
    if (is_asked) asked += (asked.empty() ? "" : ", ") + std::string(what);
  };
  const auto wished = [&](const auto& wish) {
    return (order.left && wish(order.left->alterations)) ||
           (order.right && wish(order.right->alterations));
  };
  note("liner", wished([](const Alterations& wish) { return wish.full_liner; }));
  note("darning", wished([](const Alterations& wish) { return wish.darning.has_value(); }));
  note("ribbons", wished([](const Alterations& wish) { return wish.ribbons.has_value(); }));
  if (asked.empty()) return;
  cautions.push_back({Severity::caution, "alterations",
                      "this version draws no sheets for: " + asked, "",
                      "The sheets hold the boards and the sides only."});
}

/// One order, from its text to numbers and sheets.
class OrderJob {
public:
  OrderJob(const Request& request, std::string path, std::ostream& messages)
      : request_(request), path_(std::move(path)), messages_(messages) {}

  /// Reads and solves; false if there is an error, which has been said.
  bool solve() {
    auto text = read_order_text(path_);
    if (const Message* refused = std::get_if<Message>(&text)) return say({*refused}), false;
    const std::string& bytes = std::get<std::string>(text);
    read_ = read_order(bytes, path_ == "-" ? "standard input" : path_);
    if (!read_.ok()) return say(read_.messages), false;

    solution_ = shankline::solve(read_.order);
    const bool failed = has_error(solution_.findings);
    if (!failed) {
      note_undrawn(read_.order, solution_.findings);
      estimate_contact();
    }
    std::vector<Message> said = read_.messages;
    for (Message& message : read_.place(solution_.findings))
      said.push_back(std::move(message));
    if (!failed && !solution_.left && !solution_.right) {
      Message nothing;
      nothing.file = read_.file;
      nothing.key = "alterations";
      nothing.what = "the order asks for nothing that this version draws";
      nothing.allowed = "shank, sides";
      nothing.advice = "Write, for example:  shank: {reach: edge}";
      said.push_back(std::move(nothing));
    }
    say(said);
    if (has_error(said)) return false;

    digest_ = short_digest(sha256(bytes));
    return true;
  }

  void lay_out() {
    const SheetWish wish{request_.paper, request_.units, digest_};
    sheets_ = request_.verb == Verb::chart
                  ? chart_set(read_.order, solution_, charts_, wish)
                  : sheet_set(read_.order, solution_, solution_.findings, wish);
    if (sheets_->unshown.empty()) return;
    Message message;
    message.severity = Severity::caution;
    message.file = read_.file;
    message.what = "the sheets cannot show these characters, each is a '?' there:";
    for (const std::string& character : sheets_->unshown)
      message.what += " " + character;
    message.advice = "Western European letters can be shown.";
    say({message});
  }

  void write(const std::string& target) const {
    write_whole_file(target, pdf_bytes(sheets_->drawing));
  }

  std::string json() const {
    return solution_json(read_.order, solution_, contact_, charts_, solution_.findings,
                         request_.lines && sheets_ ? &*sheets_ : nullptr);
  }

  std::string report() const {
    if (request_.verb != Verb::chart)
      return report_text(read_.order, solution_, contact_, request_.units) +
             (request_.verb == Verb::check ? budget_text(solution_) : std::string());
    std::string text;
    for (const FootChart& foot : charts_)
      text += (text.empty() ? "" : "\n") + chart_table(solved(foot.side), foot.chart);
    return text;
  }
  std::size_t pages() const { return sheets_->drawing.pages.size(); }

private:
  const FootSolution& solved(FootSide side) const {
    return side == FootSide::left ? *solution_.left : *solution_.right;
  }

  /// Contact figures are an extra of a cut; a chart is made of them.
  void estimate_contact() {
    contact_ = pair_contact(read_.order, solution_);
    Findings& found = solution_.findings;
    found.insert(found.end(), contact_.cautions.begin(), contact_.cautions.end());
    if (request_.verb == Verb::cut) return;
    found.insert(found.end(), contact_.reasons.begin(), contact_.reasons.end());
    if (request_.verb != Verb::chart) return;
    const auto add = [&](FootSide side, const std::optional<FootContact>& contact) {
      if (!contact) return;
      if (auto chart = break_chart(read_.order, solved(side), *contact))
        charts_.push_back({side, std::move(*chart)});
    };
    add(FootSide::left, contact_.left);
    add(FootSide::right, contact_.right);
    if (charts_.empty())
      found.push_back({Severity::error, "alterations", "there is nothing to chart",
                       "a shank to cut, and the arch's depth or bend",
                       "Write a shank under alterations, and measure the arch depth."});
  }

  /// A file that is wrong all over is better repaired from the top.
  void say(const std::vector<Message>& said) const {
    constexpr std::size_t most = 40;
    const std::vector<Message> in_order = in_line_order(said);
    for (std::size_t i = 0; i < std::min(most, in_order.size()); ++i)
      messages_ << to_text(in_order[i]) << '\n';
    if (in_order.size() > most)
      messages_ << read_.file << ": and " << in_order.size() - most << " more of these\n";
  }

  const Request& request_;
  std::string path_;
  std::ostream& messages_;
  ReadOrder read_;
  Solution solution_;
  PairContact contact_;
  std::vector<FootChart> charts_;
  std::string digest_;
  std::optional<SheetSet> sheets_;
};

/// Where the sheets of an order go.
std::string target_of(const Request& request, const std::string& order) {
  std::string name = order == "-" ? "order.pdf" : fs::path(order).stem().string() + ".pdf";
  if (request.output.empty()) return name;
  std::error_code error;
  const bool directory = request.output.back() == '/' || fs::is_directory(request.output, error);
  return directory ? (fs::path(request.output) / name).string() : request.output;
}

/// Two orders that would overwrite each other's sheets are wrong usage, found before any is cut.
std::optional<std::string> clash(const Request& request) {
  std::vector<std::string> targets;
  for (const std::string& order : request.orders)
    targets.push_back(target_of(request, order));
  std::sort(targets.begin(), targets.end());
  const auto twice = std::adjacent_find(targets.begin(), targets.end());
  return twice == targets.end() ? std::nullopt : std::optional<std::string>(*twice);
}

ExitCode run_one(const Request& request, const std::string& order, std::ostream& out,
                 std::ostream& messages, std::string& json) {
  try {
    OrderJob job(request, order, messages);
    if (!job.solve()) return ExitCode::bad_input;
    const bool writes =
        request.verb == Verb::cut || (request.verb == Verb::chart && !request.output.empty());
    if (writes || (request.lines && request.verb != Verb::chart)) job.lay_out();
    const std::string target = target_of(request, order);
    if (writes) job.write(target);
    if (request.json) {
      json = job.json();
    } else if (!request.quiet) {
      out << job.report();
      if (writes)
        out << "\nwrote " << target << " (" << job.pages()
            << (job.pages() == 1 ? " page" : " pages")
            << "): print at 100 %, then lay a bank card on it\n";
    }
    return ExitCode::done;
  } catch (const FileFault& fault) {
    messages << "error: " << fault.what() << "\n  do: choose another place with -o\n";
    return ExitCode::file_system;
  } catch (const DoesNotFit& fault) {
    messages << order << ": error: " << fault.what()
             << "\n  do: check the side heights and wing_at\n";
    return ExitCode::bad_input;
  } catch (const std::exception& fault) {
    messages << order << ": error: a fault of this program, nothing was written: " << fault.what()
             << '\n';
    return ExitCode::bad_input;
  }
}

/// One document for one order, an array for several.
void print_json(const std::vector<std::string>& documents, bool several, std::ostream& out) {
  if (several) out << "[\n";
  for (std::size_t i = 0; i < documents.size(); ++i)
    out << (i > 0 ? ",\n" : "") << documents[i];
  if (several) out << "]\n";
}

} // namespace

ExitCode run(const Request& request, std::ostream& out, std::ostream& messages) {
  const bool several = request.orders.size() > 1;
  if (const auto target = clash(request); several && request.verb != Verb::check && target) {
    messages << "shankline: two orders would both be written to " << *target
             << "\n  do: give a directory with -o, and orders of different names\n";
    return ExitCode::bad_usage;
  }
  ExitCode worst = ExitCode::done;
  std::vector<std::string> documents;
  for (const std::string& order : request.orders) {
    std::string json;
    worst = std::max(worst, run_one(request, order, out, messages, json));
    if (!json.empty()) documents.push_back(std::move(json));
  }
  if (request.json) print_json(documents, several, out);
  out.flush();
  if (!out) {
    messages << "error: the results could not be written to standard output\n";
    return ExitCode::file_system;
  }
  return worst;
}

} // namespace shankline
