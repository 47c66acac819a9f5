// The moment that a finished file says it was made at.
#pragma once

#include <cstdint>
#include <optional>
#include <stdexcept>

namespace shankline {

/// A variable of the environment that does not hold what it should.
struct EnvironmentFault : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// SOURCE_DATE_EPOCH, seconds since 1970-01-01 00:00 UTC; nullopt if it is not set: then a file
/// holds no date, and the same order gives the same bytes on any day. As its specification asks,
/// something else in it is an error: EnvironmentFault.
std::optional<std::int64_t> source_date();

} // namespace shankline
