#include "tests/support/places.hpp"

namespace shankline::tests::places {

const std::string program = SHANKLINE_BINARY;
const std::string failing_calls = SHANKLINE_FAILING_CALLS;
const std::string source_tree = SHANKLINE_ROOT;
const std::string samples = source_tree + "/samples";
const std::string cases = source_tree + "/tests/cases";
const std::string kept = source_tree + "/tests/fuzz/kept/order_fuzz";

} // namespace shankline::tests::places
