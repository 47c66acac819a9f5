// Calibrated printers, one small file each in the user's configuration directory.
#pragma once

#include "cli/text/message.hpp"
#include "geometry/uncertainty/page_correction.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct StoredPrinter {
  std::string name;
  std::string paper; ///< that the calibration sheet was printed on
  PrintedLengths measured;
};

struct CalibratedPrinter {
  StoredPrinter stored;
  Calibration calibration; ///< without an error
};

/// A printer's file as it was read: the printer where no message is an error.
struct ReadPrinter {
  CalibratedPrinter printer;
  std::vector<Message> messages;

  bool ok() const { return !has_error(messages); }
};
ReadPrinter read_printer_text(std::string_view text, const std::string& file_name);

/// Letters, figures, '-' and '_', at most 32, the first no sign: it is the name of a file as well.
bool is_printer_name(std::string_view name);

/// $XDG_CONFIG_HOME/shankline/printers, or the same under $HOME/.config (XDG Base Directory
/// Specification: a path that is not absolute is ignored). Throws EnvironmentFault where neither is
/// set.
std::string printer_directory();

/// Sorted; empty where there is no directory yet.
std::vector<std::string> printer_names();

/// Says what is wrong: no such printer (the known ones are named), or a file that cannot be used.
std::optional<CalibratedPrinter> load_printer(const std::string& name, std::ostream& messages);

/// Replaces an older calibration, whole or not at all; only its owner can read it. Returns the
/// file's path. Throws FileFault.
std::string store_printer(const StoredPrinter& printer);

/// False where there is none. Throws FileFault.
bool forget_printer(const std::string& name);

/// "x 1.013 +-0.002, y 1.011 +-0.001, skew 0.00 degrees": what is drawn for what shall be.
std::string correction_words(const Calibration& calibration);

} // namespace shankline
