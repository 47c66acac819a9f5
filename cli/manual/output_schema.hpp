// The JSON Schemas (draft 2020-12) of what the program prints for other programs. Each stands in a
// file of its own in cli/manual/schemas and is part of the program.
#pragma once

#include <span>
#include <string_view>

namespace shankline {

struct OutputSchema {
  std::string_view name; ///< as schema takes it: "solution"
  std::string_view text;
};

/// By name.
std::span<const OutputSchema> output_schemas();

} // namespace shankline
