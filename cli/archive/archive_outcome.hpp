// A note about a cut pair: somebody tells how a try on pointe went, or anything else that happened
// to the pair afterwards.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/order/foot_side.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct Outcome {
  /// "left", "right" or "both"; empty in notes of versions that did not ask.
  std::string foot;
  std::string seen; ///< on pointe: one of `seen_words`, or a word of an earlier version
  /// Length of the board that was cut off by then, mm from its heel end on the centre line; 0 for
  /// the uncut board.
  std::optional<double> cut_off;
  /// U of `cut_off` at 95 %, mm, for a worn pair that was copied.
  std::optional<double> copied_U;
  bool worn = false;              ///< seen after wear; else at the barre
  std::string by;                 ///< code of who judged; empty if it was not said
  std::optional<double> gap;      ///< between arch and shoe, mm
  std::optional<double> break_at; ///< where the shoe breaks, mm as the order's pose counts
  std::optional<int> comfort;     ///< 1 (bad) to 5 (good)
  std::optional<double> hours;    ///< for which it was worn
  std::optional<int> days;        ///< on which it was worn
  std::optional<double> further;  ///< cut off since, mm
  std::string where;              ///< it was worn: class, stage, or a place
  bool wet = false;               ///< it was still damp, or got wet
  std::vector<std::string> done;  ///< to the pair since: "water on the vamp"
  /// The reason why the pair is no longer used: one of `end_reasons`, or free words of a note that
  /// did not have to choose one.
  std::string ended;
  std::string mark;     ///< a step in the order book, one of `book_marks`, on the note's day
  std::string kept_for; ///< from then on: "stage" or "class"
  std::string words;
  std::string withdraws; ///< digest of a note about the same cut that was wrong

  bool operator==(const Outcome&) const = default;
};

/// Why a pair is done: its board no longer springs back, the box gives, the satin is through.
inline constexpr std::array<std::string_view, 4> end_reasons{"board", "box", "satin", "other"};
/// The steps of an order, as they follow one another.
inline constexpr std::array<std::string_view, 5> book_marks{"sent", "received", "accepted",
                                                            "refused", "in-use"};

bool says_nothing(const Outcome& outcome);

/// The one foot that it is about; nullopt if it is about both, or does not say.
std::optional<FootSide> one_foot(const Outcome& outcome);

/// The words that begin a note which withdraws another one.
inline constexpr std::string_view withdraws_words = "withdraws a note";

/// "left 55.5 off, seen too-low, gap 2.0, comfort 4 of 5, 12.0 h on 5 days, 3.0 more cut off"
std::string outcome_words(const Outcome& outcome, Units units = Units::mm);

} // namespace shankline
