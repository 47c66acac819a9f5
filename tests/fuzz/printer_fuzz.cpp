// Feeds any bytes to the reader of a calibrated printer's file: it must answer, say where when the
// answer is no, and never hand out a correction that is not to be used.
#include "cli/bench_files/printer_store.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace shankline;
  const std::string text(bytes, bytes + size);
  const ReadPrinter read = read_printer_text(text, "printer.yaml");
  for (const Message& message : read.messages)
    if (message.what.empty() || message.line < 0 || to_text(message).empty()) std::abort();
  if (!read.ok()) return 0;
  const PageCorrection& correction = read.printer.calibration.correction;
  for (const double scale : {correction.x_scale, correction.y_scale})
    if (!(std::abs(scale - 1) <= most_scale_error)) std::abort();
  if (!(std::abs(correction.skew) <= most_skew)) std::abort();
  if (correction_words(read.printer.calibration).empty()) std::abort();
  return 0;
}
