// Reads the file of measurements of a worn pair that was right.
#pragma once

#include "cli/order_file/bench_file.hpp"
#include "geometry/fitting/worn_pair.hpp"

#include <string>
#include <string_view>

namespace shankline {

inline constexpr std::string_view worn_format = "shankline-worn/1";

BenchFile<WornPair> read_worn_text(std::string_view text, const std::string& file_name);
BenchFile<WornPair> read_worn_file(const std::string& path);

} // namespace shankline
