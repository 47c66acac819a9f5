#include "cli/verbs/archive_looking.hpp"

#include "cli/archive/archive_drawing.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/archive/archive_tries.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/archive_words.hpp"
#include "cli/job/dancer_code.hpp"
#include "cli/surroundings/program_version.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"

#include <algorithm>
#include <exception>
#include <ostream>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t at_once = 256; // entries in memory while searching

bool holds_word(std::string_view list, std::string_view word) {
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(", "), list.size());
    if (list.substr(0, end) == word) return true;
    list.remove_prefix(std::min(end + 2, list.size()));
  }
  return false;
}

bool is_wished(const EntryHead& head, const ArchiveWish& wish) {
  const bool narrowed =
      !wish.pair.empty() || !wish.from.empty() || !wish.to.empty() || !wish.alteration.empty();
  if (!narrowed) return true;
  if (!has_dancer(head.kind)) return false;
  const std::string day = day_of(head);
  return (wish.from.empty() || day >= wish.from) && (wish.to.empty() || day <= wish.to) &&
         (wish.pair.empty() || head.pair.find(wish.pair) != std::string::npos) &&
         (wish.alteration.empty() || holds_word(head.alterations, wish.alteration));
}

/// Goes through entries from the newest on, or on from where an earlier page ended: the same work
/// for every page, however deep.
class Search {
public:
  Search(Store& store, const ArchiveWish& wish) : store_(store), wish_(wish) {
    if (wish.before == 0) return;
    below_ = wish.before;
    if (wish.dancer.empty()) return;
    const auto head = store.head(wish.before);
    below_ = head && head->dancer == wish.dancer ? head->turn : newest;
  }

  /// One more than wished, where there is one: there is something to go on with.
  std::vector<EntryHead> found(std::size_t rows) {
    std::vector<EntryHead> all;
    while (true) {
      const std::size_t most = std::min(at_once, std::max<std::size_t>(rows + 1, 32));
      std::vector<EntryHead> page = wish_.dancer.empty()
                                        ? store_.older(below_, most)
                                        : store_.older_of(wish_.dancer, below_, most);
      for (EntryHead& head : page) {
        below_ = wish_.dancer.empty() ? head.id : head.turn;
        // An entry of somebody else's is not a place to go on from in a dancer's own.
        if (wish_.before != 0 && head.id >= wish_.before) continue;
        if (is_wished(head, wish_)) all.push_back(std::move(head));
        if (all.size() > rows) return all;
      }
      if (page.size() < most) return all;
    }
  }

private:
  Store& store_;
  const ArchiveWish& wish_;
  std::int64_t below_ = newest;
};

/// The cut that a note is about; 0 where the archive does not have it.
EntryId id_about(Store& store, const EntryHead& note) {
  for (std::int64_t below = note.turn; below > 1;) {
    const std::vector<EntryHead> page = store.older_of(note.dancer, below, 32);
    for (const EntryHead& head : page)
      if (head.digest == note.about) return head.id;
    if (page.empty()) return 0;
    below = page.back().turn;
  }
  return 0;
}

/// The last of `all` is cut off when there are more than `rows`; the id to go on below, or 0.
EntryId go_on_below(std::vector<EntryHead>& all, std::size_t rows) {
  if (all.size() <= rows) return 0;
  all.resize(rows);
  return all.back().id;
}

/// Gives each of the cuts, the newest first, what was noted about it, the oldest first. Notes are
/// newer than what they are about, by any number of entries.
void add_notes(Store& store, const std::string& dancer, std::vector<CutAndNotes>& cuts) {
  if (cuts.empty()) return;
  const std::int64_t oldest = cuts.back().cut.turn;
  for (std::int64_t below = newest; below > oldest;) {
    const std::vector<EntryHead> page = store.older_of(dancer, below, at_once);
    for (const EntryHead& head : page)
      for (CutAndNotes& row : cuts)
        if (head.kind == EntryKind::note && head.about == row.cut.digest) row.notes.push_back(head);
    if (page.empty()) break;
    below = page.back().turn;
  }
  for (CutAndNotes& row : cuts)
    std::reverse(row.notes.begin(), row.notes.end());
}

/// Why the bytes of a PDF are not those of then although the drawing is.
std::string writer_words(const EntryHead& head) {
  const int order = compare_versions(head.program, program_version());
  if (order < 0) return "written by a newer version";
  if (order > 0) return "written by an older version";
  return "written with other libraries or typefaces than then";
}

/// Faces are not kept in the archive: one that was replaced since is a reason, too.
std::string faces_needed(const Drawing& drawing) {
  std::string words;
  for (const Face& face : drawing.lettering.faces)
    words += (words.empty() ? ", with the typeface as it is now: " : ", ") +
             without_controls(face.regular.path);
  return words;
}

constexpr const char* list_advice = "shankline archive list shows what there is";

/// A drawing that no version can print.
ExitCode refuse_spoilt(const EntryHead& head, const std::exception& fault, std::ostream& messages) {
  messages << "error: entry " << head.id << ": its drawing is spoilt, " << fault.what()
           << "; nothing was written\n  do: take the entry from a backup of the archive\n";
  return ExitCode::file_system;
}

} // namespace

ExitCode refuse(const std::string& what, const std::string& advice, std::ostream& messages) {
  say({plain_error(what, advice)}, messages);
  return ExitCode::bad_input;
}

ExitCode refuse(const Advice& why, std::ostream& messages) {
  Message error = plain_error(why.what, why.advice);
  error.allowed = why.allowed;
  say({std::move(error)}, messages);
  return ExitCode::bad_input;
}

ExitCode refuse_unknown(const std::string& dancer, const std::string& other,
                        std::ostream& messages) {
  return refuse("the archive has nothing of " + shown(dancer),
                other.empty() ? list_advice : "did you mean " + without_controls(other) + "?",
                messages);
}

ExitCode refuse_unknown(Store& store, const std::string& dancer, std::ostream& messages) {
  return refuse_unknown(dancer, other_spelling(store, dancer), messages);
}

FoundEntry find_entry(Store& store, EntryId id) {
  if (auto head = store.head(id)) return {*std::move(head), {}, {}};
  return {{}, "the archive has no entry " + std::to_string(id), list_advice};
}

FoundEntry find_cut(Store& store, EntryId id) {
  FoundEntry found = find_entry(store, id);
  if (!found.fault.empty() || found.head.kind == EntryKind::cut) return found;
  found.fault = "entry " + std::to_string(id) + " is ";
  found.advice = "give a cut's entry; " + std::string(list_advice);
  if (found.head.kind != EntryKind::note) {
    found.fault += found.head.kind == EntryKind::forgotten ? "forgotten" : "no cut";
    return found;
  }
  const EntryId about = id_about(store, found.head);
  found.fault += "a note" + (about > 0 ? " on " + std::to_string(about) : std::string());
  if (about > 0) found.advice = "give the cut's entry, " + std::to_string(about);
  return found;
}

ExitCode list_archive(Store& store, const Request& request, std::ostream& out,
                      std::ostream& /*messages*/) {
  const ArchiveWish& wish = request.archive;
  std::vector<EntryHead> heads = Search(store, wish).found(wish.rows);
  const EntryId older = go_on_below(heads, wish.rows);
  if (request.json) {
    out << list_json(heads, older);
    return ExitCode::done;
  }
  if (heads.empty() && !request.csv) {
    out << "nothing found\n";
    if (const std::string other = other_spelling(store, wish.dancer); !other.empty())
      out << "did you mean " << without_controls(other) << "?\n";
    return ExitCode::done;
  }
  std::vector<ListRow> rows;
  for (EntryHead& head : heads) {
    const EntryId about = head.kind == EntryKind::note ? id_about(store, head) : 0;
    rows.push_back({std::move(head), about});
  }
  if (request.csv) {
    out << list_csv(rows);
    return ExitCode::done;
  }
  out << list_words(rows, request.units);
  if (older > 0) out << "older ones: --before " << older << '\n';
  return ExitCode::done;
}

ExitCode show_history(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  std::vector<CutAndNotes> cuts;
  Search search(store, wish);
  EntryId older = 0;
  bool any = false;
  for (bool done = false; !done;) {
    std::vector<EntryHead> page = search.found(at_once);
    done = page.size() <= at_once;
    any = any || !page.empty();
    for (EntryHead& head : page) {
      if (head.kind != EntryKind::cut) continue;
      if (cuts.size() == wish.rows) {
        older = cuts.back().cut.id;
        done = true;
        break;
      }
      cuts.push_back({std::move(head), {}});
    }
  }
  if (!any && wish.before == 0) return refuse_unknown(store, wish.dancer, messages);
  add_notes(store, wish.dancer, cuts);
  if (request.json) {
    out << history_json(wish.dancer, cuts, older);
    return ExitCode::done;
  }
  out << fitted(wish.dancer, archive_width) << '\n' << history_words(cuts, request.units);
  if (older > 0) out << "older ones: --before " << older << '\n';
  return ExitCode::done;
}

ExitCode show_entry(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages) {
  const FoundEntry found = find_entry(store, request.archive.id);
  if (!found.fault.empty()) return refuse(found.fault, found.advice, messages);
  const bool is_cut = found.head.kind == EntryKind::cut;
  const EntryBody body = is_cut ? store.body(found.head) : EntryBody{};
  const std::vector<EntryHead> notes =
      is_cut ? notes_about(store, found.head) : std::vector<EntryHead>();
  out << (request.json ? entry_json(found.head, is_cut ? &body : nullptr, notes)
                       : entry_words(found.head, is_cut ? &body : nullptr, notes, request.units));
  return ExitCode::done;
}

ExitCode compare_entries(Store& store, const Request& request, std::ostream& out,
                         std::ostream& messages) {
  const FoundEntry first = find_cut(store, request.archive.id);
  const FoundEntry second = find_cut(store, request.archive.second);
  for (const FoundEntry* found : {&first, &second})
    if (!found->fault.empty()) return refuse(found->fault, found->advice, messages);
  const auto differences =
      solution_differences(store.body(first.head).solution, store.body(second.head).solution);
  out << (request.json ? differences_json(first.head, second.head, differences)
                       : difference_words(first.head, second.head, differences));
  return ExitCode::done;
}

ExitCode reprint(Store& store, const Request& request, std::ostream& out, std::ostream& messages) {
  const FoundEntry found = find_cut(store, request.archive.id);
  if (!found.fault.empty()) return refuse(found.fault, found.advice, messages);
  const EntryBody body = store.body(found.head);
  if (follows_older_rule(found.head)) messages << "caution: " << older_rule_words << '\n';
  const std::string other = "entry " + std::to_string(found.head.id) + " was drawn by version " +
                            found.head.program + ", and this one (" + program_version() + ") ";
  const int since_then = compare_versions(program_version(), found.head.program);
  const std::string by_that = "reprint it with version " + without_controls(found.head.program);
  try {
    const Drawing drawing = drawing_of(body.drawing);
    const std::string pdf = pdf_bytes(drawing);
    const std::string target =
        output_file(request.output, "entry-" + std::to_string(found.head.id) + ".pdf");
    write_pdf(request.output, target, pdf);
    out << wrote_words(target, drawing.pages.size());
    if (sha256(pdf) != body.sheets)
      out << "the same drawing, " << writer_words(found.head) << faces_needed(drawing) << '\n';
  } catch (const DrawingCorrupt& fault) {
    return refuse_spoilt(found.head, fault, messages);
  } catch (const DrawingUnreadable& fault) {
    // Every form of an earlier version is read.
    if (since_then >= 0) return refuse_spoilt(found.head, fault, messages);
    return refuse(other + "cannot read it: " + fault.what(), by_that, messages);
  } catch (const DrawingFault& fault) {
    if (since_then == 0) return refuse_spoilt(found.head, fault, messages);
    return refuse(other + "cannot draw it: " + fault.what(), by_that, messages);
  }
  return ExitCode::done;
}

} // namespace shankline
