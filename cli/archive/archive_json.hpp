// The archive's JSON: what entries keep in that form, and what list, history, show, compare and
// audit give to other programs.
#pragma once

#include "cli/archive/archive_audit.hpp"
#include "cli/archive/archive_entry.hpp"
#include "cli/archive/archive_outcome.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/drawing/length_text.hpp"
#include "export/drawing/paper.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// Returns one line for EntryHead::outcome.
std::string outcome_json(const Outcome& outcome);
/// Reads a note's outcome; ignores keys that only a newer version knows.
Outcome outcome_of(const EntryHead& note);

/// A board that an entry cuts, mm from its heel end on the centre line.
struct SavedBoard {
  double witness = 0;
  double final_cut = 0;
  /// U at 95 % of the place that is right for the dancer, mm; absent in entries of versions that
  /// did not write it.
  std::optional<double> right_U;
};
struct SavedFoot {
  std::optional<SavedBoard> board; ///< absent where nothing is cut off it
  // Estimates of the contact model for the shoe cut at the final line; absent where it has none.
  std::optional<double> gap;      ///< mm
  std::optional<double> break_at; ///< mm, as the order's pose counts
};
/// The figures of an entry's stored solution, by foot; a foot that it does not have is absent.
struct SavedCut {
  std::optional<SavedFoot> left;
  std::optional<SavedFoot> right;

  const std::optional<SavedFoot>& foot(FootSide side) const {
    return side == FootSide::left ? left : right;
  }
  bool two_feet() const { return left && right; }
};
SavedCut saved_cut(std::string_view solution);

/// Returns one line with its end for EntryBody::options: the choices that were made when the order
/// was solved. `printer` may be null.
std::string options_json(const Paper& paper, Units units, const PrinterDrawing* printer);
/// "paper a4, width 210, height 297, units mm"
std::string options_words(const std::string& options);

/// A figure, word or null of the stored solution that differs between two entries.
struct SolutionDifference {
  std::string key; ///< "feet.left.trim.board.final.centre"
  std::string first;
  std::string second;
  std::optional<double> difference; ///< of figures: second less first, each as it is shown
};

inline constexpr int shown_decimals = 4; ///< of a stored figure, at most

/// Differences between two stored solutions, in the order of the first one's keys; a value that
/// only one of them has is "none" in the other. Leaves out templates, drawings, and figures that
/// look alike as shown.
std::vector<SolutionDifference> solution_differences(std::string_view first,
                                                     std::string_view second);

struct CutAndNotes {
  EntryHead cut;
  std::vector<EntryHead> notes; ///< the oldest first
};

/// "shankline-archive-list/1"; `older` is the id to go on with, 0 if there are no older entries.
std::string list_json(const std::vector<EntryHead>& heads, EntryId older);
/// "shankline-archive-history/1"
std::string history_json(const std::string& dancer, const std::vector<CutAndNotes>& cuts,
                         std::int64_t older);
/// "shankline-archive-entry/1"; a body for cuts.
std::string entry_json(const EntryHead& head, const EntryBody* body,
                       const std::vector<EntryHead>& notes);
/// "shankline-archive-differences/1"
std::string differences_json(const EntryHead& first, const EntryHead& second,
                             const std::vector<SolutionDifference>& differences);
/// "shankline-archive-audit/1"
std::string audit_json(const Audit& audit);

} // namespace shankline
