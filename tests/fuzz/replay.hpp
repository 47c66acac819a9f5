// The targets of all fuzzers in one program.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace shankline::tests {

struct FuzzTarget {
  std::string name;
  int (*run)(const std::uint8_t* bytes, std::size_t size);
};

/// Made by CMake from the files of tests/fuzz.
extern const std::vector<FuzzTarget> fuzz_targets;

} // namespace shankline::tests
