// One order from its file to sheets, numbers and archive entry. What `cut` writes and what the
// archive keeps come from the same job, so that they cannot differ.
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/last_pair.hpp"
#include "cli/job/learned_lookup.hpp"
#include "cli/job/request.hpp"
#include "cli/job/solved_order.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/page/sheet_set.hpp"
#include "export/sets/part_files.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/breaking/pair_contact.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Looks up in the archive what orders need of it. The orders of a batch share one.
struct Records {
  /// `archive` outlives it.
  explicit Records(const ArchiveWish& archive) : learned(archive), last_pairs(archive) {}

  LearnedLookup learned;
  LastPairs last_pairs;
};

/// Call solve(), then lay_out(), then what is wanted. `request`, `printer`, `records` and
/// `messages` must outlive the job.
class OrderJob {
public:
  OrderJob(const Request& request, const AskedPrinter& printer, Records& records,
           OrderSource source, std::ostream& messages);

  /// Reads the order, looks up the learned lines that it asks for, and solves it. Returns false
  /// after reporting an error. `as_read` gets what was read, if anything was.
  bool solve(OrderText* as_read = nullptr);

  /// Lays out the sheets and draws them for the printer. Throws AlreadyReported where it cannot be
  /// used.
  void lay_out();

  /// Writes the PDF to `target` and the part files beside it, and puts each into `written` as soon
  /// as it is there. Returns a line for each file.
  std::string write(const std::string& target, std::vector<std::string>& written);

  const SolvedOrder& solved() const { return *solved_; }
  const PairContact& contact() const { return contact_; }
  const std::vector<FootChart>& charts() const { return charts_; } ///< of the verb chart
  const SheetSet& sheets() const { return *sheets_; }              ///< once they are laid out

  /// With `one_length`, once the sheets are laid out: they as they were before they were put side
  /// by side and drawn for the printer. May be moved from.
  SheetSet& loose_sheets() { return *loose_; }

  /// The PDF's bytes, once the sheets are laid out.
  const std::string& pdf();
  /// Every part as a file of its own, in the forms that the request names.
  PartFiles parts() const;

  /// The solution's JSON, with the sheets' lines where these are asked for and laid out.
  std::string json();

  /// The entry for the archive; nothing is saved.
  ArchiveEntry entry();

private:
  const std::string& numbers();
  void estimate_contact(SolvedOrder& solved);
  void make_charts(SolvedOrder& solved);

  const Request& request_;
  const AskedPrinter& asked_printer_;
  Records& records_;
  OrderSource source_;
  std::ostream& messages_;
  std::optional<SolvedOrder> solved_;
  PairContact contact_;
  std::vector<FootChart> charts_;
  std::optional<SheetSet> sheets_;
  std::optional<SheetSet> loose_;
  std::optional<PrinterDrawing> printer_; ///< the sheets were drawn for it
  std::string pdf_;                       ///< empty until it is made
  std::string numbers_;                   ///< likewise
};

/// The entry that `cut --save` would keep. Writes no file. Returns nullopt after reporting an
/// error.
std::optional<ArchiveEntry> solved_entry(const Request& request, const AskedPrinter& printer,
                                         const OrderSource& order, std::ostream& messages);

} // namespace shankline
