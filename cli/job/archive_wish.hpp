// The user's request to the archive, as a plain struct.
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/archive/archive_outcome.hpp"

#include "geometry/wear/rotation.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

enum class ArchiveAction {
  save,
  list,
  history,
  show,
  compare,
  reprint,
  note,
  worn,
  end,
  mark,
  pairs,
  find,
  labels,
  overview,
  tries,
  withdraw,
  card,
  care,
  learn,
  export_bundle,
  import_bundle,
  forget,
  audit,
  backup,
  protect,
  prepare,
  send,
  move,
};

struct ArchiveWish {
  ArchiveAction action = ArchiveAction::list;
  std::string file;  ///< --archive, a file or a server's address; empty for the usual place
  bool save = false; ///< cut: save at once

  EntryId id = 0;
  EntryId second = 0; ///< compare
  std::string dancer;
  std::string pair;       ///< a part of its name
  std::string from;       ///< YYYY-MM-DD, this day included
  std::string to;         ///< likewise
  std::string alteration; ///< one of alteration_names()
  EntryId before = 0;     ///< go on below this entry; 0 from the newest
  std::size_t rows = 20;
  Outcome outcome;                    ///< note; tries and withdraw: foot, by and words
  std::optional<double> back;         ///< note: the board's end, mm back from the witness line
  std::string day;                    ///< note, tries: YYYY-MM-DD; empty for today
  std::vector<std::string> tries;     ///< as they were typed, each one that read_typed_try reads
  bool from_witness = false;          ///< tries: the ends are counted back from the witness line
  std::string path;                   ///< import, backup; prepare: an address; move: from where
  std::string target;                 ///< move: where to
  std::string known;                  ///< audit: an end of the chain written down elsewhere
  bool yes = false;                   ///< no question asked
  std::string text;                   ///< find: what stands on a label
  std::vector<EntryId> ids;           ///< labels: of these entries
  double drying = usual_drying_hours; ///< pairs, overview, rotation: hours until a pair is dry
  /// mark: days of the steps in the order book, by `book_marks`; empty for what was not said
  std::array<std::string, book_marks.size()> marks;
  bool finish = false; ///< forget: only bring an earlier forgetting to its end
};

} // namespace shankline
