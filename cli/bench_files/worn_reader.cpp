#include "cli/bench_files/worn_reader.hpp"

#include <utility>

namespace shankline {
namespace {

template <auto member>
void worn_reading(ParseContext& context, const Entry& entry, WornFoot& foot) {
  reading_in<member>(context, guided_by(entry, "worn"), foot);
}

constexpr Field<WornFoot> foot_fields[] = {
    {"board_end", worn_reading<&WornFoot::board_end>},
    {"heel_end", worn_reading<&WornFoot::heel_end>},
    {"medial", worn_reading<&WornFoot::medial>},
    {"lateral", worn_reading<&WornFoot::lateral>},
    {"back", worn_reading<&WornFoot::back>},
};

void read_format(ParseContext& context, const Entry& entry, WornPair&) {
  expect_format(context, entry, worn_format, "what was measured on a worn pair");
}

void read_date(ParseContext& context, const Entry& entry, WornPair& pair) {
  if (auto day = read_day(context, entry)) pair.date = *std::move(day);
}

constexpr Field<WornPair> worn_fields[] = {
    {"format", read_format},
    {"dancer", text_in<&WornPair::dancer, code_limits>},
    {"pair", text_in<&WornPair::pair, line_limits>},
    {"date", read_date},
    {"left", structure_in<&WornPair::left, foot_fields>},
    {"right", structure_in<&WornPair::right, foot_fields>},
};

} // namespace

BenchFile<WornPair> read_worn_text(std::string_view text, const std::string& file_name) {
  return read_bench_text<WornPair>(text, file_name, worn_fields, worn_format);
}

BenchFile<WornPair> read_worn_file(const std::string& path) {
  return read_bench_file<WornPair>(path, worn_fields, worn_format);
}

} // namespace shankline
