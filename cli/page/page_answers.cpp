#include "cli/page/page_answers.hpp"

#include "cli/archive/archive_place.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/order_job.hpp"
#include "cli/manual/order_schema_json.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/page/page_body_json.hpp"
#include "cli/report/chart_table.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"
#include "cli/text/quantity.hpp"
#include "cli/verbs/job.hpp"
#include "export/drawing/length_text.hpp"
#include "export/formats/digest.hpp"
#include "export/json/finding_json.hpp"
#include "export/screen/board_picture.hpp"
#include "export/screen/reading_picture.hpp"
#include "export/screen/screen_svg.hpp"
#include "export/wording/foot_words.hpp"
#include "geometry/board/trim_doubt.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <utility>

namespace shankline {
namespace {

namespace fs = std::filesystem;

constexpr int wrong_request = 400;
constexpr int no_such_path = 404;
constexpr int refused_order = 422;
constexpr int our_fault = 500;

/// Thrown for a request that is wrong by itself; an order that is wrong has findings instead.
struct WrongRequest {
  std::string words;
};

PageAnswer as_json(const JsonAnswer& answer, int status = 200) {
  return {status, "application/json", answer.text()};
}

PageAnswer fault(int status, const std::string& words) {
  JsonAnswer answer;
  answer.add_text("error", words);
  return as_json(answer, status);
}

std::string findings_json(const std::vector<Message>& messages) {
  std::vector<std::string> lines;
  for (const Message& message : messages)
    lines.push_back(finding_line(placed(message)));
  return json_list(lines);
}

std::string or_null(const std::string& json) {
  return json.empty() ? "null" : json;
}

/// The name under which an order is handed out: "m-07-touring-spring.yaml".
std::string order_name(const Order& order) {
  std::string name;
  for (const std::string* part : {&order.dancer, &order.pair}) {
    if (!name.empty() && name.back() != '-') name += '-';
    for (const char c : *part) {
      const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      if (is_letter(lower) || is_digit(lower))
        name += lower;
      else if (!name.empty() && name.back() != '-')
        name += '-';
    }
  }
  while (!name.empty() && name.back() == '-')
    name.pop_back();
  constexpr std::size_t longest = 60;
  return (name.empty() ? "order" : name.substr(0, longest)) + ".yaml";
}

/// A verb that ran: its output, and its messages one by one.
struct Ran {
  ExitCode code = ExitCode::done;
  std::string out;
  std::vector<Message> messages;
};

Ran ran(const Request& request) {
  std::ostringstream out;
  std::ostringstream messages;
  const MessageCollector kept(messages);
  Ran ran;
  ran.code = run(request, out, messages);
  ran.out = std::move(out).str();
  ran.messages = kept.all();
  // A few verbs write plain lines to the stream: they become one message.
  if (ran.code != ExitCode::done && ran.messages.empty())
    ran.messages.push_back(plain_error(std::move(messages).str()));
  return ran;
}

/// How well the final line of a foot is known, and which reading to take again first.
std::string known_words(const FootSolution& foot, Units units) {
  if (!foot.trim) return {};
  const SolvedTrim& trim = *foot.trim;
  const auto known = [units](double doubt) {
    return "\u00b1" + figure(doubt) + " mm" +
           (units == Units::inch ? " (" + inches(doubt) + " in)" : "");
  };
  std::string words = "The final line is known to " + known(trim.final_doubt().expanded()) +
                      ", the place that is right for this dancer to " + known(trim.right_U) + ".";
  if (const std::string first = repeat_first(trim.gains); !first.empty())
    words += " To be surer: " + first + ".";
  return words;
}

/// The estimates that stand in for readings which were not taken, by their keys in the order, in
/// mm.
std::string estimates(const Solution& solution) {
  JsonAnswer values;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    const std::string under = "feet." + foot_name((*foot)->side) + ".";
    for (const Estimated& one : (*foot)->estimated)
      values.add(under + one.key, figure(one.value, 1));
  }
  return values.text();
}

/// Both feet's texts by side; what is empty is left out.
template <class Make> std::string by_side(const Solution& solution, const Make& make) {
  JsonAnswer sides;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    const std::string text = make(**foot);
    if (!text.empty()) sides.add_text(foot_name((*foot)->side), text);
  }
  return sides.text();
}

/// One order through a job of its own; the texts and structs that it needs live as long as it does.
class SolvedPage {
public:
  SolvedPage(const Request& request, const PageBody& body)
      : request_(request), kept_(messages_), printer_(asked_printer(request_)),
        records_(request_.archive),
        job_(request_, printer_, records_, OrderSource(name_of(body), *body.order), messages_) {
    const ExitCode code = report_faults("the order", messages_, [&] {
      solved_ = job_.solve(&as_read_);
      return solved_ ? ExitCode::done : ExitCode::bad_input;
    });
    solved_ = solved_ && code == ExitCode::done;
  }

  bool ok() const { return solved_; }
  OrderJob& job() { return job_; }
  const std::vector<Message>& messages() const { return kept_.all(); }
  const Order& order() const { return as_read_.read.order; }

  /// Returns the document that the verb prints with --json.
  std::string json(std::string numbers) const {
    OrderAccount account;
    account.file = as_read_.read.file;
    account.digest = sha256(as_read_.text);
    for (const Message& message : messages())
      account.findings.push_back(placed(message));
    if (!ok()) numbers = refused_json({order().dancer, order().pair, order().date});
    return with_account(std::move(numbers), account);
  }

  static std::string name_of(const PageBody& body) {
    return body.name.empty() ? "order" : body.name;
  }

  /// Runs a further step of the job; false when it failed, which is among the messages then.
  bool does(const std::function<void()>& step) {
    return report_faults("the order", messages_, [&] {
             step();
             return ExitCode::done;
           }) == ExitCode::done;
  }

private:
  Request request_;
  std::ostringstream messages_;
  MessageCollector kept_;
  AskedPrinter printer_;
  Records records_;
  OrderJob job_;
  OrderText as_read_;
  bool solved_ = false;
};

const std::string& order_of(const PageBody& body) {
  if (!body.order) throw WrongRequest{"there is no order in the request"};
  return *body.order;
}

PageAnswer refused(const std::vector<Message>& messages) {
  JsonAnswer answer;
  answer.add("findings", findings_json(messages));
  return as_json(answer, refused_order);
}

Request with_order(Request request, const PageBody& body, Verb verb) {
  request.verb = verb;
  request.orders = {SolvedPage::name_of(body)};
  request.order_texts = {order_of(body)};
  return request;
}

PageAnswer live(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::check);
  request.json = true;
  request.at_every_edit = true; // an archive far away would hold up every key; the sheets ask it
  SolvedPage page(request, body);
  JsonAnswer answer;
  answer.add_truth("ok", page.ok());
  answer.add("solution", page.json(page.ok() ? page.job().json() : std::string()));
  if (page.ok()) {
    const Solution& solution = page.job().solved().solution;
    answer.add("pictures", by_side(solution, [&](const FootSolution& foot) {
                 return board_picture(foot, request.units);
               }));
    answer.add("known", by_side(solution, [&](const FootSolution& foot) {
                 return known_words(foot, request.units);
               }));
    answer.add("estimates", estimates(solution));
  }
  return as_json(answer);
}

PageAnswer open(const Request&, const PageBody& body) {
  const std::string& text = order_of(body);
  ReadOrder read = read_order(text, SolvedPage::name_of(body));
  std::vector<Message> messages;
  const std::string document = page_document(text, read.file, messages);
  JsonAnswer answer;
  answer.add_truth("ok", !document.empty());
  answer.add("document", or_null(document));
  answer.add_truth("comments", has_comments(text));
  answer.add("findings", findings_json(read.messages));
  return as_json(answer);
}

PageAnswer text(const Request&, const PageBody& body) {
  JsonAnswer answer;
  answer.add_text("text", order_of(body));
  answer.add_text("name", order_name(read_order(order_of(body), "order").order));
  return as_json(answer);
}

PageAnswer sheets(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::cut);
  request.maker = body.maker;
  request.card = body.card;
  request.care = body.care;
  SolvedPage page(request, body);
  std::string pdf;
  if (!page.ok() || !page.does([&] {
        page.job().lay_out();
        pdf = page.job().pdf();
      }))
    return refused(page.messages());
  return {200, "application/pdf", std::move(pdf)};
}

PageAnswer parts(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::cut);
  if (body.format != "svg" && body.format != "dxf")
    throw WrongRequest{"format is neither svg nor dxf"};
  request.parts.svg = body.format == "svg";
  request.parts.dxf = body.format == "dxf";
  request.parts.cut_only = body.cut_only;
  SolvedPage page(request, body);
  PartFiles made;
  if (!page.ok() || !page.does([&] {
        page.job().lay_out();
        made = page.job().parts();
      }))
    return refused(page.messages());
  const std::string name = order_name(page.order());
  std::vector<std::string> files;
  for (const PartFile& part : made.files) {
    JsonAnswer file;
    file.add_text("name", name.substr(0, name.rfind('.')) + part.suffix);
    file.add_text("text", part.bytes);
    files.push_back(file.text());
  }
  JsonAnswer answer;
  answer.add("files", json_list(files));
  answer.add("findings", findings_json(page.messages()));
  return as_json(answer);
}

/// The pages as pictures, in their order; of the sheets or of the charts.
std::vector<std::string> pictures_of(const SheetSet& set) {
  const Typeface typeface(set.drawing.lettering);
  std::vector<std::string> pages;
  for (const Page& page : set.drawing.pages) {
    JsonAnswer one;
    one.add_text("title", page.title);
    one.add_text("svg", page_picture(page, typeface));
    pages.push_back(one.text());
  }
  return pages;
}

PageAnswer pictures(const Request& usual, const PageBody& body) {
  SolvedPage page(with_order(usual, body, Verb::cut), body);
  std::vector<std::string> pages;
  if (!page.ok() || !page.does([&] {
        page.job().lay_out();
        pages = pictures_of(page.job().sheets());
      }))
    return refused(page.messages());
  JsonAnswer answer;
  answer.add("pages", json_list(pages));
  return as_json(answer);
}

PageAnswer chart(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::chart);
  request.json = true;
  SolvedPage page(request, body);
  std::vector<std::string> pages;
  const bool ok = page.ok() && page.does([&] {
    page.job().lay_out();
    pages = pictures_of(page.job().sheets());
  });
  JsonAnswer answer;
  answer.add_truth("ok", ok);
  answer.add("solution", page.json(page.ok() ? page.job().json() : std::string()));
  answer.add("pages", json_list(pages));
  std::string words;
  for (const FootChart& foot : page.job().charts())
    words += (words.empty() ? "" : "\n") +
             chart_table(page.job().solved().solved(foot.side), foot.chart, usual.units);
  answer.add_text("words", words);
  return as_json(answer);
}

/// A length as it was typed in a box of its own.
std::optional<double> typed_length(const std::string& text, const char* name) {
  if (text.empty()) return std::nullopt;
  const auto length = parse_quantity(text, Quantity::length);
  constexpr double longest = 400;
  if (!length || *length < 0 || *length > longest)
    throw WrongRequest{std::string(name) + " is not a length from 0 to 400 mm"};
  return *length;
}

/// The verb's document, then its words for people.
PageAnswer document_and_words(Request request, const char* key, bool changes) {
  request.json = true;
  request.archive.save = false;
  const Ran document = ran(request);
  request.json = false;
  request.archive.save = changes;
  const Ran words = document.code == ExitCode::done ? ran(request) : Ran{document.code, {}, {}};
  JsonAnswer answer;
  const bool ok = document.code == ExitCode::done && words.code == ExitCode::done;
  answer.add_truth("ok", ok);
  answer.add(key, document.code == ExitCode::done ? or_null(document.out) : "null");
  answer.add_text("words", words.out);
  answer.add("findings",
             findings_json(words.messages.empty() ? document.messages : words.messages));
  return as_json(answer);
}

PageAnswer after_a_try(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::next);
  if (body.foot == "left")
    request.next.foot = FootSide::left;
  else if (body.foot == "right")
    request.next.foot = FootSide::right;
  else if (!body.foot.empty())
    throw WrongRequest{"foot is neither left nor right"};
  request.next.cut_off = typed_length(body.cut, "cut");
  request.next.back = typed_length(body.back, "back");
  const auto* const seen =
      std::find_if(std::begin(seen_words), std::end(seen_words),
                   [&](const Word<Seen>& one) { return one.word == body.seen; });
  if (seen == std::end(seen_words)) throw WrongRequest{"what was seen is not known"};
  request.next.seen = seen->meaning;
  request.next.past_final = body.past_final;
  request.next.worn = body.worn;
  if (body.save) request.next.by = body.by;
  return document_and_words(std::move(request), "next", body.save);
}

PageAnswer compare(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::compare);
  if (!body.with.empty()) {
    request.orders.emplace_back("the other order");
    request.order_texts.push_back(body.with);
  }
  return document_and_words(std::move(request), "compare", false);
}

struct PageAction {
  std::string_view word;
  ArchiveAction action;
};
constexpr std::array page_actions{
    PageAction{"list", ArchiveAction::list},   PageAction{"history", ArchiveAction::history},
    PageAction{"show", ArchiveAction::show},   PageAction{"pairs", ArchiveAction::pairs},
    PageAction{"learn", ArchiveAction::learn}, PageAction{"overview", ArchiveAction::overview}};

/// Verbs that have no document print words alone.
bool has_document(ArchiveAction action) {
  return action != ArchiveAction::pairs && action != ArchiveAction::overview;
}

PageAnswer archive(const Request& usual, const PageBody& body) {
  Request request = usual;
  request.verb = Verb::archive;
  const auto wished = std::find_if(page_actions.begin(), page_actions.end(),
                                   [&](const PageAction& one) { return one.word == body.action; });
  if (wished == page_actions.end()) throw WrongRequest{"the page does not do that to an archive"};
  request.archive.action = wished->action;
  request.archive.dancer = body.dancer;
  request.archive.id = body.id;
  request.archive.before = body.before;
  if (!archive_is_there(request.archive.file)) {
    JsonAnswer answer;
    answer.add_truth("ok", true);
    answer.add_truth("absent", true);
    return as_json(answer);
  }
  const Ran words = ran(request);
  std::string document;
  if (words.code == ExitCode::done && has_document(wished->action)) {
    request.json = true;
    document = ran(request).out;
  }
  JsonAnswer answer;
  answer.add_truth("ok", words.code == ExitCode::done);
  answer.add("result", or_null(document));
  answer.add_text("words", words.out);
  answer.add("findings", findings_json(words.messages));
  return as_json(answer);
}

PageAnswer save(const Request& usual, const PageBody& body) {
  Request request = with_order(usual, body, Verb::archive);
  request.archive.action = ArchiveAction::save;
  const Ran done = ran(request);
  JsonAnswer answer;
  answer.add_truth("ok", done.code == ExitCode::done);
  answer.add_text("words", done.out);
  answer.add("findings", findings_json(done.messages));
  return as_json(answer);
}

/// A folder for one file that a verb writes; gone with what is in it.
class ShortLivedFolder {
public:
  ShortLivedFolder() {
    std::string name = (fs::temp_directory_path() / "shankline-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw EnvironmentFault(name + ": cannot be made");
    path_ = name;
  }
  ~ShortLivedFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  ShortLivedFolder(const ShortLivedFolder&) = delete;
  ShortLivedFolder& operator=(const ShortLivedFolder&) = delete;

  const fs::path& path() const { return path_; }

private:
  fs::path path_;
};

PageAnswer reprint(const Request& usual, const PageBody& body) {
  const ShortLivedFolder folder; // for its owner alone, as mkdtemp makes it
  Request request = usual;
  request.verb = Verb::archive;
  request.archive.action = ArchiveAction::reprint;
  request.archive.id = body.id;
  request.output = (folder.path() / "sheets.pdf").string();
  const Ran done = ran(request);
  if (done.code != ExitCode::done) return refused(done.messages);
  std::ifstream file(request.output, std::ios::binary);
  return {200, "application/pdf",
          std::string(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>())};
}

PageAnswer again(const Request& usual, const PageBody& body) {
  Request request = usual;
  request.verb = Verb::again;
  request.archive.dancer = body.dancer;
  const Ran done = ran(request);
  JsonAnswer answer;
  answer.add_truth("ok", done.code == ExitCode::done);
  if (done.code == ExitCode::done) {
    answer.add_text("text", done.out);
    answer.add_text("name", order_name(read_order(done.out, "order").order));
  }
  answer.add("findings", findings_json(done.messages));
  return as_json(answer);
}

/// Returns the texts and sketches that the page shows beside its boxes, and the order's schema.
PageAnswer readings(const Request& usual, const PageBody&) {
  Request request = usual;
  request.verb = Verb::explain;
  request.json = true;
  JsonAnswer sketches;
  for (const ReadingGuide& guide : reading_guides())
    if (const std::string picture = reading_picture(guide.key); !picture.empty())
      sketches.add_text(guide.key, picture);
  JsonAnswer between;
  for (const ReadingGuide& guide : reading_guides())
    if (!guide.between.empty()) between.add_text(guide.key, guide.between);
  JsonAnswer settled;
  settled.add_text("paper", usual.paper.name);
  settled.add_text("units", usual.units == Units::inch ? "in" : "mm");
  JsonAnswer answer;
  answer.add("readings", ran(request).out);
  answer.add("sketches", sketches.text());
  answer.add("between", between.text());
  answer.add("schema", order_schema());
  answer.add("usual", settled.text());
  return as_json(answer);
}

using Handler = PageAnswer (*)(const Request&, const PageBody&);
struct PagePath {
  std::string_view path;
  Handler handler;
};
constexpr std::array page_paths{
    PagePath{"/live", live},
    PagePath{"/readings", readings},
    PagePath{"/open", open},
    PagePath{"/text", text},
    PagePath{"/sheets", sheets},
    PagePath{"/parts", parts},
    PagePath{"/pictures", pictures},
    PagePath{"/chart", chart},
    PagePath{"/try", after_a_try},
    PagePath{"/compare", compare},
    PagePath{"/archive", archive},
    PagePath{"/archive/save", save},
    PagePath{"/archive/reprint", reprint},
    PagePath{"/again", again},
};

/// The user's settings under what this request says.
Request wished(Request usual, const PageBody& body) {
  if (!body.paper.empty()) {
    const auto paper = read_paper(body.paper);
    if (!paper) throw WrongRequest{"the paper is not known"};
    usual.paper = *paper;
  }
  if (body.units == "in")
    usual.units = Units::inch;
  else if (body.units == "mm")
    usual.units = Units::mm;
  else if (!body.units.empty())
    throw WrongRequest{"units are neither mm nor in"};
  return usual;
}

} // namespace

PageAnswer PageAnswers::to(std::string_view path, std::string_view body) const {
  const auto found = std::find_if(page_paths.begin(), page_paths.end(),
                                  [&](const PagePath& one) { return one.path == path; });
  if (found == page_paths.end()) return fault(no_such_path, "nothing is there");
  const auto read = read_page_body(body);
  if (const std::string* wrong = std::get_if<std::string>(&read))
    return fault(wrong_request, *wrong);
  const auto& asked = std::get<PageBody>(read);
  std::ostringstream said;
  PageAnswer answer;
  const ExitCode code = report_faults("the page", said, [&] {
    try {
      answer = found->handler(wished(usual_, asked), asked);
    } catch (const WrongRequest& wrong) {
      answer = fault(wrong_request, wrong.words);
    }
    return ExitCode::done;
  });
  return code == ExitCode::done ? answer : fault(our_fault, said.str());
}

} // namespace shankline
