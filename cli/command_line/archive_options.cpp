#include "cli/command_line/archive_options.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/archive/server_address.hpp"
#include "cli/job/allowed_value.hpp"
#include "cli/job/alteration_names.hpp"
#include "cli/job/typed_try.hpp"
#include "cli/manual/archive_guide.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"

#include <algorithm>
#include <array>
#include <CLI/CLI.hpp>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

/// Allows entry numbers up to 2^53: programs that read the JSON as doubles get them exactly.
AllowedValue ids() {
  return whole_number(1, 1LL << 53);
}

/// Adds the options of one action of the archive.
class ActionOptions {
public:
  ActionOptions(CLI::App& action, Request& request)
      : action_(action), request_(request), wish_(request.archive) {}

  void add(ArchiveAction action) {
    switch (action) {
    case ArchiveAction::save: // has the options of a cut
    case ArchiveAction::protect:
    case ArchiveAction::send:
      return;
    case ArchiveAction::prepare:
      action_.add_option("address", wish_.path, "postgresql://USER@HOST/DATABASE")
          ->required()
          ->type_name("ADDRESS");
      return;
    case ArchiveAction::move:
      action_.add_option("from", wish_.path, "the archive to copy from: a file or an address")
          ->required()
          ->type_name("FROM");
      action_.add_option("to", wish_.target, "the archive to fill: a file or an address")
          ->required()
          ->type_name("TO");
      return;
    case ArchiveAction::list:
      return list();
    case ArchiveAction::history:
      dancer(*action_.add_option("dancer", wish_.dancer, "the dancer's code")->required());
      paging();
      return json();
    case ArchiveAction::show:
      id("id", wish_.id);
      return json();
    case ArchiveAction::compare:
      id("first", wish_.id);
      id("second", wish_.second);
      return json();
    case ArchiveAction::reprint:
      id("id", wish_.id);
      output("PDF to write")->required();
      return;
    case ArchiveAction::note:
      return note();
    case ArchiveAction::worn:
      return worn();
    case ArchiveAction::end:
      return end();
    case ArchiveAction::mark:
      return mark();
    case ArchiveAction::pairs:
      dancer(*action_.add_option("dancer", wish_.dancer, "only this dancer"));
      drying();
      return json();
    case ArchiveAction::find:
      action_
          .add_option("text", wish_.text,
                      "entry, order digest, dancer's code, or a part of the pair's name")
          ->required()
          ->type_name("TEXT");
      restrict_to(*action_.add_option("--rows", wish_.rows, "show at most so many rows")
                       ->type_name("COUNT")
                       ->capture_default_str(),
                  whole_number(1, 1000));
      return json();
    case ArchiveAction::labels:
      restrict_to(
          *action_.add_option("id", wish_.ids, "numbers of entries, as archive list shows them")
               ->required()
               ->type_name("ID"),
          ids());
      output("PDF to write; default: labels.pdf in this directory");
      return; // and paper
    case ArchiveAction::overview:
      csv("print comma-separated values, one row for each finding");
      output("PDF to write");
      drying();
      return json(); // and paper
    case ArchiveAction::tries:
      return tries();
    case ArchiveAction::withdraw:
      id("id", wish_.id, "number of the wrong note, as archive show and history list it");
      action_.add_option("--words", wish_.outcome.words, "what was wrong with it")
          ->type_name("WORDS");
      return;
    case ArchiveAction::card:
    case ArchiveAction::care:
      id("id", wish_.id);
      return; // and as a cut's sheets
    case ArchiveAction::learn:
      csv("print comma-separated values, one row for each foot");
      output("PDF of what was learned to write");
      return json();
    case ArchiveAction::export_bundle:
      dancer(*action_.add_option("--dancer", wish_.dancer, "only this dancer's entries"));
      output("bundle to write; default: standard output");
      return;
    case ArchiveAction::import_bundle:
      action_.add_option("file", wish_.path, "bundle to read")->required()->type_name("FILE");
      return;
    case ArchiveAction::forget:
      dancer(*action_.add_option("dancer", wish_.dancer, "the dancer's code"));
      action_.add_flag("--yes", wish_.yes, "forget without asking");
      action_.add_flag("--finish", wish_.finish,
                       "name no dancer: finish an erasure that another program interrupted");
      return;
    case ArchiveAction::audit:
      action_
          .add_option("--known", wish_.known, "the end of the chain that an earlier audit printed")
          ->type_name("HASH");
      return json();
    case ArchiveAction::backup:
      action_.add_option("file", wish_.path, "file to write; it must not exist yet")
          ->required()
          ->type_name("FILE");
      return;
    }
    throw std::logic_error("action without options");
  }

private:
  void json() {
    action_.add_flag("--json", request_.json, "the result as JSON on standard output");
  }
  void csv(const std::string& words) { action_.add_flag("--csv", request_.csv, words); }
  CLI::Option* output(const std::string& words) {
    return action_.add_option("-o,--output", request_.output, words)->type_name("FILE");
  }
  void id(const std::string& name, EntryId& into,
          const char* words = "number of an entry, as archive list shows it") {
    restrict_to(*action_.add_option(name, into, words)->required()->type_name("ID"), ids());
  }
  static void dancer(CLI::Option& option) { option.type_name("DANCER"); }

  void paging() {
    restrict_to(*action_.add_option("--before", wish_.before, "show entries older than this one")
                     ->type_name("ID"),
                ids());
    restrict_to(*action_.add_option("--rows", wish_.rows, "show at most so many rows")
                     ->type_name("COUNT")
                     ->capture_default_str(),
                whole_number(1, 1000));
  }

  void list() {
    dancer(*action_.add_option("--dancer", wish_.dancer, "only this dancer"));
    action_.add_option("--pair", wish_.pair, "only pairs with this in their name")
        ->type_name("WORDS");
    day("--from", wish_.from,
        "only entries of this day or later, such as 2026-03-14 or 14 March 2026");
    day("--to", wish_.to, "only entries of this day or earlier");
    restrict_to(
        *action_.add_option("--alteration", wish_.alteration, "only pairs with this alteration")
             ->type_name("WHAT"),
        one_of(alteration_names()));
    paging();
    csv("print comma-separated values, one row for each entry");
    json();
  }

  void foot(std::vector<std::string> words, const std::string& what) {
    restrict_to(*action_.add_option("--foot", wish_.outcome.foot, what)->type_name("FOOT"),
                one_of(std::move(words)));
  }

  void tries() {
    id("id", wish_.id);
    const AllowedValue form{[](const std::string& typed) {
                              const auto read = read_typed_try(typed);
                              return read ? std::string()
                                          : read.why().what + ": write " + read.why().allowed + '.';
                            },
                            ""};
    restrict_to(
        *action_
             .add_option("tries", wish_.tries,
                         std::string("what the filled-in card says, as the board got shorter: ") +
                             typed_try_form)
             ->required()
             ->type_name("TRY"),
        form);
    foot({"left", "right"}, "whose board it was; needed when the entry cuts both boards");
    action_.add_flag("--back", wish_.from_witness,
                     "the ends are measured back from the witness line; default: mm cut off");
    restrict_to_code(*action_.add_option("--by", wish_.outcome.by, "code of the person who judged")
                          ->type_name("CODE"));
    day("--day", wish_.day, "day of the tries that name no day; default: today");
  }

  void drying() { add_drying(action_, request_); }

  void worn() {
    Outcome& outcome = wish_.outcome;
    restrict_to(
        *action_.add_option("id", wish_.id, "number of the pair's entry, as its label shows it")
             ->type_name("ID"),
        ids());
    figure("--hours", outcome.hours, "hours on pointe", "HOURS", 24);
    day("--on", wish_.day, "day of wear; default: today");
    foot({"left", "right", "both"}, "which shoe was worn; default: both");
    action_.add_option("--where", outcome.where, "class, stage, or a place")->type_name("WORDS");
    action_.add_flag("--wet", outcome.wet, "it was still damp, or got wet");
    restrict_to_seen_word(
        *action_.add_option("--seen", outcome.seen, seen_help)->type_name("WHAT"));
    action_
        .add_option("--done", outcome.done,
                    "to the pair, such as \"water on the vamp\"; any number of them")
        ->type_name("WORDS");
    restrict_to_code(*action_.add_option("--by", outcome.by, "code of the person who judged")
                          ->type_name("CODE"));
    action_.add_option("--words", outcome.words, "anything else")->type_name("WORDS");
    action_
        .add_option("--from", wish_.path,
                    "instead of one line, a CSV file of many: entry,hours,day,foot,where,wet,seen,"
                    "done,by,words; if one line is wrong, no line is kept")
        ->type_name("FILE");
  }

  void end() {
    Outcome& outcome = wish_.outcome;
    id("id", wish_.id, "number of the pair's entry, as its label shows it");
    restrict_to(*action_
                     .add_option("--reason", outcome.ended,
                                 "the board no longer springs back, the box gives, the satin is "
                                 "through, or something else")
                     ->required()
                     ->type_name("WHY"),
                one_of({end_reasons.begin(), end_reasons.end()}));
    day("--on", wish_.day, "last day of use; default: today");
    action_.add_option("--words", outcome.words, "anything else")->type_name("WORDS");
  }

  void mark() {
    restrict_to(*action_.add_option("id", wish_.ids, "numbers of the pairs' entries")
                     ->required()
                     ->type_name("ID"),
                ids());
    constexpr std::array<const char*, book_marks.size()> words{
        "the order went out on that day", "the pair came on that day", "it was found as ordered",
        "it was sent back", "it is worn from that day on"};
    for (std::size_t i = 0; i < book_marks.size(); ++i)
      day("--" + std::string(book_marks[i]), wish_.marks[i], words[i]);
    restrict_to(
        *action_
             .add_option("--for", wish_.outcome.kept_for, "what the pair is kept for from now on")
             ->type_name("WHAT"),
        one_of({"stage", "class"}));
  }

  void note() {
    Outcome& outcome = wish_.outcome;
    id("id", wish_.id);
    foot({"left", "right", "both"}, "which foot; needed when the entry has two");
    restrict_to_seen_word(
        *action_.add_option("--seen", outcome.seen, seen_help)->type_name("WHAT"));
    figure("--cut", outcome.cut_off, "cut off in all, mm from the heel end; default: as on record",
           "MM", 400);
    figure("--back", wish_.back, "instead of --cut: mm from the witness line back to the end", "MM",
           400);
    action_.add_flag("--worn", outcome.worn, "the try was after wear; default: at the barre");
    restrict_to_code(*action_.add_option("--by", outcome.by, "code of the person who judged")
                          ->type_name("CODE"));
    day("--day", wish_.day, "day when it was seen; default: today");
    figure("--gap", outcome.gap, "between arch and shoe, mm", "MM", 30);
    figure("--break", outcome.break_at, "where the shoe breaks, mm from the back of the heel", "MM",
           200);
    restrict_to(
        *action_.add_option("--comfort", outcome.comfort, "1 (bad) to 5 (good)")->type_name("MARK"),
        whole_number(1, 5));
    figure("--hours", outcome.hours, "how long the pair was worn", "HOURS", 10000);
    restrict_to(*action_.add_option("--days", outcome.days, "on how many days")->type_name("DAYS"),
                whole_number(0, 10000));
    figure("--further", outcome.further, "cut off in addition to what is on record, mm", "MM", 100);
    action_.add_option("--ended", outcome.ended, "how the pair's use ended")->type_name("WORDS");
    action_.add_option("--words", outcome.words, "anything else")->type_name("WORDS");
  }

  /// Kept as year-month-day, however it is typed.
  void day(const std::string& name, std::string& into, const std::string& words) {
    restrict_to_day(*action_.add_option(name, into, words)->type_name("DATE"));
  }

  void figure(const std::string& name, std::optional<double>& into, const std::string& words,
              const std::string& type, long long most) {
    restrict_to(*action_.add_option(name, into, words)->type_name(type), plain_number(0, most));
  }

  CLI::App& action_;
  Request& request_;
  ArchiveWish& wish_;
};

} // namespace

void restrict_to(CLI::Option& option, const AllowedValue& to) {
  option.check(to.fault, to.shown);
}

void restrict_to_code(CLI::Option& option) {
  constexpr std::size_t longest = 40; // bytes
  option.check(
      [](const std::string& typed) {
        return typed.size() > longest || has_controls(typed)
                   ? shown(typed) + " is not a code: take a short one, such as R2."
                   : std::string();
      },
      "");
}

void restrict_to_day(CLI::Option& option) {
  option.transform(CLI::Validator(
      [](std::string& typed) {
        ParsedDay read = read_typed_day(typed);
        typed = std::move(read.day);
        return read.what.empty() ? std::string() : read.what + ": " + read.advice + ".";
      },
      ""));
}

void restrict_to_seen_word(CLI::Option& option) {
  std::vector<std::string> words;
  for (const Word<Seen>& seen : seen_words)
    words.emplace_back(seen.word);
  const AllowedValue allowed = one_of(std::move(words));
  option.transform(CLI::Validator(
      [fault = allowed.fault](std::string& typed) {
        std::string word = seen_word(typed);
        if (word.empty()) return fault(typed);
        typed = std::move(word);
        return std::string();
      },
      allowed.shown));
}

void add_archive_file(CLI::App& verb, Request& request) {
  verb.add_option("--archive", request.archive.file,
                  "the archive's file or server, if not the usual one")
      ->type_name("FILE|ADDRESS");
}

void add_drying(CLI::App& verb, Request& request) {
  restrict_to(
      *verb.add_option("--drying", request.archive.drying,
                       "hours until a worn pair is dry (common practice), longer in humid air")
           ->type_name("HOURS")
           ->capture_default_str(),
      plain_number(0, 240));
}

void add_archive(CLI::App& verb, Request& request, const std::function<void(CLI::App&)>& add_saving,
                 const std::function<void(CLI::App&)>& add_sheets) {
  verb.require_subcommand(1);
  for (const ArchiveGuide& guide : archive_guides()) {
    CLI::App* action = verb.add_subcommand(std::string(guide.name), std::string(guide.summary));
    action->footer("Example:\n" + std::string(guide.example));
    action->callback([&request, &guide] { request.archive.action = guide.action; });
    if (guide.action == ArchiveAction::save) add_saving(*action);
    if (guide.action == ArchiveAction::card || guide.action == ArchiveAction::care ||
        guide.action == ArchiveAction::learn || guide.action == ArchiveAction::labels ||
        guide.action == ArchiveAction::overview || guide.action == ArchiveAction::show ||
        guide.action == ArchiveAction::history || guide.action == ArchiveAction::tries ||
        guide.action == ArchiveAction::list || guide.action == ArchiveAction::find)
      add_sheets(*action);
    ActionOptions(*action, request).add(guide.action);
    if (guide.action != ArchiveAction::prepare && guide.action != ArchiveAction::move)
      add_archive_file(*action, request);
  }
}

namespace {

std::string worn_contradiction(const ArchiveWish& wish) {
  const Outcome& outcome = wish.outcome;
  const bool one = wish.id > 0 || outcome.hours || !wish.day.empty() || outcome != Outcome{};
  if (!wish.path.empty()) return one ? "--from takes all from the file: leave the rest out." : "";
  if (wish.id == 0) return "give the pair's entry, ID, or a file of many lines: --from FILE.";
  if (!outcome.hours || *outcome.hours <= 0) return "say how long it was worn: --hours 2.";
  if (!outcome.seen.empty() && outcome.foot != "left" && outcome.foot != "right")
    return "what was seen is noted foot by foot: say --foot left or --foot right.";
  return {};
}

std::string note_contradiction(const ArchiveWish& wish) {
  const Outcome& outcome = wish.outcome;
  Outcome bare = outcome;
  bare.foot.clear();
  bare.by.clear();
  bare.worn = false;
  if (says_nothing(bare) && !wish.back) return "say what happened, for example --seen good.";
  if (outcome.cut_off && wish.back) return "--cut and --back say the same: give one of them.";
  if (outcome.further && (outcome.cut_off || wish.back))
    return "--cut and --back say where the board ends now: leave --further out.";
  if (outcome.foot == "both" && (!outcome.seen.empty() || outcome.cut_off || wish.back ||
                                 outcome.gap || outcome.break_at || outcome.further))
    return "what was seen or measured, and where the board ends, is noted foot by foot: say --foot "
           "left or --foot right.";
  return {};
}

} // namespace

std::string archive_contradiction(const ArchiveWish& wish) {
  constexpr std::size_t longest = 1000; // bytes
  if (!wish.from.empty() && !wish.to.empty() && wish.from > wish.to)
    return "--from " + wish.from + " comes after --to " + wish.to + ": exchange them.";
  if (!wish.known.empty() && !is_hex_of(wish.known, digest_digits))
    return "--known " + shown(wish.known) + " is not an end of a chain: give the " +
           std::to_string(digest_digits) + " figures and letters that audit printed.";
  if (wish.action == ArchiveAction::forget && wish.dancer.empty() != wish.finish)
    return wish.finish ? "give a dancer's code or --finish, not both."
                       : "say who is to be forgotten: give the dancer's code.";
  if (wish.action == ArchiveAction::prepare && !is_server_address(wish.path))
    return shown(wish.path) + " is not a server's address: write postgresql://USER@HOST/DATABASE.";
  if (wish.action == ArchiveAction::move && wish.path == wish.target)
    return "an archive cannot be moved to itself: give two places.";
  if (wish.action == ArchiveAction::worn)
    if (std::string words = worn_contradiction(wish); !words.empty()) return words;
  if (wish.action == ArchiveAction::mark && wish.outcome.kept_for.empty() &&
      std::all_of(wish.marks.begin(), wish.marks.end(),
                  [](const std::string& day) { return day.empty(); }))
    return "say what is to be marked, for example --sent 2026-03-16.";
  if (wish.action == ArchiveAction::note)
    if (std::string words = note_contradiction(wish); !words.empty()) return words;
  std::vector<const std::string*> said{&wish.outcome.ended, &wish.outcome.words,
                                       &wish.outcome.where};
  for (const std::string& done : wish.outcome.done)
    said.push_back(&done);
  for (const std::string* words : said) {
    if (words->size() > longest)
      return "a note holds at most " + std::to_string(longest) + " bytes of words.";
    if (has_controls(*words)) return "a note is one line of words, without control characters.";
  }
  return {};
}

} // namespace shankline
