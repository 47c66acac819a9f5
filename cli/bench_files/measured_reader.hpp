// Reads the file of measurements of a made or delivered pair, and of the instrument.
#pragma once

#include "cli/order_file/bench_file.hpp"
#include "geometry/fitting/acceptance_lines.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

inline constexpr std::string_view measured_format = "shankline-measured/1";

struct MeasuredPair {
  std::string dancer;
  std::string date;
  std::string by; ///< who measured
  std::vector<MadeSize> sizes;
};

/// `lines` is what the order has: anything else in the file is an error that names it.
BenchFile<MeasuredPair> read_measured_text(std::string_view text, const std::string& file_name,
                                           std::span<const AcceptanceLine> lines);
BenchFile<MeasuredPair> read_measured_file(const std::string& path,
                                           std::span<const AcceptanceLine> lines);

} // namespace shankline
