// Feeds any bytes to the readers of what was measured on a worn pair or on a made one, and of
// schedules in YAML and as a table (the first byte chooses): they must answer, and say where when
// the answer is no.
#include "cli/bench_files/measured_reader.hpp"
#include "cli/bench_files/schedule_reader.hpp"
#include "cli/bench_files/worn_reader.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace {

template <class File> void expect_places(const File& read) {
  for (const shankline::Message& message : read.messages) {
    const bool whole_file = message.line == 0 && message.column == 0; // it is empty, or too long
    const bool has_place = message.line > 0 && message.column > 0;
    if (!(whole_file || has_place) || shankline::to_text(message).empty()) std::abort();
  }
}

std::vector<shankline::AcceptanceLine> lines() {
  std::vector<shankline::AcceptanceLine> lines;
  for (const auto foot : {shankline::FootSide::left, shankline::FootSide::right})
    for (const char* key : {"end.medial", "end.centre", "kept", "bevel", "sides.back"})
      lines.push_back({foot, key, key, 60, {0, -1.5}, {}});
  return lines;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (size == 0) return 0;
  const std::string text(bytes + 1, bytes + size);
  switch (bytes[0] % 4) {
  case 0:
    expect_places(shankline::read_worn_text(text, "worn.yaml"));
    break;
  case 1:
    expect_places(shankline::read_measured_text(text, "measured.yaml", lines()));
    break;
  case 2:
    expect_places(shankline::read_schedule_text(text, "schedule.yaml"));
    break;
  default:
    expect_places(shankline::read_schedule_csv(text, "schedule.csv"));
  }
  return 0;
}
