// Feeds any bytes to the reader of single figures, one for each quantity by the first byte, and to
// that of papers: a figure is finite and reads back as itself, a paper is one that can be printed.
#include "cli/text/quantity.hpp"
#include "export/drawing/paper.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace {

using namespace shankline;

void try_figure(std::string_view text, Quantity wanted) {
  const auto read = parse_quantity(text, wanted);
  if (!read) {
    if (read.why().what.empty() || read.why().advice.empty()) std::abort();
    return;
  }
  const double value = *read;
  if (!std::isfinite(value)) std::abort();
  const std::string written = quantity_text(value, wanted);
  if (written.find('e') != std::string::npos) return; // as no ruler shows it
  const auto again = parse_quantity(written, wanted);
  // A text with more decimals than anybody measures is kept to a thousandth.
  if (again && std::abs(*again - value) > 0.00051 * (1 + std::abs(value) * 1e-9)) std::abort();
}

void try_paper(std::string_view text) {
  const auto read = read_paper(text);
  if (!read) {
    if (read.why().what.empty()) std::abort();
    return;
  }
  const Paper& paper = *read;
  if (!(paper.width > 0 && paper.width <= longest_page)) std::abort();
  if (!paper.roll && !(paper.height > 0 && paper.height <= longest_page)) std::abort();
  const auto again = read_paper(written(paper));
  if (!again) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  constexpr Quantity quantities[] = {Quantity::length, Quantity::angle, Quantity::percent,
                                     Quantity::mass, Quantity::number};
  if (size == 0) return 0;
  const std::string text(bytes + 1, bytes + size);
  const std::size_t choice = bytes[0] % (std::size(quantities) + 1);
  if (choice < std::size(quantities))
    try_figure(text, quantities[choice]);
  else
    try_paper(text);
  return 0;
}
