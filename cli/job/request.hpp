// The user's request on the command line, as a plain struct.
#pragma once

#include "cli/job/archive_wish.hpp"
#include "export/drawing/length_text.hpp"
#include "export/drawing/paper.hpp"
#include "export/sets/part_files.hpp"
#include "geometry/fitting/acceptance_lines.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/order.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

enum class Verb {
  cut,
  check,
  ask,
  form,
  explain,
  chart,
  rack,
  roster,
  compare,
  next,
  match,
  accept,
  again,
  rotation,
  printer,
  archive,
  manual,
  schema,
  config,
  page,
  help
};

/// After a try. At most one of `cut_off` and `back` is there: once the heel end is gone, the
/// board's end is measured back from the witness line. With neither it goes on from where the
/// archive has it.
struct NextWish {
  std::optional<FootSide> foot;  ///< may be left out when the order cuts one board only
  std::optional<double> cut_off; ///< mm from the heel end
  std::optional<double> back;    ///< mm from the witness line back to the board's end
  Seen seen = Seen::low;
  bool past_final = false;
  EntryId entry = 0; ///< the pair's entry in the archive; 0: that of the very same order
  // The archive keeps these with the try.
  bool worn = false; ///< seen after wear
  std::string by;    ///< a code, or empty
  std::string day;   ///< YYYY-MM-DD; empty for today
};

struct RotationWish {
  std::string schedule;         ///< a file of days and hours
  std::string calendar;         ///< where the calendar goes, if one is wanted
  std::optional<int> lead_days; ///< from order to arrival; else what is on record
};

/// printer: all empty for nothing asked.
struct PrinterWish {
  std::string name;
  std::string measured; ///< as typed: four lengths in mm
  bool list = false;
  bool forget = false;
};

struct PageWish {
  std::uint16_t port = 0; ///< 0 for one that is free
  bool open = false;      ///< in the browser
};

struct Request {
  Verb verb = Verb::cut;
  std::vector<std::string> orders; ///< files or folders; "-" is standard input
  /// The texts of the first orders, where they are here already: `orders` are their names then.
  std::vector<std::string> order_texts;
  std::string output; ///< -o: a file, or a directory; empty for the order's own name
  Paper paper{};
  Units units = Units::mm;
  bool json = false;
  bool csv = false;           ///< the result as comma-separated values; not with json
  bool lines = false;         ///< JSON with every template's lines
  bool maker = false;         ///< cut: the order for a maker as well
  bool card = false;          ///< cut: the dancer's card as well
  bool care = false;          ///< cut: the page on breaking in and repair as well
  bool one_length = false;    ///< cut: all pages side by side on one length of the roll
  bool strip = false;         ///< form: the paper strips instead
  PartFormats parts;          ///< every part as a file of its own, beside the PDF
  bool quiet = false;         ///< errors and cautions only
  bool json_errors = false;   ///< --errors json: what is found as JSON, a line each
  bool pdf_to_output = false; ///< -o -: the PDF to standard output, all else to the messages

  std::size_t jobs = 0; ///< threads for many orders; 0 for one a core
  /// Width of the terminal that messages go to; 0 where no bar is to be drawn.
  std::size_t progress_columns = 0;

  std::string printer; ///< the calibrated one that sheets are drawn for; empty for none

  bool same_reader = false;   ///< compare: one person read both orders
  bool sampled = false;       ///< check: U by drawing as well
  bool at_every_edit = false; ///< check: asked anew while the order is typed; the last pair is not
  std::string common;         ///< roster: the file of common values
  std::string labels;         ///< rack: where the stick-in labels go, if they are wanted
  NextWish next;
  RotationWish rotation;
  std::string worn;                  ///< match: what was measured on the worn pair
  std::string measured;              ///< accept: what was measured on the made pair
  bool blank = false;                ///< accept: the form, before the pair is there
  std::optional<JudgedAt> judged_at; ///< accept: which line the pair was cut at, if said
  PrinterWish calibration;           ///< printer
  PageWish page;                     ///< page
  ArchiveWish archive;               ///< every verb that reads or saves entries
  bool yes = false;                  ///< ask: no question about files that are there already
  std::string key;                   ///< explain: the reading; empty for all of them
};

} // namespace shankline
