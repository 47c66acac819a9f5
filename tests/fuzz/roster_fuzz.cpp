// A roster from anywhere: rows that are read come back the same when they are written again, and
// every mistake has a place and words.
#include "cli/order_file/roster_reader.hpp"
#include "cli/text/csv.hpp"

#include <cstdint>
#include <cstdlib>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace shankline;

constexpr const char* common = "pose: pointed\n"
                               "shoe:\n"
                               "  board: {state: loose, length: 220, inset: 5, thickness: 3.2,\n"
                               "          widths: [[22, 45], [96, 33], [164, 56]]}\n"
                               "alterations:\n"
                               "  shank: {reach: edge}\n";

void try_rows(std::string_view text) {
  const auto read = read_csv(text);
  if (const CsvFault* fault = std::get_if<CsvFault>(&read)) {
    if (fault->line < 1 || fault->column < 1 || fault->what.empty()) std::abort();
    return;
  }
  const auto& rows = std::get<std::vector<CsvRow>>(read);
  std::string again;
  for (const CsvRow& row : rows) {
    std::vector<CsvCell> cells;
    for (const CsvField& field : row.fields)
      cells.emplace_back(field.text);
    again += csv_row(cells);
  }
  const auto reread = read_csv(again);
  const auto* const same = std::get_if<std::vector<CsvRow>>(&reread);
  if (!same || same->size() != rows.size()) std::abort();
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t k = 0; k < rows[i].fields.size(); ++k)
      if ((*same)[i].fields[k].text != rows[i].fields[k].text) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  try_rows(text);
  const shankline::ReadRoster roster = shankline::read_roster(text, "fuzz.csv", common, "common");
  if (!roster.ok() && !roster.orders.empty()) std::abort();
  for (const shankline::Message& message : roster.messages)
    if (message.what.empty()) std::abort();
  return 0;
}
